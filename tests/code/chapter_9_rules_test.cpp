// Raceway fill and voltage change. Rows by hand from the published tables in tests/data.
#include <cmath>

#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

RacewayInput in_emt(std::vector<FillConductor> conductors, Feet length = Feet{10}) {
    return {.kind = RacewayKind::emt, .conductors = std::move(conductors), .length = length};
}

RacewayResult sized(const RacewayInput& input) {
    TestDesk desk;
    return size_raceway(desk, input);
}

TradeSize trade(const char* text) { return parse_trade_size(text).value(); }

} // namespace

TEST_CASE("fill: the last conductor that fits and the first that does not") {
    // EMT 1/2: 0.304 in2, 40 % = 0.1216; 12 AWG THWN-2 0.0133: nine are 0.1197, ten 0.1330.
    CHECK(sized(in_emt({{9, wire("12")}})).size == trade("1/2"));
    CHECK(sized(in_emt({{10, wire("12")}})).size == trade("3/4"));
}

TEST_CASE("fill: one and two conductors have limits of their own") {
    // One 2 AWG THWN-2 0.1158 in2: 53 % of 0.304 = 0.161. Two: 0.2316 > 31 % of 0.533 = 0.165.
    CHECK(sized(in_emt({{1, wire("2")}})).size == trade("1/2"));
    CHECK(sized(in_emt({{2, wire("2")}})).size == trade("1")); // 31 % of 0.864 = 0.268
}

TEST_CASE("fill: a nipple to 24 in may be filled to 60 %") {
    // Thirteen 12 AWG: 0.1729 in2 <= 0.6 x 0.304 = 0.1824; fourteen 0.1862.
    CHECK(sized(in_emt({{13, wire("12")}}, Feet{2})).size == trade("1/2"));
    CHECK(sized(in_emt({{14, wire("12")}}, Feet{2})).size == trade("3/4"));
    CHECK(sized(in_emt({{13, wire("12")}}, Feet{2.01})).size == trade("3/4"));
}

TEST_CASE("fill: the calculation is written") {
    TestDesk desk;
    const auto result =
        size_raceway(desk, in_emt({{4, wire("10")}, {1, wire("10"), Insulation::bare}}, Feet{46}));
    CHECK(result.size == trade("1/2"));
    CHECK(desk.line("conductor_area").formula == "4 × A_1 + 1 × A_2");
    CHECK(desk.line("conductor_area").figures == "4 × 0.0211 in² + 1 × 0.0110 in²");
    CHECK(desk.line("conductor_area").result == "0.0954 in²");
    CHECK(desk.line("area_1").source == "Ch. 9 Table 5, 10 AWG THWN-2");
    CHECK(desk.line("area_2").cite.section == "Ch. 9 Table 8");
    CHECK(desk.line("allowed_area").figures == "40 % × 0.3040 in²");
    CHECK(desk.line("fill_check").comparison == "0.0954 in² ≤ 0.1216 in²");
    CHECK(desk.line("trade_size").result == "1/2 in EMT");
    CHECK(result.fill == Approx(0.0954 / 0.304));
}

TEST_CASE("fill: a stated size is judged") {
    auto input = in_emt({{10, wire("12")}});
    input.stated = trade("1/2");
    CHECK_FALSE(sized(input).passes);
    CHECK(sized(input).size == trade("1/2"));
    input.stated = trade("1");
    CHECK(sized(input).passes);
}

TEST_CASE("fill: what no table lists is not guessed at") {
    CHECK_FALSE(sized(in_emt({{2, wire("10"), Insulation::pv_wire}})).found);
    CHECK_FALSE(sized({.kind = RacewayKind::free_air, .conductors = {{2, wire("10")}}}).found);
    CHECK_FALSE(sized(in_emt({{20, wire("500")}})).found); // 14.1 in2 in at most 5.9 in2
}

TEST_CASE("voltage change of a single-phase run") {
    // 2 x 16 A x 1.2 ohm/kft x 28 ft = 1.0752 V of 240 V; Table 9, 10 AWG copper in steel.
    TestDesk desk;
    const auto result =
        voltage_change(desk, {.current = amps(16), .one_way = Feet{28}, .size = wire("10")});
    CHECK(result.volts.value == Approx(1.0752));
    CHECK(result.fraction == Approx(1.0752 / 240));
    CHECK(desk.line("voltage_change").formula == "2 × I × R × L");
    CHECK(desk.line("voltage_change").figures == "2 × 16 A × 1.2 Ω/kft × 28 ft");
    CHECK(desk.line("voltage_change").result == "1.08 V");
    CHECK(desk.line("resistance").source == "Ch. 9 Table 9, 10 AWG CU in EMT");
}

TEST_CASE("voltage change of a three-phase run") {
    TestDesk desk;
    const auto result = voltage_change(desk, {.current = amps(16),
                                              .one_way = Feet{28},
                                              .size = wire("10"),
                                              .nominal = Volts{208},
                                              .phases = 3});
    CHECK(result.volts.value == Approx(std::sqrt(3.0) * 16 * 0.0012 * 28));
    CHECK(desk.line("voltage_change").figures == "√3 × 16 A × 1.2 Ω/kft × 28 ft");
}

TEST_CASE("direct current uses Table 8") {
    TestDesk desk;
    const auto result = voltage_change(desk, {.current = amps(10),
                                              .one_way = Feet{140},
                                              .size = wire("10"),
                                              .nominal = Volts{120},
                                              .dc = true});
    CHECK(result.volts.value == Approx(2 * 10 * 0.00124 * 140));
    CHECK(desk.line("resistance").source == "Ch. 9 Table 8, 10 AWG CU");
}

TEST_CASE("at a power factor below one the reactance counts") {
    // 3/0 copper in steel at 0.85: 0.85 x 0.079 + 0.527 x 0.052 = 0.0946; Table 9 prints 0.094.
    TestDesk desk;
    const auto result = voltage_change(
        desk,
        {.current = amps(200), .one_way = Feet{100}, .size = wire("3/0"), .power_factor = 0.85});
    CHECK(result.volts.value == Approx(2 * 200 * 0.000094 * 100).epsilon(0.01));
    CHECK(desk.line("impedance").formula == "R × cosφ + X_L × sinφ");
}

TEST_CASE("a size that Table 9 leaves out is read one row above, on the safe side") {
    TestDesk desk;
    const auto result =
        voltage_change(desk, {.current = amps(100), .one_way = Feet{100}, .size = wire("700")});
    CHECK(desk.line("resistance").source == "Ch. 9 Table 9, 600 kcmil CU in EMT");
    CHECK(result.volts.value == Approx(2 * 100 * 0.000025 * 100));
}

TEST_CASE("what no table lists has no voltage change, and a line that says so") {
    TestDesk desk;
    const auto result = voltage_change(desk, {.current = amps(1),
                                              .one_way = Feet{1},
                                              .size = wire("14"),
                                              .material = Material::aluminum});
    CHECK(result.volts == Volts{0});
    CHECK(desk.line("voltage_change").verdict == Verdict::fail);
}
