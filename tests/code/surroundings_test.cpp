// Terminations at both ends, ambient by equation, nipples, what counts for bundling, protection.
#include <cmath>

#include "catch.h"
#include "try_conductor.h"

using namespace ohmfolio;

TEST_CASE("terminations: the lower of both ends, by marking or by rating") {
    const auto column = [](std::vector<Termination> ends, double device = 60) {
        auto input = load(10, device);
        input.stated = wire("1/0");
        input.terminations = std::move(ends);
        return sized(input).terminal_column;
    };
    const Termination marked_75{.at = "panel", .marked = Celsius{75}};
    const Termination unmarked{.at = "switch"};
    CHECK(column({marked_75, marked_75}) == 75);
    CHECK(column({marked_75, unmarked}) == 60);
    CHECK(column({unmarked, marked_75}) == 60);
    // 110.14(C)(1): to 100 A and above; terminals marked for 14-1 AWG stay small beyond 100 A.
    CHECK(column({unmarked}, 100) == 60);
    CHECK(column({unmarked}, 110) == 75);
    CHECK(column({{.at = "switch", .sizes = MarkedSizes::to_1_awg}}, 110) == 60);
    CHECK(column({{.at = "switch", .marked = Celsius{75}, .sizes = MarkedSizes::to_1_awg}}, 110) ==
          75);
    CHECK(column({{.at = "switch", .sizes = MarkedSizes::above_1_awg}}, 100) == 75);
    // Equipment marked for 90 C is still held to 75 C; a connector of its own is not.
    const Termination marked_90{.at = "panel", .marked = Celsius{90}};
    CHECK(column({marked_90}) == 75);
    CHECK(column({{.at = "splice", .marked = Celsius{90}, .separate_connector = true}}) == 90);
    CHECK(column({{.at = "splice", .separate_connector = true}, marked_75}) == 60);
}

TEST_CASE("terminations: the calculation names the end that decides") {
    TestDesk desk;
    auto input = load(30, 50);
    input.terminations = {{.at = "panel P1", .marked = Celsius{75}}, {.at = "switch Q2"}};
    size_conductor(desk, input);
    CHECK(desk.line("ampacity_terminals").source ==
          "Table 310.16, 6 AWG CU, 60 °C column; terminations 60 °C, lowest at switch Q2");
    CHECK(text(desk.line("ampacity_terminals").cite) == "NEC 2023 110.14(C)(1)(a)");
    TestDesk alike; // of two that are as low, the first
    input.terminations = {{.at = "panel P1"}, {.at = "switch Q2"}};
    size_conductor(alike, input);
    CHECK(alike.line("ampacity_terminals").source.ends_with("lowest at panel P1"));
}

TEST_CASE("ambient by the equation: between the steps of the table, and beyond its end") {
    auto input = load(10, 20);
    input.stated = wire("10");
    input.ambient_by_equation = true;
    input.ambient = Celsius{33};
    // √((90 - 33) / 60) = 0.97468; the table takes 0.96 from 31 to 35 C.
    CHECK(sized(input).ambient_factor == Approx(0.974679));
    input.ambient = Celsius{86}; // √(4 / 60); the table ends at 85 C
    CHECK(sized(input).ambient_factor == Approx(0.258199));
    input.ambient = Celsius{90};
    const auto none = sized(input);
    CHECK_FALSE(none.passes);
    REQUIRE(none.faults.size() == 1);
    CHECK(none.faults.front() == "no ampacity is permitted at 90 °C with 90 °C insulation");
    input.ambient = Celsius{33};
    TestDesk desk(Edition::nec2020);
    size_conductor(desk, input);
    CHECK(desk.line("ambient_factor").source == "√((90 °C − 33 °C) ÷ (90 °C − 30 °C))");
}

TEST_CASE("bundling: no adjustment in a nipple to 24 in") {
    auto input = load(10, 20);
    input.stated = wire("10");
    input.current_carrying = 9;
    input.bundled_length = Feet{2};
    CHECK(sized(input).bundling_factor == 1);
    input.bundled_length = Feet{2.01};
    CHECK(sized(input).bundling_factor == 0.7);
    TestDesk desk(Edition::nec2017);
    input.bundled_length = Feet{1.5};
    size_conductor(desk, input);
    CHECK(text(desk.line("bundling_factor").cite) == "NEC 2017 310.15(B)(3)(a)(2)");
    CHECK(desk.line("bundling_factor").source == "together for 18 in, not over 24 in");
}

TEST_CASE("current-carrying conductors of each kind of circuit") {
    // 310.15(E) and its two predecessors; forums.mikeholt.com 2562113, 2586528.
    const auto of = [](CircuitWiring wiring, bool nonlinear = false) {
        return current_carrying_of({.wiring = wiring, .nonlinear = nonlinear});
    };
    CHECK(of(CircuitWiring::two_wire) == 2);
    CHECK(of(CircuitWiring::direct_current) == 2);
    CHECK(of(CircuitWiring::split_phase) == 2);
    CHECK(of(CircuitWiring::two_lines_of_wye) == 3);
    CHECK(of(CircuitWiring::three_phase) == 3);
    CHECK(of(CircuitWiring::three_phase_neutral) == 3);
    CHECK(of(CircuitWiring::three_phase_neutral, true) == 4);
    CHECK(of(CircuitWiring::high_leg_delta) == 3);
    TestDesk desk(Edition::nec2017);
    const auto sum =
        count_current_carrying(desk, {{.wiring = CircuitWiring::split_phase, .sets = 2},
                                      {.wiring = CircuitWiring::two_lines_of_wye}});
    CHECK(sum.value.value == 7);
    CHECK(desk.line("current_carrying").formula == "2 × N_1 + N_2");
    CHECK(text(desk.line("counted_1").cite) == "NEC 2017 310.15(B)(5)(a)");
    CHECK(text(desk.line("counted_2").cite) == "NEC 2017 310.15(B)(5)(b)");
    TestDesk none;
    CHECK(count_current_carrying(none, {}).value.value == 0);
}

TEST_CASE("the neutral of two lines of a wye carries about the current of a line") {
    // Currents A and B, 120 degrees apart: √(A² + B² - A x B), which is A when A = B.
    const auto neutral = [](double a, double b) { return std::sqrt(a * a + b * b - a * b); };
    CHECK(neutral(40, 40) == Approx(40));
    CHECK(neutral(40, 0) == Approx(40));
}

TEST_CASE("protection: no next size up for portable loads; fuses know 601 A") {
    // 8 AWG at 50 C of six: 55 x 0.82 x 0.8 = 36.08 A, next 40 A.
    auto input = load(30, 40);
    input.required = amps(37, "I_req");
    input.ambient = Celsius{50};
    input.current_carrying = 6;
    input.stated = wire("8");
    CHECK(sized(input).passes);
    input.portable_loads = true;
    CHECK(sized(input).fault_rules == std::vector<std::string>{"conductor.protection.portable"});
    input.overcurrent = amps(35, "I_ocpd");
    CHECK(sized(input).passes);
    // Two sets of 400 kcmil at 52.55 C by the equation: 2 x 380 x √(37.45 / 60) = 600.4 A: a fuse
    // of 601 A is next, or a breaker of 700 A.
    input = load(450, 601);
    input.sets_in_parallel = 2;
    input.stated = wire("400");
    input.ambient_by_equation = true;
    input.ambient = Celsius{52.55};
    TestDesk fuse, breaker;
    size_conductor(breaker, input);
    CHECK(breaker.line("largest_device").value == 700);
    input.device = DeviceKind::fuse;
    size_conductor(fuse, input);
    CHECK(fuse.line("largest_device").value == 601);
}
