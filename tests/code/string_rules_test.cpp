// Strings: limits by place, the length they allow, what an engineer or a converter states. Expected
// values worked by hand; limits of 690.7 from electricallicenserenewal.com sectionID=961 and notes
// on the 2025 California Electrical Code.
#include "base/drafting_case.h"
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

/// A module of 40 V when cold (no coefficient: at 25 C by the table), 30 V hot and cold.
StringLimits plain(double input_limit, ArrayPlace place = ArrayPlace::building) {
    return {.module = {.voc = Volts{40}, .vmp = Volts{30}, .vmp_per_celsius = 0.0},
            .input = {.input_limit = Volts{input_limit}},
            .place = place,
            .coldest = Celsius{25},
            .hottest_cell = Celsius{70}};
}

StringRange range_of(const StringLimits& limits) {
    TestDesk desk;
    return string_length(desk, limits);
}

} // namespace

TEST_CASE("the building's limit by place and edition") {
    for (const Edition edition : all_editions) {
        TestDesk dwelling(edition), building(edition), ground(edition);
        CHECK(building_voltage_limit(dwelling, ArrayPlace::dwelling).value == Volts{600});
        CHECK(building_voltage_limit(building, ArrayPlace::building).value == Volts{1000});
        CHECK(building_voltage_limit(ground, ArrayPlace::ground).value == Volts{1500});
    }
    TestDesk before(Edition::nec2020), since(Edition::nec2023);
    building_voltage_limit(before, ArrayPlace::dwelling);
    building_voltage_limit(since, ArrayPlace::dwelling);
    CHECK(text(before.line("building_limit").cite) == "NEC 2020 690.7");
    CHECK(text(since.line("building_limit").cite) == "NEC 2023 690.7(2)");
    CHECK(since.line("building_limit").cite.unverified);
    CHECK(since.line("building_limit").source == "on or in a one- or two-family dwelling");
}

TEST_CASE("the lowest limit governs and is named") {
    CHECK(range_of(plain(1500)).most == 25); // 1000 / 40
    CHECK(range_of(plain(1500)).most_governs == "building limit governs");
    CHECK(range_of(plain(600)).most == 15);
    CHECK(range_of(plain(600)).most_governs == "inverter input limit governs");
    CHECK(range_of(plain(600, ArrayPlace::dwelling)).most == 15);
    CHECK(range_of(plain(1000, ArrayPlace::dwelling)).most == 15);
    CHECK(range_of(plain(1000, ArrayPlace::dwelling)).most_governs == "building limit governs");
    StringLimits labeled = plain(1500, ArrayPlace::ground);
    labeled.module.system_voltage = Volts{1000};
    CHECK(range_of(labeled).most == 25);
    CHECK(range_of(labeled).most_governs == "module label governs");
    labeled.module.system_voltage = Volts{1500};
    CHECK(range_of(labeled).most == 37); // 1500 / 40 = 37.5
}

TEST_CASE("a limit holds exactly, and fails by the smallest step") {
    CHECK(range_of(plain(600)).most == 15);
    CHECK(range_of(plain(599.99)).most == 14);
    StringLimits one = plain(40);
    CHECK(range_of(one).most == 1);
    one.input.input_limit = Volts{39.99};
    CHECK(range_of(one).most == 0);
    CHECK_FALSE(range_of(one).possible());
}

TEST_CASE("the tracking window bounds a string on both sides") {
    StringLimits limits = plain(1000);
    limits.input.tracking_high = Volts{480}; // 480 / 30 = 16
    limits.input.tracking_low = Volts{150};  // 150 / 30 = 5
    CHECK(range_of(limits).most == 16);
    CHECK(range_of(limits).most_governs == "tracking window governs");
    limits.input.tracking_high = Volts{750}; // 750 / 30 = 25, as many as 1000 / 40
    CHECK(range_of(limits).most == 25);
    CHECK(range_of(limits).most_governs == "building limit governs");
    limits.input.tracking_high = Volts{480};
    CHECK(range_of(limits).fewest == 5);
    CHECK(range_of(limits).fewest_governs == "tracking window governs");
    limits.input.tracking_low = Volts{150.01};
    CHECK(range_of(limits).fewest == 6);
    limits.input.start = Volts{200}; // 200 / 30 = 6.7
    CHECK(range_of(limits).fewest == 7);
    CHECK(range_of(limits).fewest_governs == "start voltage governs");
}

TEST_CASE("a window that no string meets is not possible") {
    StringLimits limits = plain(200); // at most 5
    limits.input.tracking_low = Volts{180};
    CHECK_FALSE(range_of(limits).possible()); // at least 6
    limits.input.tracking_low = Volts{150};
    CHECK(range_of(limits).possible());
}

TEST_CASE("hot modules by the coefficient of the voltage at maximum power") {
    StringLimits limits = plain(1000);
    limits.module.vmp_per_celsius = -0.004;
    limits.input.tracking_low = Volts{150};
    TestDesk desk;
    const auto range = string_length(desk, limits);
    // 30 V × (1 − 0.004 × 45) = 24.6 V; 150 / 24.6 = 6.1
    CHECK(desk.line("hot_power_point").value == Approx(24.6));
    CHECK(range.fewest == 7);
    CHECK(desk.line("fewest_in_series").formula == "V_track,min ÷ V_mp.hot");
    CHECK(desk.line("fewest_in_series").governs == "tracking window governs");
    CHECK(desk.line("most_in_series").governs == "building limit governs");
}

TEST_CASE("without a coefficient of it no shortest string is told") {
    StringLimits limits = plain(1000);
    limits.module.vmp_per_celsius.reset();
    limits.input.tracking_low = Volts{150};
    const auto range = range_of(limits);
    CHECK_FALSE(range.fewest);
    CHECK(range.possible());
}

TEST_CASE("the table is for crystalline silicon without a coefficient, down to its end") {
    StringLimits limits = plain(1000);
    limits.coldest = Celsius{-40};
    CHECK(range_of(limits).most == 20); // 40 V × 1.25 = 50 V
    limits.coldest = Celsius{-40.1};
    TestDesk cold;
    CHECK_FALSE(string_length(cold, limits).known);
    CHECK(cold.line("cold_open_circuit_voltage").verdict == Verdict::fail);
    CHECK(cold.line("cold_open_circuit_voltage").comparison ==
          "no coefficient is stated, and Table 690.7(A) ends above −40.1 °C");
    limits.coldest = Celsius{-5};
    limits.module.cells = CellKind::other;
    TestDesk other;
    CHECK_FALSE(string_length(other, limits).possible());
    CHECK(other.line("cold_open_circuit_voltage").comparison ==
          "no coefficient is stated, and Table 690.7(A) is for crystalline silicon alone");
}

TEST_CASE("the module's instructions prevail over the table") {
    StringLimits limits = plain(1000);
    limits.coldest = Celsius{-5};
    limits.module.voc_per_celsius = -0.003;
    limits.module.cells = CellKind::other;
    TestDesk desk;
    CHECK(string_length(desk, limits).cold_voltage.value.value == Approx(40 * 1.09));
    CHECK(text(desk.line("cold_open_circuit_voltage").cite) == "NEC 2023 690.7(A)(1)");
}

TEST_CASE("a stated string against the range") {
    StringLimits limits = plain(600);
    limits.input.tracking_low = Volts{150};
    const auto verdict = [&](int stated) {
        TestDesk desk;
        const auto range = string_length(desk, limits);
        return check_string_length(desk, range, stated);
    };
    CHECK(verdict(15).passes);
    CHECK(verdict(15).statement == "a string of 15 is from 5 to 15");
    CHECK(drafting_case(verdict(15).statement) == "A STRING OF 15 IS FROM 5 TO 15");
    CHECK(verdict(5).passes);
    CHECK_FALSE(verdict(16).passes);
    CHECK(verdict(16).statement == "a string of 16 is more than 15: inverter input limit governs");
    CHECK_FALSE(verdict(4).passes);
    CHECK(verdict(4).statement == "a string of 4 is fewer than 5: tracking window governs");
    CHECK(verdict(5).statement.starts_with("a string of 5 is from 5 to "));
    CHECK(verdict(4).rule == "module.series");
}

TEST_CASE("the voltage of a string against every limit") {
    StringLimits limits = plain(600, ArrayPlace::dwelling);
    limits.module.system_voltage = Volts{1000};
    const auto verdicts = [&](int in_series) {
        TestDesk desk;
        const auto range = string_length(desk, limits);
        return check_string_voltage(desk, string_voltage(desk, range.cold_voltage, in_series),
                                    limits);
    };
    CHECK(all_pass(verdicts(15)));
    const auto failed = verdicts(16); // 640 V
    CHECK_FALSE(verdict_of(failed, "pv.voltage.limit")->passes);
    CHECK_FALSE(verdict_of(failed, "inverter.input.voltage")->passes);
    CHECK(verdict_of(failed, "module.system_voltage")->passes);
    CHECK(verdict_of(failed, "pv.voltage.limit")->statement == "640 V > 600 V");
}

TEST_CASE("an engineer's voltage from 100 kW on, documented") {
    const auto accepted = [](double watts, bool documented) {
        TestDesk desk(Edition::nec2017);
        return engineered_voltage(desk, {Volts{980}, Watts{watts}, documented}).voltage.has_value();
    };
    CHECK(accepted(100000, true));
    CHECK_FALSE(accepted(99999, true));
    CHECK_FALSE(accepted(100000, false));
    TestDesk desk;
    const auto result = engineered_voltage(desk, {Volts{980}, Watts{150000}, true});
    CHECK(result.voltage->value == Volts{980});
    CHECK(text(desk.line("string_voltage").cite) == "NEC 2023 690.7(A)(3)");
    CHECK(desk.line("string_voltage").source == "as the engineer's design states");
}

TEST_CASE("voltage of dc-to-dc converters, alone and in series") {
    TestDesk one, several, told;
    CHECK(converter_voltage(one, {.rated_output = Volts{80}}).value == Volts{80});
    CHECK(text(one.line("converter_voltage").cite) == "NEC 2023 690.7(B)(1)");
    CHECK(converter_voltage(several, {.rated_output = Volts{80}, .in_series = 10}).value ==
          Volts{800});
    CHECK(several.line("converter_voltage").formula == "10 × V_converter");
    CHECK(text(several.line("converter_voltage").cite) == "NEC 2023 690.7(B)(2)");
    CHECK(converter_voltage(
              told, {.rated_output = Volts{80}, .in_series = 10, .by_instructions = Volts{480}})
              .value == Volts{480});
    CHECK(told.line("converter_voltage").source == "instructions of the converters");
}

TEST_CASE("a tracking window's top asks nothing of modules whose coefficient is not stated") {
    StringLimits limits = plain(1000);
    limits.input.tracking_high = Volts{300}; // 10 modules of 30 V
    CHECK(range_of(limits).most == 10);
    CHECK(range_of(limits).most_governs == "tracking window governs");
    limits.module.vmp_per_celsius.reset();
    CHECK(range_of(limits).most == 25); // 1000 / 40: the limit alone
}

TEST_CASE("a number in series is judged only where the range is known") {
    TestDesk unknown;
    const auto verdict = check_string_length(unknown, {}, 10);
    CHECK_FALSE(verdict.passes);
    CHECK(verdict.statement == "a string of 10: the highest voltage cannot be told");
    const auto known = [](int most, std::optional<int> fewest) {
        StringRange range;
        range.known = true;
        range.most = most;
        range.fewest = fewest;
        return range;
    };
    TestDesk few, many, none;
    CHECK_FALSE(check_string_length(few, known(12, 8), 7).passes);
    CHECK_FALSE(check_string_length(many, known(12, 8), 13).passes);
    // One module alone is above the limit: nothing is possible, nor is a string of none.
    CHECK_FALSE(known(0, {}).possible());
    CHECK_FALSE(check_string_length(none, known(0, {}), 0).passes);
    CHECK_FALSE(known(5, 8).possible());
    CHECK_FALSE(known(0, 0).possible());
    CHECK(known(8, 8).possible());
}
