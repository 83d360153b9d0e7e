// What must hold of direct-current circuits whatever the numbers.
#include <cmath>

#include "catch.h"
#include "sequence.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

constexpr int tries = 300;

StringLimits any_limits(Sequence& sequence) {
    StringLimits limits{.module = {.voc = Volts{sequence.tenths(20, 60)}},
                        .input = {.input_limit = Volts{double(sequence.whole(200, 1500))},
                                  .tracking_low = Volts{double(sequence.whole(60, 250))},
                                  .tracking_high = Volts{double(sequence.whole(300, 1300))}},
                        .place = static_cast<ArrayPlace>(sequence.whole(0, 2)),
                        .coldest = Celsius{double(sequence.whole(-40, 20))},
                        .hottest_cell = Celsius{double(sequence.whole(40, 85))}};
    limits.module.vmp = limits.module.voc * 0.83;
    limits.module.vmp_per_celsius = -sequence.tenths(2, 5) / 1000;
    if (sequence.whole(0, 1) == 0)
        limits.module.voc_per_celsius = -sequence.tenths(2, 4) / 1000;
    return limits;
}

StringRange range_of(Edition edition, const StringLimits& limits) {
    TestDesk desk(edition);
    return string_length(desk, limits);
}

StringFuseInput any_strings(Sequence& sequence) {
    StringFuseInput input{.string_current = amps(sequence.tenths(4, 22), "I_max"),
                          .parallel = sequence.whole(1, 8),
                          .module_fuse = Amps{double(sequence.whole(10, 35))}};
    if (sequence.whole(0, 2) == 0)
        input.backfeed = Amps{sequence.tenths(0, 10)};
    return input;
}

StringFuseResult fuse_of(Edition edition, const StringFuseInput& input) {
    TestDesk desk(edition);
    return size_string_fuse(desk, input);
}

} // namespace

TEST_CASE("colder never lowers the voltage, nor lengthens a string") {
    Sequence sequence(690);
    for (int i = 0; i < tries; ++i) {
        const Edition edition = sequence.edition();
        StringLimits limits = any_limits(sequence);
        const auto mild = range_of(edition, limits);
        limits.coldest = Celsius{limits.coldest.value - sequence.whole(0, 10)};
        const auto cold = range_of(edition, limits);
        if (!cold.known)
            continue; // below the end of the table
        CHECK(cold.cold_voltage.value >= mild.cold_voltage.value);
        CHECK(cold.most <= mild.most);
    }
}

TEST_CASE("a dwelling never takes a longer string than another building, nor that than the open") {
    Sequence sequence(690);
    for (int i = 0; i < tries; ++i) {
        StringLimits limits = any_limits(sequence);
        const auto most = [&](ArrayPlace place) {
            limits.place = place;
            return range_of(Edition::nec2023, limits).most;
        };
        CHECK(most(ArrayPlace::dwelling) <= most(ArrayPlace::building));
        CHECK(most(ArrayPlace::building) <= most(ArrayPlace::ground));
    }
}

TEST_CASE("the longest string keeps every limit, and one more module breaks one") {
    Sequence sequence(690);
    int compared = 0;
    for (int i = 0; i < tries; ++i) {
        StringLimits limits = any_limits(sequence);
        limits.input.tracking_high.reset();
        const auto range = range_of(Edition::nec2020, limits);
        if (range.most < 1)
            continue;
        ++compared;
        const auto passes = [&](int in_series) {
            TestDesk desk(Edition::nec2020);
            return all_pass(check_string_voltage(
                desk, string_voltage(desk, range.cold_voltage, in_series), limits));
        };
        CHECK(passes(range.most));
        CHECK_FALSE(passes(range.most + 1));
    }
    CHECK(compared > tries / 2);
}

TEST_CASE("more strings never need fewer fuses, nor smaller ones") {
    Sequence sequence(690);
    int needed = 0;
    for (int i = 0; i < tries; ++i) {
        const Edition edition = sequence.edition();
        StringFuseInput input = any_strings(sequence);
        const auto before = fuse_of(edition, input);
        input.parallel += sequence.whole(1, 4);
        const auto after = fuse_of(edition, input);
        CHECK(after.fuses >= before.fuses);
        CHECK((after.needed || !before.needed));
        if (before.rating && after.rating)
            CHECK(after.rating->value == before.rating->value);
        needed += after.needed ? 1 : 0;
    }
    CHECK(needed > tries / 2);
}

TEST_CASE("a larger label never calls for a fuse, more current never drops one") {
    Sequence sequence(690);
    for (int i = 0; i < tries; ++i) {
        StringFuseInput input = any_strings(sequence);
        const bool before = fuse_of(Edition::nec2023, input).needed;
        StringFuseInput larger = input;
        larger.module_fuse = Amps{input.module_fuse->value + sequence.whole(0, 10)};
        CHECK((before || !fuse_of(Edition::nec2023, larger).needed));
        StringFuseInput more = input;
        more.string_current =
            amps(input.string_current.value.value + sequence.tenths(0, 5), "I_max");
        CHECK((fuse_of(Edition::nec2023, more).needed || !before));
    }
}

TEST_CASE("the count of strings without fuses agrees with the verdict on each") {
    Sequence sequence(690);
    for (int i = 0; i < tries; ++i) {
        StringFuseInput input = any_strings(sequence);
        const int most = most_strings_without_fuses(input);
        for (int parallel = 1; parallel <= 12; ++parallel) {
            input.parallel = parallel;
            INFO(parallel << " strings of " << input.string_current.value.value << " A");
            CHECK(fuse_of(Edition::nec2023, input).needed == (parallel > most));
        }
    }
}

TEST_CASE("a fuse that was chosen passes as a stated one unless nothing fits") {
    Sequence sequence(690);
    for (int i = 0; i < tries; ++i) {
        const Edition edition = sequence.edition();
        StringFuseInput input = any_strings(sequence);
        const auto result = fuse_of(edition, input);
        if (!result.rating)
            continue;
        input.stated = result.rating->value;
        CHECK(fuse_of(edition, input).passes() == !result.conflict);
    }
}

TEST_CASE("an engineered current is never taken under its share, nor above the system's size") {
    Sequence sequence(690);
    for (int i = 0; i < tries; ++i) {
        TestDesk desk(sequence.edition());
        const double usual = sequence.tenths(10, 400);
        const EngineeredCurrent input{Amps{sequence.tenths(5, 400)},
                                      Watts{double(sequence.whole(50, 150)) * 1000},
                                      sequence.whole(0, 3) != 0};
        const auto result = engineered_current(desk, amps(usual, "I_max"), input);
        CHECK(result.current.value.value >= 0.70 * usual * (1 - 1e-9));
        if (result.accepted)
            CHECK((input.documented && input.generating_capacity.value >= 100000));
        else
            CHECK(result.current.value.value == usual);
    }
}

TEST_CASE("free air never lowers an ampacity, and the table rises with size and temperature") {
    const CodeBook book(Edition::nec2023);
    Amps previous{};
    int rows = 0;
    for (const WireSize size : book.listed_sizes(Material::copper)) {
        const auto at = [&](int column) {
            return book.ampacity_free_air(size, Material::copper, column);
        };
        if (!at(90))
            continue;
        ++rows;
        INFO(name(size));
        CHECK(*at(90) > previous);
        CHECK(*at(60) < *at(75));
        CHECK(*at(75) < *at(90));
        for (const int column : {60, 75, 90})
            CHECK(*at(column) >= *book.ampacity(size, Material::copper, column));
        // Heat out rises with the conductor's temperature above the air, heat in with its
        // resistance, which for copper is as 234.5 C + T; the table is in steps of 5 A.
        const auto share = [](double celsius) {
            return std::sqrt((celsius - 30) / (90 - 30) * (234.5 + 90) / (234.5 + celsius));
        };
        CHECK(std::abs(at(75)->value - at(90)->value * share(75)) <= 5);
        CHECK(std::abs(at(60)->value - at(90)->value * share(60)) <= 5);
        previous = *at(90);
    }
    CHECK(rows == 18);
}
