// Panels one behind the other. By hand.
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

ChainBus service_panel(double bus, double main, double sources = 0) {
    return {.subject = "panel:MP",
            .bus = {.bus = amps(bus, "I_bus"),
                    .main = amps(main, "I_main"),
                    .sources_125 = amps(sources, "I_src"),
                    .opposite_end = true}};
}

ChainBus subpanel(const char* subject, int behind, double bus, double device, double sources) {
    ChainBus panel = service_panel(bus, 0, sources);
    panel.subject = subject;
    panel.behind = behind;
    panel.feeder = ChainFeeder{.ampacity = amps(device, "I_z"), .device = amps(device, "I_feeder")};
    return panel;
}

std::string reason(const ChainResult& result, const std::string& rule_id) {
    for (const BusOption& option : result.options)
        if (option.rule_id == rule_id)
            return option.reason;
    return "no such rule";
}

} // namespace

TEST_CASE("sources flow through every busbar up to the service") {
    TestDesk desk;
    const auto results = check_bus_chain(
        desk, {service_panel(200, 200, 10), subpanel("panel:SP1", 0, 125, 100, 20),
               subpanel("panel:SP2", 1, 100, 60, 10), subpanel("panel:SP3", 0, 100, 60, 0)});
    REQUIRE(results.size() == 4);
    CHECK(results[2].sources_125.value == Amps{10});
    CHECK(results[1].sources_125.value == Amps{30});
    CHECK(results[0].sources_125.value == Amps{40});
    CHECK(reason(results[0], "bus.120") == "240 A ≤ 240 A");
    CHECK(reason(results[1], "bus.120") == "130 A ≤ 150 A");
    CHECK(reason(results[2], "bus.120") == "70 A ≤ 120 A");
    CHECK(results[3].options.empty()); // nothing flows there
    for (const ChainResult& result : results)
        CHECK(result.passes);
    CHECK(desk.sheet.find("MP.sources_behind")->figures == "10 A + 30 A");
    CHECK(desk.sheet.find("MP.sources_behind")->formula == "I_src + I_src.SP1");
}

TEST_CASE("a subpanel that is right by itself does not excuse the panel before it") {
    TestDesk desk;
    const auto results =
        check_bus_chain(desk, {service_panel(200, 200), subpanel("panel:SP1", 0, 125, 100, 40.1)});
    CHECK(results[1].passes);
    CHECK_FALSE(results[0].passes);
    CHECK(reason(results[0], "bus.120") == "240.10 A > 240 A");
}

TEST_CASE("the smaller of feeder device and main protects the busbar") {
    auto panel = subpanel("panel:SP1", 0, 100, 100, 20);
    panel.feeder->main_beyond = amps(125, "I_main");
    TestDesk desk, with_smaller;
    CHECK(reason(check_bus_chain(desk, {service_panel(200, 200), panel})[1], "bus.120") ==
          "120 A ≤ 120 A");
    panel.feeder->main_beyond = amps(80, "I_main");
    CHECK(reason(check_bus_chain(with_smaller, {service_panel(200, 200), panel})[1], "bus.120") ==
          "100 A ≤ 120 A");
}

TEST_CASE("a feeder that is too small for the sources fails its panel") {
    auto panel = subpanel("panel:SP1", 0, 200, 30, 40);
    TestDesk desk, enough;
    auto results = check_bus_chain(desk, {service_panel(200, 200), panel});
    CHECK(fails(results[1].feeder, "feeder.source"));
    CHECK_FALSE(results[1].passes);
    panel.feeder->ampacity = amps(40, "I_z");
    results = check_bus_chain(enough, {service_panel(200, 200), panel});
    CHECK(results[1].passes);
}

TEST_CASE("power control in a subpanel limits what flows upward") {
    auto panel = subpanel("panel:SP1", 0, 200, 100, 100);
    panel.bus.power_control = PowerControlOnBus{.sources = amps(32, "I_setting"), .listed = true};
    TestDesk since(Edition::nec2020), before(Edition::nec2017);
    const auto limited = check_bus_chain(since, {service_panel(200, 200), panel});
    CHECK(limited[0].sources_125.value == Amps{40});
    CHECK(limited[0].passes);
    const auto unlimited = check_bus_chain(before, {service_panel(200, 200), panel});
    CHECK(unlimited[0].sources_125.value == Amps{100});
    CHECK_FALSE(unlimited[0].passes);
}

TEST_CASE("a panel before the one that feeds it is a fault of the caller") {
    TestDesk desk;
    auto first = subpanel("panel:SP1", 1, 100, 60, 10);
    CHECK_THROWS_AS(check_bus_chain(desk, {first, service_panel(200, 200)}), std::logic_error);
    TestDesk itself;
    CHECK_THROWS_AS(check_bus_chain(itself, {subpanel("panel:SP1", 0, 100, 60, 10)}),
                    std::logic_error);
}
