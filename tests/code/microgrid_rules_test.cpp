// Microgrids and islands. By hand.
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

Term<Watts> watts(double value, const char* symbol = "S") { return given(symbol, Watts{value}); }

IslandCapacity island(const std::vector<IslandSource>& sources,
                      const std::vector<IslandLoad>& loads, bool count_variable = false) {
    TestDesk desk;
    return check_island_capacity(desk, sources, loads, count_variable);
}

Single120Input single_120(double sources, double bus) {
    return {.sources = amps(sources, "I_src"),
            .neutral_bus = amps(bus, "I_bus"),
            .no_240_volt_outlets = true,
            .no_multiwire_circuits = true,
            .marked = true};
}

} // namespace

TEST_CASE("sources of an island carry its largest load") {
    const std::vector<IslandSource> one = {{.name = "ESS", .output = watts(5760)}};
    CHECK(island(one, {{.name = "pump", .power = watts(5760)}}).passes);
    CHECK_FALSE(island(one, {{.name = "pump", .power = watts(5761)}}).passes);
    // The largest load, not their sum.
    const auto two = island(
        one, {{.name = "range", .power = watts(5000)}, {.name = "pump", .power = watts(3000)}});
    CHECK(two.passes);
    CHECK(two.largest == "range");
    // A load that is held off does not count.
    CHECK(island(one, {{.name = "range", .power = watts(9600), .shed = true},
                       {.name = "pump", .power = watts(3000)}})
              .passes);
    CHECK(island(one, {}).passes);
}

TEST_CASE("sources add up; those of the sun only where the load is meant for them") {
    const std::vector<IslandSource> sources = {
        {.name = "ESS 1", .output = watts(3840, "S_1")},
        {.name = "ESS 2", .output = watts(3840, "S_2")},
        {.name = "PV", .output = watts(5000, "S_pv"), .variable = true}};
    const std::vector<IslandLoad> load = {{.name = "well pump", .power = watts(8000)}};
    CHECK_FALSE(island(sources, load).passes); // 7.68 kVA
    CHECK(island(sources, load, true).passes); // 12.68 kVA
    TestDesk desk(Edition::nec2017);
    check_island_capacity(desk, sources, load);
    CHECK(desk.line("island_sources").formula == "S_1 + S_2");
    CHECK(desk.line("island_sources").result == "7.68 kVA");
    CHECK(text(desk.line("island_capacity").cite) == "NEC 2017 710.15(A)");
    TestDesk later(Edition::nec2020);
    check_island_capacity(later, sources, load);
    CHECK(text(later.line("island_capacity").cite) == "NEC 2020 705.80");
}

TEST_CASE("single 120 V supply: sources below the neutral bus, no 240 V, no multiwire circuits") {
    const auto checked = [](const Single120Input& input) {
        TestDesk desk;
        return check_single_120_volt_supply(desk, input);
    };
    CHECK(all_pass(checked(single_120(99, 100))));
    CHECK_FALSE(all_pass(checked(single_120(100, 100)))); // less than, not equal
    auto input = single_120(50, 100);
    input.no_multiwire_circuits = false;
    CHECK(fails(checked(input), "island.single_120"));
    input = single_120(50, 100);
    input.no_240_volt_outlets = false;
    CHECK_FALSE(all_pass(checked(input)));
    input = single_120(50, 100);
    input.marked = false;
    CHECK_FALSE(all_pass(checked(input)));
}

TEST_CASE("microgrid interconnect device") {
    const MicrogridInput whole{.connected_by = "load side, sum of breakers",
                               .device_listed = true,
                               .at_each_connection = true,
                               .opens_all = true,
                               .controller_listed = true,
                               .returns_in_step = true};
    for (const Edition edition : all_editions) {
        TestDesk desk(edition), nothing(edition);
        CHECK(all_pass(check_microgrid(desk, whole)));
        const auto none = check_microgrid(nothing, {});
        CHECK(fails(none, "microgrid.connection"));
        CHECK(fails(none, "microgrid.device"));
        CHECK(fails(none, "microgrid.reconnection"));
        // The 2017 edition has no rule for its control.
        CHECK(fails(none, "microgrid.controller") == (edition != Edition::nec2017));
    }
    TestDesk desk(Edition::nec2017);
    check_microgrid(desk, whole);
    CHECK(text(desk.line("microgrid_device_listed").cite) == "NEC 2017 705.170");
}

TEST_CASE("the largest load is found wherever it stands") {
    const std::vector<IslandSource> one = {{.name = "ESS", .output = watts(5760)}};
    const auto later = island(
        one, {{.name = "pump", .power = watts(3000)}, {.name = "range", .power = watts(5761)}});
    CHECK(later.largest == "range");
    CHECK_FALSE(later.passes);
}
