// Modules in series: formulas, boundaries, direction of rounding. Expected values worked by hand.
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

const ColdVoltageInput by_coefficient{
    .voc = Volts{37.2}, .per_celsius = -0.0026, .coldest = Celsius{-9}};

} // namespace

TEST_CASE("cold voltage by coefficient") {
    TestDesk desk;
    const auto volts = cold_open_circuit_voltage(desk, by_coefficient);
    CHECK(volts.value.value == Approx(37.2 * (1 + 0.0026 * 34)));
    const Derivation& line = desk.line("cold_open_circuit_voltage");
    CHECK(line.formula == "V_oc × (1 + β × (T_cold − 25 °C))");
    CHECK(line.figures == "37.2 V × (1 + (−0.26 %/°C × (−9 °C − 25 °C)))");
    CHECK(line.result == "40.49 V");
    CHECK(text(line.cite) == "NEC 2023 690.7(A)(1)");
}

TEST_CASE("cold voltage of modules in series by table") {
    TestDesk desk;
    const auto volts = cold_open_circuit_voltage(
        desk, {.voc = Volts{37}, .coldest = Celsius{-5.5}, .in_series = 12});
    // -5.5 C belongs to the colder band: 1.14.
    CHECK(volts.value.value == Approx(12 * 37 * 1.14));
    CHECK(desk.line("cold_open_circuit_voltage").formula == "N × V_oc × C_V");
    CHECK(desk.line("cold_open_circuit_voltage").from ==
          std::vector<std::string>{"X.in_series", "X.voc", "X.voltage_correction"});
    CHECK(desk.line("voltage_correction").source == "Table 690.7(A) at −5.5 °C");
    CHECK(text(desk.line("cold_open_circuit_voltage").cite) == "NEC 2023 690.7(A)(2)");
}

TEST_CASE("the table is not stretched below its end") {
    TestDesk desk;
    CHECK_THROWS_AS(cold_open_circuit_voltage(desk, {.voc = Volts{37}, .coldest = Celsius{-41}}),
                    std::logic_error);
}

TEST_CASE("a maximum rounds down, exactly at the limit it holds") {
    const auto most = [](double volts, double limit) {
        TestDesk desk;
        return most_in_series(desk, given("V", Volts{volts}), Volts{limit});
    };
    CHECK(most(40, 600) == 15);
    CHECK(most(40.001, 600) == 14);
    CHECK(most(0.1, 0.3) == 3); // 0.3 / 0.1 = 2.9999999999999996
    CHECK(most(700, 600) == 0);
}

TEST_CASE("a minimum rounds up, exactly at the floor it holds") {
    const auto fewest = [](double volts, double floor) {
        TestDesk desk;
        return fewest_in_series(desk, given("V", Volts{volts}), Volts{floor});
    };
    CHECK(fewest(30, 120) == 4);
    CHECK(fewest(29.999, 120) == 5);
    CHECK(fewest(0.7, 2.1) == 3); // 2.1 / 0.7 = 3.0000000000000004
}

TEST_CASE("the rounding is shown against the quotient") {
    TestDesk desk;
    most_in_series(desk, cold_open_circuit_voltage(desk, by_coefficient), Volts{600});
    const Derivation& line = desk.line("most_in_series");
    CHECK(line.formula == "V_limit ÷ V_oc.cold");
    CHECK(line.figures == "600 V ÷ 40.49 V");
    CHECK(line.result == "14");
    CHECK(line.rounding == "14.819, rounded down so that the limit holds");
    CHECK(line.from == std::vector<std::string>{"X.cold_open_circuit_voltage"});
}

TEST_CASE("voltage at maximum power, hot and cold") {
    TestDesk desk;
    const auto hot = power_point_voltage(desk, "hot", Volts{31.1}, -0.0031, Celsius{72}, "Hottest");
    const auto cold =
        power_point_voltage(desk, "cold", Volts{31.1}, -0.0031, Celsius{-9}, "Coldest");
    CHECK(hot.value.value == Approx(31.1 * (1 - 0.0031 * 47)));
    CHECK(cold.value.value == Approx(31.1 * (1 + 0.0031 * 34)));
    CHECK(desk.line("hot").symbol == "V_mp.hot");
    CHECK(desk.line("cold").symbol == "V_mp.cold");
    CHECK(desk.line("hot").title == "Hottest");
    TestDesk rated; // at 25 C itself nothing is colder
    power_point_voltage(rated, "rated", Volts{31.1}, -0.0031, Celsius{25}, "As rated");
    CHECK(rated.line("rated").symbol == "V_mp.hot");
    CHECK(text(desk.line("hot").cite) == "equipment nameplate");
}
