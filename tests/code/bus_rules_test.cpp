// Sources on a busbar: each rule with the smallest step that passes and fails. By hand.
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

BusInput panel(double bus, double main, double sources) {
    return {.bus = amps(bus, "I_bus"),
            .main = amps(main, "I_main"),
            .sources_125 = amps(sources, "I_src")};
}

BusOption option(const BusInput& input, const std::string& rule_id,
                 Edition edition = Edition::nec2023) {
    TestDesk desk(edition);
    for (const BusOption& one : try_bus_rules(desk, input))
        if (one.rule_id == rule_id)
            return one;
    throw std::logic_error("no rule " + rule_id);
}

} // namespace

TEST_CASE("sum of main and sources") {
    CHECK(option(panel(200, 150, 50), "bus.sum").passes);
    CHECK_FALSE(option(panel(200, 150, 50.1), "bus.sum").passes);
    CHECK(option(panel(200, 150, 50.1), "bus.sum").reason == "200.10 A > 200 A");
}

TEST_CASE("120 % at opposite ends") {
    auto input = panel(200, 200, 40);
    CHECK_FALSE(option(input, "bus.120").applies);
    CHECK_FALSE(option(input, "bus.120").passes);
    CHECK(option(input, "bus.120").reason ==
          "not stated that the sources are at the end opposite the main");
    // Where moving the breaker would not help, the arithmetic says so.
    input.sources_125 = amps(40.01, "I_src");
    CHECK(option(input, "bus.120").reason ==
          "not stated that the sources are at the end opposite the main; even there 240.01 A > "
          "240 A");
    CHECK(option(input, "bus.120").steps.empty());
    input.sources_125 = amps(40, "I_src");
    input.opposite_end = true;
    CHECK(option(input, "bus.120").passes);
    input.sources_125 = amps(40.01, "I_src");
    CHECK_FALSE(option(input, "bus.120").passes);
    input.sources_125 = amps(40, "I_src");
    input.centre_fed = true;
    CHECK_FALSE(option(input, "bus.120").applies);
}

TEST_CASE("sum of breakers, main excluded") {
    auto input = panel(125, 125, 40);
    CHECK_FALSE(option(input, "bus.breakers").applies);
    // A source breaker alone proves nothing of the loads: the rule must not pass vacuously.
    input.breakers = {amps(50)};
    input.loads_described = false;
    CHECK_FALSE(option(input, "bus.breakers").applies);
    CHECK_FALSE(option(input, "bus.breakers").passes);
    CHECK(option(input, "bus.breakers").reason == "the load breakers are not described");
    input.loads_described = true;
    CHECK(option(input, "bus.breakers").passes); // none there are
    input.breakers = {amps(50), amps(40), amps(35)};
    CHECK(option(input, "bus.breakers").passes);
    input.breakers.push_back(amps(15));
    CHECK_FALSE(option(input, "bus.breakers").passes);
    // The main must still protect the bus.
    input.breakers.pop_back();
    input.main = amps(150, "I_main");
    CHECK_FALSE(option(input, "bus.breakers").passes);
}

TEST_CASE("center-fed panel of a dwelling") {
    auto input = panel(200, 200, 40);
    CHECK_FALSE(option(input, "bus.center").applies);
    input.centre_fed = true;
    CHECK(option(input, "bus.center").passes);
    input.sources_125 = amps(40.01, "I_src");
    CHECK_FALSE(option(input, "bus.center").passes);
    input.dwelling = false;
    CHECK(option(input, "bus.center").reason == "the building is not a dwelling");
}

TEST_CASE("every option is tried and its arithmetic is on the sheet") {
    TestDesk desk;
    auto input = panel(200, 200, 35.5);
    input.opposite_end = true;
    input.breakers = {amps(50, "I_b1"), amps(40, "I_b2")};
    const auto options = try_bus_rules(desk, input);
    REQUIRE(options.size() == 4);
    CHECK(options[0].rule_id == "bus.sum");
    CHECK(options[1].rule_id == "bus.120");
    CHECK(options[2].rule_id == "bus.breakers");
    CHECK(options[3].rule_id == "bus.center");
    CHECK(options[1].steps ==
          std::vector<std::string>{"X.bus_120_limit", "X.bus_120_total", "X.bus_120"});
    CHECK(options[3].steps.empty());
    CHECK(desk.line("bus_120_total").formula == "I_main + I_src");
    CHECK(desk.line("bus_120_total").figures == "200 A + 35.50 A");
    CHECK(desk.line("bus_120_limit").figures == "1.2 × 200 A");
    CHECK(desk.line("bus_120").comparison == "235.50 A ≤ 240 A");
    CHECK(desk.line("bus_breakers_total").formula == "I_b1 + I_b2");
    CHECK(text(options[1].cite) == "NEC 2023 705.12(B)(2)");
}
