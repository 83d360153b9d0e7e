// Feeder taps and transformer secondaries: each rule with the smallest step that passes and fails.
#include "catch.h"
#include "try_conductor.h"

using namespace ohmfolio;

TEST_CASE("taps: 10 ft, by its end, its load and a tenth of the device ahead") {
    const auto tap = [](double ampacity, double length, TapEnd end) {
        TestDesk desk;
        return check_tap(desk, {.feeder = amps(400, "I_feeder"),
                                .ampacity = amps(ampacity, "I_z"),
                                .length = Feet{length},
                                .end = std::move(end)});
    };
    const TapEnd to_100{.device = amps(100, "I_end")};
    CHECK(tap(100, 10, to_100).passes);
    CHECK(tap(100, 10, to_100).rule_id == "tap.10_ft");
    CHECK_FALSE(tap(99.9, 10, to_100).passes);
    CHECK_FALSE(tap(100, 10.01, to_100).passes); // 25 ft asks for 133.3 A
    CHECK(tap(40, 10, {.device = amps(30, "I_end")}).passes);
    CHECK_FALSE(tap(39.9, 10, {.device = amps(30, "I_end")}).passes);
    // Within the enclosure of the connection the tenth is not asked.
    CHECK(tap(30, 10, {.device = amps(30, "I_end"), .leaves_enclosure = false}).passes);
    CHECK_FALSE(tap(60, 10, {.load = amps(61, "I_load"), .device = amps(30, "I_end")}).passes);
    CHECK(tap(200, 10, {.equipment = amps(200, "I_eq"), .single_device = false}).passes);
    CHECK_FALSE(tap(199, 10, {.equipment = amps(200, "I_eq"), .single_device = false}).passes);
    CHECK_FALSE(
        tap(100, 10, {.device = amps(100, "I_end"), .protected_from_damage = false}).passes);
    CHECK_FALSE(tap(100, 10, {}).passes); // nothing is known of its end
}

TEST_CASE("taps: 25 ft, a third of the device ahead and one device at the end") {
    const auto tap = [](double ampacity, double length, TapEnd end) {
        TestDesk desk(Edition::nec2017);
        return check_tap(desk, {.feeder = amps(600, "I_feeder"),
                                .ampacity = amps(ampacity, "I_z"),
                                .length = Feet{length},
                                .end = std::move(end)});
    };
    CHECK(tap(200, 25, {.device = amps(175, "I_end")}).passes);
    CHECK_FALSE(tap(199.9, 25, {.device = amps(175, "I_end")}).passes);
    CHECK_FALSE(tap(200, 25.1, {.device = amps(175, "I_end")}).passes);
    // 240.4(B) is out: a device above the ampacity is one too many, by whatever little.
    CHECK(tap(200, 25, {.device = amps(200, "I_end")}).passes);
    CHECK_FALSE(tap(200, 25, {.device = amps(201, "I_end")}).passes);
    CHECK_FALSE(tap(200, 25, {.device = amps(175, "I_end"), .single_device = false}).passes);
    CHECK_FALSE(
        tap(200, 25, {.device = amps(175, "I_end"), .protected_from_damage = false}).passes);
    // Outdoors the length is free.
    const TapEnd outside{
        .device = amps(150, "I_end"), .outdoors = true, .disconnect_at_entrance = true};
    CHECK(tap(150, 300, outside).passes);
    CHECK(tap(150, 300, outside).rule_id == "tap.outdoors");
    CHECK_FALSE(tap(149.9, 300, outside).passes);
    auto without = outside;
    without.disconnect_at_entrance = false;
    CHECK_FALSE(tap(150, 300, without).passes);
}

TEST_CASE("taps: every rule is listed with its comparison or why it does not apply") {
    TestDesk desk(Edition::nec2017);
    const auto result = check_tap(desk, {.feeder = amps(100, "I_feeder"),
                                         .ampacity = amps(35, "I_z"),
                                         .length = Feet{20},
                                         .end = {.device = amps(30, "I_end")}});
    REQUIRE(result.options.size() == 3);
    CHECK(result.options[0].reason == "20 ft is over 10 ft");
    CHECK(result.options[1].reason == "35 A ≥ 33.33 A; 35 A ≥ 30 A");
    CHECK(result.options[2].reason == "the conductors are not outdoors up to their end");
    CHECK(desk.line("tap_25_ft_share").formula == "I_feeder ÷ 3");
    CHECK(text(desk.line("tap_25_ft_share").cite) == "NEC 2017 240.21(B)(2)");
    CHECK(result.options[1].steps.size() == 3);
}

TEST_CASE("taps: a transformer tapped from a feeder") {
    // 300 A ahead, 480 to 240 V: primary 100 A; secondary 100 x 2 = 200 A; 25 ft together.
    const auto tap = [](double primary, double secondary, double length, double device = 200) {
        TestDesk desk;
        return check_transformer_tap(desk, {.feeder = amps(300, "I_feeder"),
                                            .primary_ampacity = amps(primary, "I_p"),
                                            .secondary_ampacity = amps(secondary, "I_s"),
                                            .primary = Volts{480},
                                            .secondary = Volts{240},
                                            .length = Feet{length},
                                            .end = {.device = amps(device, "I_end")}})
            .passes;
    };
    CHECK(tap(100, 200, 25));
    CHECK_FALSE(tap(99.9, 200, 25));
    CHECK_FALSE(tap(100, 199.9, 25));
    CHECK_FALSE(tap(100, 200, 25.1));
    CHECK_FALSE(tap(100, 200, 25, 201));
    CHECK_FALSE(tap(100, 200, 0)); // the length is not stated
}

TEST_CASE("secondaries: 10 ft, 25 ft, and protection by the primary device") {
    // Primary device of 100 A, 480 to 240 V: 200 A as seen from the secondary.
    const auto check = [](double ampacity, double length, double device, bool simple = false) {
        TestDesk desk;
        return check_secondary(desk, {.primary_device = amps(100, "I_primary"),
                                      .primary = Volts{480},
                                      .secondary = Volts{240},
                                      .simple_winding = simple,
                                      .ampacity = amps(ampacity, "I_z"),
                                      .length = Feet{length},
                                      .end = {.device = amps(device, "I_end")}});
    };
    CHECK(check(50, 10, 50).rule_id == "tap.secondary.10_ft");
    CHECK(check(50, 10, 50).passes);
    CHECK_FALSE(check(49.9, 10, 50).passes);
    CHECK(check(20, 10, 15).passes); // a tenth of 200 A
    CHECK_FALSE(check(19.9, 10, 15).passes);
    CHECK(check(66.67, 25, 60).passes); // a third
    CHECK(check(66.67, 25, 60).rule_id == "tap.secondary.25_ft");
    CHECK_FALSE(check(66.66, 25, 60).passes);
    CHECK_FALSE(check(66.67, 25.1, 60).passes);
    // Two-wire, or delta of a delta: 100 A x 480 / 240.
    CHECK(check(200, 300, 200, true).rule_id == "tap.secondary.by_primary");
    CHECK(check(200, 300, 200, true).passes);
    CHECK_FALSE(check(199.9, 300, 200, true).passes);
    CHECK_FALSE(check(200, 300, 200).passes);
}

TEST_CASE("a tap's conductor is sized by its rule, without rounding up and without 240.4(D)") {
    auto input = load(10, 100);
    input.required = amps(12.5, "I_req");
    input.other_protection = OtherProtection{amps(115, "I_least"), "tap.25_ft"};
    CHECK(sized(input).size == wire("2")); // 115 A at 75 C, equal to what is asked
    input.other_protection->least = amps(115.01, "I_least");
    CHECK(sized(input).size == wire("1"));
    CHECK(sized(input).governs == "protection at the end of the tap governs");
    input.other_protection->least = amps(20, "I_least");
    CHECK(sized(input).size == wire("12"));
}
