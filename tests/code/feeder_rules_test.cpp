// Sources on feeders, and taps of such feeders. By hand.
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

FeederInput feeder(double ampacity, double primary, double sources) {
    return {.ampacity = amps(ampacity, "I_z"),
            .primary = amps(primary, "I_primary"),
            .sources_125 = amps(sources, "I_src")};
}

RuleVerdicts checked(const FeederInput& input, Edition edition = Edition::nec2023) {
    TestDesk desk(edition);
    return check_feeder(desk, input);
}

FeederTapInput tap(double ampacity, double length, double feeder_device, double end) {
    return {.ampacity = amps(ampacity, "I_tap"),
            .length = Feet{length},
            .feeder_device = amps(feeder_device, "I_feeder"),
            .sources_125 = amps(0, "I_src"),
            .end_device = amps(end, "I_end")};
}

RuleVerdicts checked(const FeederTapInput& input, Edition edition = Edition::nec2023) {
    TestDesk desk(edition);
    return check_feeder_tap(desk, input);
}

} // namespace

TEST_CASE("a source before the end of a feeder: both currents beyond it") {
    for (const Edition edition : all_editions) {
        CHECK(all_pass(checked(feeder(140, 100, 40), edition)));
        CHECK(fails(checked(feeder(139.9, 100, 40), edition), "feeder.beyond"));
    }
}

TEST_CASE("or a device beyond the connection") {
    auto input = feeder(100, 100, 40);
    input.device_beyond = amps(100, "I_d");
    for (const Edition edition : all_editions)
        CHECK(all_pass(checked(input, edition)));
    input.device_beyond = amps(101, "I_d");
    CHECK(fails(checked(input), "feeder.beyond"));
    // The device is one way; enough ampacity is the other.
    input.ampacity = amps(140, "I_z");
    input.device_beyond = amps(200, "I_d");
    CHECK(all_pass(checked(input)));
    TestDesk desk(Edition::nec2020);
    input = feeder(100, 100, 40);
    input.device_beyond = amps(100, "I_d");
    check_feeder(desk, input);
    CHECK(text(desk.line("feeder_beyond").cite) == "NEC 2020 705.12(B)(1)(b)");
}

TEST_CASE("a source at the far end of a feeder: the feeder carries it") {
    auto input = feeder(40, 30, 40);
    input.opposite_end = true;
    CHECK(all_pass(checked(input)));
    input.sources_125 = amps(40.1, "I_src");
    CHECK(fails(checked(input), "feeder.source"));
}

TEST_CASE("smallest ampacity of a feeder") {
    TestDesk both, device, end;
    CHECK(smallest_feeder_ampacity(both, feeder(0, 200, 120)).value == Amps{320});
    auto input = feeder(0, 100, 20);
    input.device_beyond = amps(90, "I_d");
    CHECK(smallest_feeder_ampacity(device, input).value == Amps{90});
    input.opposite_end = true;
    CHECK(smallest_feeder_ampacity(end, input).value == Amps{20});
}

TEST_CASE("tap not over 25 ft carries a third of device and sources") {
    // Feeder 100 A, source of 10 A (12.5 A at 125 %, 15 A device): heatspring.com, 25 ft rule, with
    // the arithmetic here: 112.5 / 3 = 37.5; from 2023 on (100 + 15) / 3 = 38.33.
    auto input = tap(37.5, 25, 100, 35);
    input.sources_125 = amps(12.5, "I_src");
    input.source_devices = {amps(15, "I_d")};
    CHECK(all_pass(checked(input, Edition::nec2017)));
    CHECK(all_pass(checked(input, Edition::nec2020)));
    CHECK(fails(checked(input, Edition::nec2023), "feeder.tap.devices"));
    input.ampacity = amps(37.4, "I_tap");
    CHECK(fails(checked(input, Edition::nec2017), "feeder.tap"));
    CHECK(fails(checked(input, Edition::nec2020), "feeder.tap"));
    input.ampacity = amps(38.34, "I_tap");
    CHECK(all_pass(checked(input, Edition::nec2023)));
}

TEST_CASE("a longer tap is none, save in a high bay") {
    CHECK(all_pass(checked(tap(100, 25, 100, 90))));
    CHECK(fails(checked(tap(100, 25.1, 100, 90)), "tap.long"));
    auto input = tap(100, 100, 100, 90);
    input.high_bay = true;
    CHECK(all_pass(checked(input)));
    input.length = Feet{100.1};
    CHECK(fails(checked(input), "tap.high_bay"));
}

TEST_CASE("tap not over 10 ft carries its end, its load and a tenth") {
    CHECK(all_pass(checked(tap(30, 10, 300, 30))));
    CHECK_FALSE(all_pass(checked(tap(30, 10, 301, 30))));
    CHECK_FALSE(all_pass(checked(tap(30, 10.1, 300, 30)))); // 240.21(B)(1): 10 ft, then a third
    CHECK(fails(checked(tap(30, 10, 300, 31)), "tap.short"));
    auto input = tap(30, 10, 300, 30);
    input.load = amps(30.1, "I_load");
    CHECK(fails(checked(input), "tap.short"));
    input.load = amps(30, "I_load");
    CHECK(all_pass(checked(input)));
    // Inside the enclosure the tenth is not asked.
    input = tap(30, 10, 1000, 30);
    CHECK_FALSE(all_pass(checked(input)));
    input.leaves_enclosure = false;
    CHECK(all_pass(checked(input)));
}

TEST_CASE("sources add to the tenth in the older editions only") {
    auto input = tap(30, 10, 300, 30);
    input.sources_125 = amps(10, "I_src");
    input.source_devices = {amps(15, "I_d")};
    CHECK(fails(checked(input, Edition::nec2017), "feeder.tap"));
    CHECK(fails(checked(input, Edition::nec2020), "feeder.tap"));
    CHECK(all_pass(checked(input, Edition::nec2023)));
}

TEST_CASE("a tap without a stated device at its end is not let through") {
    auto input = tap(100, 20, 100, 0);
    input.end_device.reset();
    CHECK(fails(checked(input), "tap.long"));
    TestDesk desk;
    check_feeder_tap(desk, input);
    CHECK(desk.line("tap_end").comparison == "not stated: the device at the end of the tap");
}

TEST_CASE("in a high bay a tap not over 25 ft is an ordinary one") {
    auto input = tap(134, 25, 400, 100); // a third of 400 A is 133.3 A
    input.high_bay = true;
    const auto verdicts = checked(input);
    CHECK(all_pass(verdicts));
    CHECK(verdict_of(verdicts, "tap.long") != nullptr);
    CHECK(verdict_of(verdicts, "tap.high_bay") == nullptr);
}

TEST_CASE("a device that asks for as much as both currents is not what a feeder needs") {
    // 100 A and no sources: 100 A, with a device of 100 A beyond or without.
    auto input = feeder(0, 100, 0);
    input.device_beyond = amps(100, "I_d");
    TestDesk desk, smaller;
    CHECK(smallest_feeder_ampacity(desk, input).value == Amps{100});
    CHECK(desk.line("feeder_needed").formula == "I_primary + I_src");
    input.device_beyond = amps(99, "I_d");
    smallest_feeder_ampacity(smaller, input);
    CHECK(smaller.line("feeder_needed").formula == "larger of I_d and I_src");
}
