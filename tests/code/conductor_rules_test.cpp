// Conductor sizes: each check with the smallest step that passes and fails. Ampacities by hand from
// the published table in tests/data.
#include <algorithm>

#include "catch.h"
#include "try_conductor.h"

using namespace ohmfolio;

TEST_CASE("terminations: required ampacity against the column") {
    // 8 AWG copper: 40 A at 60 C, 50 A at 75 C.
    auto input = load(40, 50);
    input.stated = wire("8");
    CHECK(sized(input).passes);
    input.required = amps(50.01, "I_req");
    CHECK(fails(sized(input), "conductor.terminals.small"));
    input.required = amps(50, "I_req");
    input.terminals = Celsius{60};
    const auto at_60 = sized(input);
    CHECK(at_60.terminal_column == 60);
    CHECK(at_60.ampacity_terminals == Amps{40});
    CHECK(fails(at_60, "conductor.terminals.small"));
}

TEST_CASE("unmarked terminations above 100 A use the 75 C column") {
    auto input = load(80, 100);
    input.terminals = Celsius{60};
    CHECK(sized(input).terminal_column == 60);
    CHECK(sized(input).size == wire("1")); // 110 A at 60 C
    input = load(80, 100.5);               // 110.14(C)(1): 100 A or less, over 100 A
    input.terminals = Celsius{60};
    CHECK(sized(input).terminal_column == 75);
    input = load(80, 110);
    input.terminals = Celsius{60};
    CHECK(sized(input).terminal_column == 75);
    CHECK(sized(input).size == wire("2")); // 115 A at 75 C
}

TEST_CASE("terminations are never taken above the insulation") {
    auto input = load(20, 30);
    input.insulation_column = 60;
    input.terminals = Celsius{75};
    CHECK(sized(input).terminal_column == 60);
}

TEST_CASE("corrected ampacity against the continuous current") {
    // 6 AWG copper: 75 A at 90 C; 46-50 C: 0.82; 7-9 conductors: 0.70: 43.05 A.
    auto input = load(43.05, 50);
    input.required = amps(50, "I_req");
    input.ambient = Celsius{50};
    input.current_carrying = 9;
    input.stated = wire("6");
    const auto passes = sized(input);
    CHECK(passes.ampacity_corrected.value == Approx(43.05));
    CHECK_FALSE(fails(passes, "conductor.corrected"));
    input.continuous = amps(43.06, "I_cont");
    CHECK(fails(sized(input), "conductor.corrected"));
}

TEST_CASE("protection: the next standard rating above the ampacity and not one more") {
    // 8 AWG copper at 75 C: 50 A; corrected at 41-45 C for 4-6: 55 x 0.87 x 0.8 = 38.28 A: 40 A.
    auto input = load(10, 40);
    input.ambient = Celsius{45};
    input.current_carrying = 6;
    input.stated = wire("8");
    CHECK(sized(input).passes);
    input.overcurrent = amps(45, "I_ocpd");
    const auto result = sized(input);
    CHECK_FALSE(result.passes);
    CHECK(result.fault_rules == std::vector<std::string>{"conductor.protection"});
    CHECK(result.faults.front() ==
          "45 A device is above the 40 A that protects an ampacity of 38.28 A");
}

TEST_CASE("protection above 800 A is not rounded up") {
    // No single conductor reaches 800 A: the largest, 1000 kcmil copper at 75 C, has 545 A: 600 A.
    auto input = load(400, 600);
    input.stated = wire("1000");
    CHECK(sized(input).passes);
    input.overcurrent = amps(700, "I_ocpd");
    CHECK_FALSE(sized(input).passes);
}

TEST_CASE("small conductors: 15, 20 and 30 A") {
    for (const auto& [size, limit, next] :
         {std::tuple{"14", 15, 20}, std::tuple{"12", 20, 25}, std::tuple{"10", 30, 35}}) {
        auto input = load(5, limit);
        input.stated = wire(size);
        INFO(size << " AWG");
        CHECK(sized(input).passes);
        input.overcurrent = amps(next, "I_ocpd");
        CHECK(fails(sized(input), "conductor.small"));
    }
    auto input = load(5, 40);
    input.stated = wire("8");
    CHECK(sized(input).passes);
}

TEST_CASE("small aluminum conductors: 15 and 25 A") {
    for (const auto& [size, limit, next] : {std::tuple{"12", 15, 20}, std::tuple{"10", 25, 30}}) {
        auto input = load(5, limit);
        input.material = Material::aluminum;
        input.stated = wire(size);
        CHECK(sized(input).passes);
        input.overcurrent = amps(next, "I_ocpd");
        CHECK(fails(sized(input), "conductor.small"));
    }
}

TEST_CASE("rooftop adder: nearer than 7/8 in, in sun, unless the insulation is exempt") {
    auto input = load(10, 15);
    input.ambient = Celsius{37};
    input.on_roof = true;
    CHECK(sized(input).ambient == Celsius{70}); // lies on the roof
    input.above_roof = Feet{0.874 / 12};
    CHECK(sized(input).ambient == Celsius{70});
    input.above_roof = Feet{0.875 / 12};
    CHECK(sized(input).ambient == Celsius{37});
    input.above_roof = Feet{0};
    input.adder_exempt = true;
    CHECK(sized(input).ambient == Celsius{37});
    input.adder_exempt = false;
    input.on_roof = false;
    CHECK(sized(input).ambient == Celsius{37});
}

TEST_CASE("the rooftop adder is written as a sum") {
    TestDesk desk(Edition::nec2020);
    auto input = load(10, 15);
    input.ambient = Celsius{37};
    input.on_roof = true;
    size_conductor(desk, input);
    CHECK(desk.line("ambient").formula == "T_hot + 33 °C");
    CHECK(desk.line("ambient").figures == "37 °C + 33 °C");
    CHECK(desk.line("ambient").result == "70 °C");
    CHECK(text(desk.line("ambient").cite) == "NEC 2020 310.15(B)(2)");
    CHECK(desk.line("ambient_factor").source == "Table 310.15(B)(1) at 70 °C, 90 °C column");
}

TEST_CASE("dwelling service: 83 % of the rating") {
    // 200 A: 166 A needed; 2/0 copper 175 A, 4/0 aluminum 180 A at 75 C (Table 310.12(A) lists
    // both).
    auto input = load(0, 200);
    input.dwelling_service = true;
    CHECK(sized(input).size == wire("2/0"));
    input.material = Material::aluminum;
    CHECK(sized(input).size == wire("4/0"));
    // 100 A: 83 A; 4 AWG copper 85 A, 2 AWG aluminum 90 A.
    input.overcurrent = amps(100, "I_ocpd");
    CHECK(sized(input).size == wire("2"));
    input.material = Material::copper;
    CHECK(sized(input).size == wire("4"));
    input.stated = wire("6");
    const auto small = sized(input);
    CHECK(small.fault_rules == std::vector<std::string>{"conductor.dwelling_service"});
    CHECK(small.smallest_that_complies == wire("4"));
    CHECK(small.governs == "stated; 4 AWG is needed (share of the service rating governs)");
}

TEST_CASE("without the dwelling rule the same service needs the next sizes") {
    auto input = load(160, 200);
    CHECK(sized(input).size == wire("3/0")); // 200 A at 75 C
}

TEST_CASE("what excluded the next smaller size governs") {
    CHECK(sized(load(16, 20)).governs == "smallest size used");
    // 20 A of output behind 25 A: 12 AWG has 25 A at 75 C and 30 A at 90 C; 240.4(D) stops it at 20
    // A.
    CHECK(sized(load(20, 25)).size == wire("10"));
    CHECK(sized(load(20, 25)).governs == "small-conductor limit governs");
    // 64 A behind 80 A: 80 A required; 6 AWG has 65 A at 75 C, and 80 A is not the next above it.
    CHECK(sized(load(64, 80)).size == wire("4"));
    CHECK(sized(load(64, 80)).governs == "terminal ampacity governs");
    // 8 AWG carries 55 x 0.5 = 27.5 A of the 32 A when 10 are bundled; unbundled it would carry 55
    // A.
    auto bundled = load(32, 40);
    bundled.current_carrying = 10;
    CHECK(sized(bundled).size == wire("6"));
    CHECK(sized(bundled).governs == "bundling governs");
    // At 70 C 8 AWG has 55 x 0.58 = 31.9 A: just short of 32 A, and protected at 35 A only.
    auto hot = load(32, 40);
    hot.ambient = Celsius{70};
    CHECK(sized(hot).size == wire("6"));
    CHECK(sized(hot).governs == "ambient temperature governs");
    // 6 AWG has 75 A at 90 C, just the current: with either correction alone left out it would do.
    auto exact = load(75, 60);
    exact.required = amps(60, "I_req");
    exact.current_carrying = 6; // 0.8
    CHECK(sized(exact).size == wire("4"));
    CHECK(sized(exact).governs == "bundling governs");
    exact.current_carrying = 3;
    exact.ambient = Celsius{50}; // 0.82
    CHECK(sized(exact).size == wire("4"));
    CHECK(sized(exact).governs == "ambient temperature governs");
}

TEST_CASE("a stated size that is larger than needed says so") {
    auto input = load(16, 20);
    input.stated = wire("8");
    const auto result = sized(input);
    CHECK(result.passes);
    CHECK(result.size == wire("8"));
    CHECK(result.smallest_that_complies == wire("12"));
    CHECK(result.governs == "stated; 12 AWG would comply (smallest size used)");
}

TEST_CASE("too hot for any ampacity") {
    auto input = load(16, 20);
    input.ambient = Celsius{86};
    TestDesk desk;
    const auto result = size_conductor(desk, input);
    CHECK_FALSE(result.found);
    CHECK_FALSE(result.passes);
    REQUIRE(result.faults.size() == 1);
    CHECK(result.faults.front() == "no ampacity is permitted at 86 °C with 90 °C insulation");
    CHECK(desk.line("ambient_factor").verdict == Verdict::fail);
}

TEST_CASE("more current than any listed size carries") {
    const auto result = sized(load(700, 1000));
    CHECK_FALSE(result.found);
    CHECK(result.governs == "no listed size complies");
    CHECK_FALSE(result.faults.empty());
}

TEST_CASE("a size that the table does not list is a fault in words") {
    auto input = load(5, 15);
    input.material = Material::aluminum;
    input.stated = wire("14");
    CHECK(sized(input).faults ==
          std::vector<std::string>{"14 AWG AL is not listed in Table 310.16"});
}

TEST_CASE("all checks of the size are written, with rows, sections and verdicts") {
    TestDesk desk(Edition::nec2017);
    auto input = load(11.36, 20);
    input.ambient = Celsius{37};
    input.current_carrying = 4;
    size_conductor(desk, input);
    CHECK(desk.line("ampacity_terminals").source == "Table 310.15(B)(16), 12 AWG CU, 75 °C column");
    CHECK(desk.line("ampacity_insulation").source ==
          "Table 310.15(B)(16), 12 AWG CU, 90 °C column");
    CHECK(desk.line("bundling_factor").source ==
          "Table 310.15(B)(3)(a), 4 current-carrying conductors");
    CHECK(desk.line("ampacity_corrected").formula == "I_ins × C_a × C_b");
    CHECK(desk.line("ampacity_corrected").figures == "30 A × 0.91 × 0.8");
    CHECK(desk.line("ampacity_corrected").result == "21.84 A");
    CHECK(desk.line("ampacity").formula == "lesser of I_cor and I_term");
    CHECK(desk.line("largest_device").formula == "next standard rating ≥ I_z");
    CHECK(desk.line("largest_device").figures == "next standard rating ≥ 21.84 A");
    CHECK(desk.line("largest_device").result == "25 A");
    CHECK(desk.line("terminals_check").comparison == "25 A ≥ 14.20 A");
    CHECK(desk.line("corrected_check").comparison == "21.84 A ≥ 11.36 A");
    CHECK(desk.line("protection_check").comparison == "20 A ≤ 25 A");
    CHECK(desk.line("small_conductor_check").comparison == "20 A ≤ 20 A");
    CHECK(text(desk.line("small_conductor_check").cite) == "NEC 2017 240.4(D)(5)");
    CHECK(desk.line("size").result == "12 AWG CU");
    CHECK(desk.line("size").from ==
          std::vector<std::string>{"X.terminals_check", "X.corrected_check", "X.protection_check",
                                   "X.small_conductor_check"});
}

TEST_CASE("candidates that were tried leave no lines behind") {
    TestDesk desk;
    size_conductor(desk, load(64, 80));
    const auto of_terminals =
        std::count_if(desk.sheet.all().begin(), desk.sheet.all().end(),
                      [](const Derivation& d) { return d.name == "ampacity_terminals"; });
    CHECK(of_terminals == 1);
    CHECK(desk.line("ampacity_terminals").source == "Table 310.16, 4 AWG CU, 75 °C column");
}

TEST_CASE("insulation of a column that no table has, or no set at all, is a fault of the caller") {
    auto input = load(20, 30);
    input.insulation_column = 80;
    CHECK_THROWS_AS(sized(input), std::logic_error);
    input = load(20, 30);
    input.sets_in_parallel = 0;
    CHECK_THROWS_AS(sized(input), std::logic_error);
}

TEST_CASE("in free air a size is told by the table that lacks it") {
    // 1250 kcmil: neither Table 310.16 nor 310.17 of the book has it.
    auto input = load(20, 30);
    input.stated = wire("1250");
    for (const bool free_air : {false, true}) {
        input.free_air = free_air;
        const auto result = sized(input);
        CHECK_FALSE(result.passes);
        REQUIRE_FALSE(result.faults.empty());
        CHECK(result.faults.front() == "1250 kcmil CU is not listed in Table 310.16");
    }
}

TEST_CASE("a temperature stated for the run stands in place of the site's") {
    // 45 °C, 90 °C column: 0.87 by Table 310.15(B)(1).
    auto input = load(20, 30);
    input.ambient = Celsius{45};
    input.ambient_stated = true;
    TestDesk beside, above;
    CHECK(size_conductor(beside, input).ambient_factor == 0.87);
    CHECK(beside.line("ambient").source == "as stated for the run");
    // On the roof 33 °C are added to it: 78 °C, 0.41.
    input.on_roof = true;
    const auto result = size_conductor(above, input);
    CHECK(result.ambient == Celsius{78});
    CHECK(result.ambient_factor == 0.41);
    CHECK(above.line("ambient_stated").source == "as stated for the run");
}

TEST_CASE("conductors bundled for no length at all are none that a nipple lets off") {
    auto input = load(20, 30);
    input.current_carrying = 6; // 80 %
    input.bundled_length = Feet{0};
    CHECK(sized(input).bundling_factor == 0.8);
    input.bundled_length = Feet{2};
    CHECK(sized(input).bundling_factor == 1.0);
    input.bundled_length = Feet{2.1};
    CHECK(sized(input).bundling_factor == 0.8);
}

TEST_CASE("an ampacity above every standard rating protects by itself, 240.4(C)") {
    // 20 sets of 500 kcmil copper: 20 x 380 A = 7600 A at 75 C; 240.6(A) ends at 6000 A.
    ConductorInput input{.continuous = amps(4800, "I_cont"),
                         .required = amps(6000, "I_req"),
                         .overcurrent = amps(6000, "I_ocpd"),
                         .stated = wire("500"),
                         .sets_in_parallel = 20};
    TestDesk desk;
    CHECK(size_conductor(desk, input).passes);
    CHECK(text(desk.line("protection_check").cite) == "NEC 2023 240.4(C)");
    CHECK_FALSE(desk.has("largest_device"));
}
