// Working space and reach. Depths: NEC Table 110.26(A)(1) as printed at ecmag.com (July 2016), rows
// to 600 V; 30 in and 6.5 ft: ecmag.com, General Installation Requirements part XIX. 6 ft 7 in and
// 6 in: from memory of 404.8(A), 240.24(A) and 110.26(A)(3).
#include "code/working_space_rules.h"

#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

Feet in(double inches) { return Feet{inches / 12}; }

WorkingSpaceInput disconnect() {
    return {.to_ground = Volts{120}, .equipment_width = in(8), .equipment_top = in(66)};
}

double depth(double volts, Opposite opposite, Edition edition = Edition::nec2023) {
    TestDesk desk(edition);
    WorkingSpaceInput input = disconnect();
    input.to_ground = Volts{volts};
    input.opposite = opposite;
    return judge_working_space(desk, input).needed.depth.value;
}

bool fits(const WorkingSpaceInput& input, const char* rule) {
    TestDesk desk;
    const auto verdicts = judge_working_space(desk, input).verdicts;
    REQUIRE(verdict_of(verdicts, rule) != nullptr);
    return !fails(verdicts, rule);
}

} // namespace

TEST_CASE("depth of working space as printed, in all editions") {
    for (const Edition edition : {Edition::nec2017, Edition::nec2020, Edition::nec2023}) {
        CHECK(depth(120, Opposite::nothing, edition) == 3.0);
        CHECK(depth(150, Opposite::grounded, edition) == 3.0);
        CHECK(depth(150, Opposite::live, edition) == 3.0);
        CHECK(depth(151, Opposite::nothing, edition) == 3.0);
        CHECK(depth(277, Opposite::grounded, edition) == 3.5);
        CHECK(depth(600, Opposite::live, edition) == 4.0);
        // The rows begin where the one before ends: between 150 and 151 V the next one holds.
        CHECK(depth(150.5, Opposite::live, edition) == 4.0);
        CHECK(depth(600.5, Opposite::live, edition) == 5.0);
    }
}

TEST_CASE("width is 30 in or that of the equipment, height 6.5 ft or that of the equipment") {
    TestDesk small;
    const WorkingSpace least = judge_working_space(small, disconnect()).needed;
    CHECK(least.width.value == Approx(30.0 / 12));
    CHECK(least.height.value == Approx(6.5));
    WorkingSpaceInput input = disconnect();
    input.equipment_width = in(36);
    input.equipment_top = in(84);
    TestDesk large;
    const WorkingSpace more = judge_working_space(large, input).needed;
    CHECK(more.width.value == Approx(3.0));
    CHECK(more.height.value == Approx(7.0));
    CHECK(large.line("space_depth").cite.section == "Table 110.26(A)(1)");
    CHECK(large.line("space_width").cite.section == "110.26(A)(2)");
    CHECK(large.line("space_height").cite.section == "110.26(A)(3)");
}

TEST_CASE("what is free is held against what is needed, each by the smallest step") {
    WorkingSpaceInput input = disconnect();
    input.depth = Feet{3};
    input.width = in(30);
    input.height = Feet{6.5};
    for (const char* rule : {"space.depth", "space.width", "space.height"})
        CHECK(fits(input, rule));
    input.depth = in(35);
    input.width = in(29);
    input.height = in(77);
    for (const char* rule : {"space.depth", "space.width", "space.height"})
        CHECK_FALSE(fits(input, rule));
}

TEST_CASE("what is not said to be free is not judged") {
    TestDesk desk;
    CHECK(judge_working_space(desk, disconnect()).verdicts.empty());
}

TEST_CASE("a door wider than the free depth does not open 90 degrees") {
    WorkingSpaceInput input = disconnect();
    input.depth = Feet{3};
    input.door = in(36);
    CHECK(fits(input, "space.doors"));
    input.door = in(37);
    CHECK_FALSE(fits(input, "space.doors"));
}

TEST_CASE("handles are within 6 ft 7 in") {
    const auto reach = [](HandleKind kind, Feet height) {
        TestDesk desk;
        return check_reach(desk, kind, height);
    };
    CHECK(reach(HandleKind::switch_handle, in(79)).passes);
    CHECK_FALSE(reach(HandleKind::switch_handle, in(80)).passes);
    CHECK(reach(HandleKind::breaker_handle, in(79)).passes);
    CHECK_FALSE(reach(HandleKind::breaker_handle, in(80)).passes);
    TestDesk desk;
    check_reach(desk, HandleKind::switch_handle, in(60));
    CHECK(desk.line("reach").cite.section == "404.8(A)");
    TestDesk breaker;
    check_reach(breaker, HandleKind::breaker_handle, in(60));
    CHECK(breaker.line("reach").cite.section == "240.24(A)");
}

TEST_CASE("other electrical equipment reaches 6 in beyond the front, other things not at all") {
    TestDesk desk;
    CHECK(check_projection(desk, "A", in(6)).passes);
    CHECK_FALSE(check_projection(desk, "B", in(6.1)).passes);
    CHECK(check_clear(desk, "shelf", false).passes);
    CHECK_FALSE(check_clear(desk, "bench", true).passes);
}

TEST_CASE("the table of depths reaches to 1000 V to ground, beyond it a caller is at fault") {
    for (const Edition edition : all_editions) {
        const CodeBook book(edition);
        CHECK(highest_to_ground(book) == Volts{1000});
        // 3, 4 and 5 ft, from memory; each column grows as it does from the first row to the
        // second.
        CHECK(depth(1000, Opposite::nothing, edition) == 3.0);
        CHECK(depth(1000, Opposite::grounded, edition) == 4.0);
        CHECK(depth(1000, Opposite::live, edition) == 5.0);
        CHECK_THROWS_AS(depth(1000.5, Opposite::live, edition), std::logic_error);
    }
}

TEST_CASE("a door asks for its width of what is free in front, where that is given") {
    WorkingSpaceInput input = disconnect();
    input.door = Feet{3.5};
    TestDesk unknown;
    CHECK(verdict_of(judge_working_space(unknown, input).verdicts, "space.doors") == nullptr);
    input.depth = Feet{3.5};
    CHECK(fits(input, "space.doors"));
    input.depth = Feet{3.4};
    CHECK_FALSE(fits(input, "space.doors"));
}

TEST_CASE("reach of switches is of 404.8, of breakers of 240.24") {
    const CodeBook book(Edition::nec2023);
    CHECK(reach_section(book, HandleKind::switch_handle).section == "404.8(A)");
    CHECK(reach_section(book, HandleKind::breaker_handle).section == "240.24(A)");
    CHECK(highest_grip(book).value == Approx(79.0 / 12)); // 6 ft 7 in
}
