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

TEST_CASE("busbars of several ampacities are not for the 120 % rule") {
    auto input = panel(200, 200, 40);
    input.opposite_end = true;
    input.several_ampacities = true;
    CHECK_FALSE(option(input, "bus.120").applies);
    CHECK(option(input, "bus.120").reason == "the panel has busbars of several ampacities");
    CHECK(option(input, "bus.sum").applies);
}

TEST_CASE("engineered study: only as a document, in 2017 only for some busbars") {
    auto input = panel(200, 200, 100);
    TestDesk without;
    CHECK(try_bus_rules(without, input).size() == 4);
    input.engineered_study = "busbar study 117";
    CHECK(option(input, "bus.engineered", Edition::nec2020).passes);
    CHECK(option(input, "bus.engineered", Edition::nec2020).reason ==
          "as covered by busbar study 117");
    CHECK(text(option(input, "bus.engineered", Edition::nec2020).cite) ==
          "NEC 2020 705.12(B)(3)(5)");
    CHECK(option(input, "bus.engineered", Edition::nec2023).passes);
    CHECK_FALSE(option(input, "bus.engineered", Edition::nec2017).applies);
    input.several_ampacities = true;
    CHECK(option(input, "bus.engineered", Edition::nec2017).passes);
    input.several_ampacities = false;
    input.centre_fed = true;
    CHECK(option(input, "bus.engineered", Edition::nec2017).passes);
}

TEST_CASE("feed-through conductors are a feeder behind the busbar") {
    // Main 200 A and 40 A of sources: conductors of 240 A need no device.
    auto input = panel(225, 200, 25);
    input.feed_through = FeedThrough{.ampacity = amps(225, "I_z")};
    CHECK(option(input, "bus.sum").passes);
    CHECK(option(input, "bus.sum").reason == "225 A ≤ 225 A");
    input.feed_through->ampacity = amps(224.9, "I_z");
    const auto fails = option(input, "bus.sum");
    CHECK_FALSE(fails.passes);
    CHECK(fails.reason == "225 A ≤ 225 A; feed-through conductors: 225 A > 224.90 A");
    CHECK(fails.steps.back() == "X.feed_through.feeder_beyond");
    // A device at either end protects smaller ones.
    input.feed_through = FeedThrough{.ampacity = amps(150, "I_z"), .load_device = amps(150, "I_d")};
    CHECK(option(input, "bus.sum").passes);
    input.feed_through->load_device = amps(151, "I_d");
    CHECK_FALSE(option(input, "bus.sum").passes);
}

TEST_CASE("feed-through conductors: the supplying busbar by edition") {
    auto input = panel(225, 200, 25);
    input.feed_through =
        FeedThrough{.ampacity = amps(150, "I_z"), .supply_device = amps(150, "I_d")};
    const auto supply = option(input, "bus.feed_through", Edition::nec2020);
    CHECK(supply.passes);
    CHECK(supply.reason == "busbar by: Sum of main and sources");
    CHECK(text(supply.cite) == "NEC 2020 705.12(B)(3)(6)");
    CHECK(option(input, "bus.feed_through", Edition::nec2017).reason == "not in NEC 2017");
    // At the far end only: not in 2020, since 2023.
    input.feed_through = FeedThrough{.ampacity = amps(150, "I_z"), .load_device = amps(150, "I_d")};
    CHECK_FALSE(option(input, "bus.feed_through", Edition::nec2020).applies);
    CHECK(option(input, "bus.feed_through", Edition::nec2023).passes);
    // A device does not help a busbar that no rule allows.
    input.sources_125 = amps(25.01, "I_src");
    CHECK_FALSE(option(input, "bus.feed_through", Edition::nec2023).passes);
}

TEST_CASE("feed-through conductors count among the breakers by their device") {
    auto input = panel(200, 200, 40);
    input.breakers = {amps(100), amps(50)};
    input.feed_through = FeedThrough{.ampacity = amps(240, "I_z")};
    CHECK_FALSE(option(input, "bus.breakers").applies);
    input.feed_through->load_device = amps(50, "I_d");
    CHECK(option(input, "bus.breakers").passes); // 100 + 50 + 50 = 200
    input.feed_through->load_device = amps(60, "I_d");
    CHECK_FALSE(option(input, "bus.breakers").passes);
    input.feed_through->supply_device = amps(50, "I_d"); // the smaller one limits
    CHECK(option(input, "bus.breakers").passes);
}

TEST_CASE("power control replaces the sources by its setting, since 2020") {
    // 60 A of source is 75 A at 125 %; held to 32 A it is 40 A.
    auto input = panel(200, 200, 75);
    input.opposite_end = true;
    input.power_control = PowerControlOnBus{.sources = amps(32, "I_setting"), .listed = true};
    CHECK_FALSE(option(input, "bus.120", Edition::nec2017).passes);
    CHECK(option(input, "bus.120", Edition::nec2020).passes);
    CHECK(option(input, "bus.120", Edition::nec2023).passes);
    input.power_control->sources = amps(32.1, "I_setting");
    CHECK_FALSE(option(input, "bus.120").passes);
    // What it does not control is added.
    input.power_control->sources = amps(24, "I_setting");
    input.power_control->uncontrolled_125 = amps(10, "I_other");
    CHECK(option(input, "bus.120").passes);
    input.power_control->uncontrolled_125 = amps(10.1, "I_other");
    CHECK_FALSE(option(input, "bus.120").passes);
    // Without a listing it counts for nothing.
    input.power_control->uncontrolled_125.reset();
    input.power_control->listed = false;
    CHECK_FALSE(option(input, "bus.120").passes);
}

TEST_CASE(
    "a setting for the sources is told beside power control, which decides nothing by itself") {
    auto input = panel(200, 200, 75);
    input.power_control = PowerControlOnBus{.sources = amps(32, "I_setting"), .listed = true};
    const auto own = option(input, "bus.power_control");
    CHECK(own.counted);
    CHECK(own.reason == "the rules above count its setting for the sources, 32 A");
    const auto other = option(input, "bus.120");
    CHECK_FALSE(other.applies);
    CHECK_FALSE(other.counted);
    CHECK(other.reason == "not stated that the sources are at the end opposite the main");
    // Sources that the setting does not limit are not counted by it.
    input.sources_125 = amps(40, "I_src");
    CHECK_FALSE(option(input, "bus.power_control").counted);
}

TEST_CASE("a setting above the sources adds nothing to them") {
    auto input = panel(200, 200, 40);
    input.opposite_end = true;
    input.power_control = PowerControlOnBus{.sources = amps(100, "I_setting"), .listed = true};
    TestDesk desk;
    CHECK(sources_counted(desk, input).value == Amps{40});
    // 1.25 x 32 = 40: a setting that is just the sources limits nothing either.
    input.power_control->sources = amps(32, "I_setting");
    CHECK(sources_counted(desk, input).symbols == "I_src");
    CHECK_FALSE(desk.has("sources_controlled"));
    CHECK(option(input, "bus.120").passes);
}

TEST_CASE("power control of the whole busbar") {
    auto input = panel(200, 200, 100);
    input.power_control = PowerControlOnBus{.bus = amps(200, "I_setting"), .listed = true};
    CHECK(option(input, "bus.power_control", Edition::nec2020).passes);
    CHECK(option(input, "bus.power_control", Edition::nec2017).reason == "not in NEC 2017");
    input.power_control->bus = amps(200.5, "I_setting");
    CHECK_FALSE(option(input, "bus.power_control").passes);
    input.power_control->bus.reset();
    CHECK_FALSE(option(input, "bus.power_control").applies);
    input.power_control = PowerControlOnBus{.bus = amps(200, "I_setting")};
    CHECK(option(input, "bus.power_control").reason ==
          "not stated that the power control system is listed");
}

TEST_CASE("equipment for a single load is outside the busbar rules until 2023") {
    // 100 A main, 100 A of sources and one 100 A load on a 100 A busbar (forums.mikeholt.com
    // 2573533).
    auto input = panel(100, 100, 100);
    input.single_load = true;
    CHECK(option(input, "bus.single_load", Edition::nec2017).passes);
    CHECK(option(input, "bus.single_load", Edition::nec2020).passes);
    CHECK(option(input, "bus.single_load", Edition::nec2023).reason == "not in NEC 2023");
    input.sources_125 = amps(100.1, "I_src");
    CHECK_FALSE(option(input, "bus.single_load", Edition::nec2020).passes);
    input.sources_125 = amps(100, "I_src");
    input.main = amps(101, "I_main");
    CHECK_FALSE(option(input, "bus.single_load", Edition::nec2020).passes);
}

TEST_CASE("sections of different ampacity, each by itself") {
    // Upper section of 400 A behind 400 A without sources; lower of 200 A behind 150 A with 50 A.
    const std::vector<BusSection> sections = {{.name = "upper section",
                                               .rating = amps(400, "I_bus"),
                                               .device = amps(350, "I_main"),
                                               .sources_125 = amps(50, "I_src")},
                                              {.name = "lower section",
                                               .rating = amps(200, "I_bus"),
                                               .device = amps(150, "I_main"),
                                               .sources_125 = amps(50, "I_src")}};
    TestDesk desk;
    auto results = check_bus_sections(desk, sections);
    REQUIRE(results.size() == 2);
    CHECK(results[0].passes);
    CHECK(results[1].passes);
    CHECK(desk.line("lower_section.bus_sum").comparison == "200 A ≤ 200 A");
    auto smaller = sections;
    smaller[1].rating = amps(199, "I_bus");
    TestDesk again;
    results = check_bus_sections(again, smaller);
    CHECK(results[0].passes);
    CHECK_FALSE(results[1].passes);
    // Its breakers may save it: 60 + 60 + 70 = 190, behind a device of 150.
    smaller[1].breakers = {amps(60), amps(60), amps(70)};
    TestDesk third;
    CHECK(check_bus_sections(third, smaller)[1].passes);
}

TEST_CASE("each option passes and fails by the smallest step in every edition") {
    for (const Edition edition : all_editions) {
        INFO(name(edition));
        auto input = panel(200, 150, 90);
        input.opposite_end = true;
        CHECK(option(input, "bus.120", edition).passes);
        input.sources_125 = amps(90.01, "I_src");
        CHECK_FALSE(option(input, "bus.120", edition).passes);
        CHECK(option(panel(200, 150, 50), "bus.sum", edition).passes);
        CHECK_FALSE(option(panel(200, 150, 50.01), "bus.sum", edition).passes);
        input.breakers = {amps(150), amps(50)};
        CHECK(option(input, "bus.breakers", edition).passes);
        input.breakers = {amps(150), amps(51)};
        CHECK_FALSE(option(input, "bus.breakers", edition).passes);
        auto centre = panel(200, 200, 40);
        centre.centre_fed = true;
        CHECK(option(centre, "bus.center", edition).passes);
        centre.sources_125 = amps(40.01, "I_src");
        CHECK_FALSE(option(centre, "bus.center", edition).passes);
    }
}

TEST_CASE("of two devices on feed-through conductors the smaller one counts among the breakers") {
    auto input = panel(200, 200, 40);
    input.breakers = {amps(50, "I_1"), amps(50, "I_2")};
    FeedThrough conductors{.ampacity = amps(300, "I_z")};
    input.feed_through = conductors;
    CHECK(option(input, "bus.breakers").reason == "no device protects the feed-through conductors");
    const auto sum = [&](std::optional<double> supply, std::optional<double> load) {
        conductors.supply_device.reset();
        conductors.load_device.reset();
        if (supply)
            conductors.supply_device = amps(*supply, "I_supply");
        if (load)
            conductors.load_device = amps(*load, "I_load");
        input.feed_through = conductors;
        TestDesk desk;
        try_bus_rules(desk, input);
        return desk.line("bus_breakers_total").value;
    };
    CHECK(sum(100, std::nullopt) == 200); // 50 + 50 + 100
    CHECK(sum(std::nullopt, 80) == 180);
    CHECK(sum(100, 80) == 180);
    CHECK(sum(60, 80) == 160);
}
