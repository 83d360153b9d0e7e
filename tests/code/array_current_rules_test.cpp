// Currents of arrays and their conductors. Expected values worked by hand; rules of 690.8 from
// ecmweb.com 21118599 and notes on the 2025 California Electrical Code.
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

TEST_CASE("strings together carry the sum of their currents") {
    TestDesk desk(Edition::nec2020);
    const auto out =
        output_circuit_current(desk, {amps(11, "I_1"), amps(11, "I_2"), amps(12.5, "I_3")});
    CHECK(out.value.value == Approx(34.5));
    CHECK(desk.line("output_circuit_current").formula == "I_1 + I_2 + I_3");
    CHECK(text(desk.line("output_circuit_current").cite) == "NEC 2020 690.8(A)(1)(b)");
    CHECK_THROWS_AS(output_circuit_current(desk, {}), std::logic_error);
}

TEST_CASE("converters are taken at their output, without 125 %") {
    TestDesk one, three(Edition::nec2017);
    CHECK(converter_circuit_current(one, Amps{15}, 1).value == Amps{15});
    CHECK(converter_circuit_current(three, Amps{15}, 3).value == Amps{45});
    CHECK(text(one.line("converter_circuit_current").cite) == "NEC 2023 690.8(A)(1)(b)");
    CHECK(text(three.line("converter_circuit_current").cite) == "NEC 2017 690.8(A)(5)");
}

TEST_CASE("an engineer's current: 100 kW, documented, 70 % at least") {
    // 125 % of the short-circuit currents is 100 A, so 70 A is the least.
    const auto result = [](double mean, double watts, bool documented) {
        TestDesk desk;
        return engineered_current(desk, amps(100, "I_max"), {Amps{mean}, Watts{watts}, documented});
    };
    CHECK(result(70, 100000, true).accepted);
    CHECK(result(70, 100000, true).current.value == Amps{70});
    CHECK_FALSE(result(69.99, 100000, true).accepted);
    CHECK(result(69.99, 100000, true).current.value == Amps{100});
    CHECK_FALSE(result(85, 99999, true).accepted);
    CHECK_FALSE(result(85, 100000, false).accepted);
    TestDesk desk(Edition::nec2017);
    engineered_current(desk, amps(100, "I_max"), {Amps{85}, Watts{200000}, true});
    CHECK(text(desk.line("engineered_current").cite) == "NEC 2017 690.8(A)(1)(2)");
    CHECK(desk.line("engineered_current_share").comparison == "85 A ≥ 70 A");
}

TEST_CASE("from 2020 the rated input current, where the device protects the conductors") {
    const auto result = [](Edition edition, std::optional<Amps> device) {
        TestDesk desk(edition);
        return converter_input_current(
            desk, amps(34.75, "I_max"),
            {.rated_input = Amps{26}, .device = device, .conductor_ampacity = Amps{40}});
    };
    CHECK(result(Edition::nec2020, Amps{40}).accepted);
    CHECK(result(Edition::nec2020, Amps{40}).current.value == Amps{26});
    CHECK(result(Edition::nec2023, Amps{40}).accepted);
    CHECK_FALSE(result(Edition::nec2023, Amps{40.01}).accepted);
    CHECK(result(Edition::nec2023, Amps{45}).current.value == Amps{34.75});
    CHECK_FALSE(result(Edition::nec2023, std::nullopt).accepted);
    CHECK_FALSE(result(Edition::nec2017, Amps{40}).accepted);
    CHECK(result(Edition::nec2017, Amps{40}).verdicts.empty());
}

TEST_CASE("short-circuit current of an input, and what it cuts off") {
    const auto result = [](double limit, double operating) {
        TestDesk desk;
        return check_tracker_currents(desk, {.isc = Amps{13.9},
                                             .imp = Amps{13},
                                             .parallel = 2,
                                             .short_circuit_limit = Amps{limit},
                                             .operating_limit = Amps{operating}});
    };
    CHECK(all_pass(result(27.8, 26).verdicts));
    CHECK_FALSE(all_pass(result(27.79, 26).verdicts));
    CHECK_FALSE(result(27.8, 26).clipped);
    CHECK(result(27.8, 25.9).clipped);
    CHECK(all_pass(result(27.8, 25.9).verdicts)); // cut off is no fault
}

TEST_CASE("conductors: 125 % before corrections, 100 % after them, whichever is larger") {
    const auto size = [](double ambient, bool full_rating) {
        TestDesk desk;
        ConductorInput conditions;
        conditions.smallest = wire("14");
        conditions.ambient = Celsius{ambient};
        return size_dc_conductor(
                   desk, {.current = amps(17.375, "I_max"), .assembly_at_full_rating = full_rating},
                   conditions)
            .conductor.size;
    };
    // 1.25 × 17.375 = 21.72 A: 14 AWG carries 20 A at 75 C, 12 AWG 25 A.
    CHECK(size(30, false) == wire("12"));
    // 1.00 × 17.375 A: 14 AWG.
    CHECK(size(30, true) == wire("14"));
    // At 70 C 12 AWG carries 30 × 0.58 = 17.4 A: still enough for 17.375 A.
    CHECK(size(70, false) == wire("12"));
    // At 75 C 30 × 0.50 = 15 A is not: 10 AWG carries 20 A.
    CHECK(size(75, false) == wire("10"));
}

TEST_CASE("an unprotected circuit is not held to a device, but to what others feed into it") {
    const auto passes = [](double backfeed) {
        TestDesk desk;
        ConductorInput conditions;
        conditions.stated = wire("14");
        const auto result = size_dc_conductor(
            desk, {.current = amps(12, "I_max"), .backfeed = amps(backfeed, "I_back")}, conditions);
        CHECK(text(desk.line("corrected_check").cite) == "NEC 2023 690.8(B)(2)");
        CHECK_FALSE(desk.has("protection_check"));
        CHECK_FALSE(desk.has("small_conductor_check"));
        return result.passes();
    };
    CHECK(passes(20)); // 14 AWG at terminations of 75 C
    CHECK_FALSE(passes(20.01));
}

TEST_CASE("a device over several strings: each conductor carries it and the other strings") {
    // Device 40 A, two other strings of 12 A: 64 A. 6 AWG carries 65 A at 75 C, 8 AWG 50 A.
    const auto passes = [](const char* stated, double other) {
        TestDesk desk;
        ConductorInput conditions;
        conditions.stated = wire(stated);
        const auto result =
            size_dc_conductor(desk,
                              {.current = amps(12, "I_max"),
                               .device = amps(40, "I_ocpd"),
                               .other_strings = {amps(12, "I_2"), amps(other, "I_3")}},
                              conditions);
        return verdict_of(result.verdicts, "pv.conductor.shared_device")->passes;
    };
    CHECK(passes("6", 12));
    CHECK(passes("6", 13));
    CHECK_FALSE(passes("6", 13.01));
    CHECK_FALSE(passes("8", 12));
}

TEST_CASE("single conductors in free air by their own table") {
    const auto corrected = [](bool free_air) {
        TestDesk desk(Edition::nec2020);
        ConductorInput conditions;
        conditions.stated = wire("10");
        conditions.ambient = Celsius{70};
        conditions.free_air = free_air;
        const auto result = size_dc_conductor(desk, {.current = amps(17.375, "I_max")}, conditions);
        CHECK(desk.line("ampacity_insulation").source ==
              (free_air ? "Table 310.17, 10 AWG CU, 90 °C column"
                        : "Table 310.16, 10 AWG CU, 90 °C column"));
        return result.conductor.ampacity_corrected.value;
    };
    CHECK(corrected(true) == Approx(55 * 0.58)); // 55 A in free air, 0.58 at 70 C
    CHECK(corrected(false) == Approx(40 * 0.58));
}

TEST_CASE("aluminum is not run loose") {
    TestDesk desk;
    ConductorInput conditions;
    conditions.stated = wire("8");
    conditions.material = Material::aluminum;
    conditions.free_air = true;
    const auto result = size_dc_conductor(desk, {.current = amps(12, "I_max")}, conditions);
    CHECK_FALSE(result.passes());
    CHECK(result.conductor.faults.front() == "8 AWG AL is not listed in Table 310.17");
}

TEST_CASE("a single string at an input, whose operating current is cut off or not") {
    // 11 A of short circuit within 12.5 A; 10.4 A at work against 10 A that the input uses.
    TrackerCurrents input{.isc = Amps{11}, .imp = Amps{10.4}, .short_circuit_limit = Amps{12.5}};
    TestDesk none, cut, within, two;
    auto result = check_tracker_currents(none, input);
    CHECK(all_pass(result.verdicts));
    CHECK_FALSE(result.clipped);
    CHECK_FALSE(none.has("input_operating_current"));
    CHECK(none.line("input_current_kept").formula == "I_sc ≤ I_in,max");
    input.operating_limit = Amps{10};
    result = check_tracker_currents(cut, input);
    CHECK(result.clipped);
    CHECK(all_pass(result.verdicts)); // no fault
    CHECK(cut.line("input_operating_current").result == "10.40 A is cut off at 10 A");
    input.operating_limit = Amps{10.4};
    CHECK_FALSE(check_tracker_currents(within, input).clipped);
    CHECK(within.line("input_operating_current").result == "10.40 A is within 10.40 A");
    input.parallel = 2;
    CHECK(fails(check_tracker_currents(two, input).verdicts, "inverter.input.current")); // 22 A
}

TEST_CASE("what others feed in is asked of conductors without a device alone") {
    DcCircuit circuit{.current = amps(10, "I_max"), .backfeed = amps(500, "I_back")};
    TestDesk open, protected_by_device;
    const auto bare = size_dc_conductor(open, circuit, {});
    CHECK(fails(bare.verdicts, "pv.overcurrent.omitted"));
    CHECK_FALSE(bare.passes());
    circuit.device = amps(15, "I_d");
    const auto fused = size_dc_conductor(protected_by_device, circuit, {});
    CHECK(fused.verdicts.empty());
    CHECK(fused.passes());
}

TEST_CASE("a current that no conductor carries leaves nothing else to ask") {
    const DcCircuit circuit{.current = amps(5000, "I_max"), .backfeed = amps(1, "I_back")};
    TestDesk desk;
    const auto result = size_dc_conductor(desk, circuit, {});
    CHECK_FALSE(result.conductor.found);
    CHECK(result.verdicts.empty());
    CHECK_FALSE(result.passes());
}

TEST_CASE("a stated conductor that is too small does not pass") {
    ConductorInput conditions;
    conditions.stated = wire("12");
    TestDesk desk;
    const auto result = size_dc_conductor(desk, {.current = amps(100, "I_max")}, conditions);
    CHECK(result.conductor.found);
    CHECK_FALSE(result.passes());
}
