// The rules for busbars read backwards. Arithmetic by hand.
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

BusInput panel(double bus, double main, double sources) {
    return {.bus = amps(bus, "I_bus"),
            .main = amps(main, "I_main"),
            .sources_125 = amps(sources, "I_src"),
            .opposite_end = true};
}

const BusLimit& of(const std::vector<BusLimit>& limits, const std::string& rule_id) {
    for (const BusLimit& limit : limits)
        if (limit.rule_id == rule_id)
            return limit;
    throw std::logic_error("no rule " + rule_id);
}

} // namespace

TEST_CASE("largest source at the opposite end, as the notes on the California code tabulate it") {
    // Notes on the 2025 California Electrical Code, 705: busbar, main, largest source device.
    const double table[][3] = {{100, 100, 20}, {125, 100, 50}, {125, 125, 25},
                               {200, 150, 90}, {200, 175, 65}, {200, 200, 40},
                               {225, 175, 95}, {225, 200, 70}, {225, 225, 45}};
    for (const auto& [bus, main, most] : table) {
        INFO(bus << " A, " << main << " A");
        TestDesk desk;
        const auto limits = largest_source_on_bus(desk, panel(bus, main, 0));
        CHECK(of(limits, "bus.120").value->value.value == Approx(most));
    }
}

TEST_CASE("largest source: what is there already counts") {
    TestDesk desk;
    const auto limits = largest_source_on_bus(desk, panel(200, 150, 30));
    CHECK(of(limits, "bus.120").value->value == Amps{60}); // 240 - 150 - 30
    CHECK(of(limits, "bus.sum").value->value == Amps{20}); // 200 - 150 - 30
    CHECK(desk.line("bus_120_room").formula == "1.2 × I_bus − I_main − I_src");
    CHECK(desk.line("bus_sum_room").figures == "200 A − 150 A − 30 A");
    CHECK_FALSE(of(limits, "bus.center").applies);
    CHECK(largest(limits)->rule_id == "bus.breakers"); // no breakers but the source's: 200 A
}

TEST_CASE("largest source by the sum of breakers is a standard device") {
    auto input = panel(200, 200, 0);
    input.breakers = {amps(100), amps(37)};
    TestDesk desk;
    const auto limits = largest_source_on_bus(desk, input);
    CHECK(of(limits, "bus.breakers").value->value == Amps{60}); // 63 A left
    CHECK(desk.line("bus_breakers_room").formula == "standard rating ≤ I_bus − (I + I)");
    input.main = amps(225, "I_main");
    TestDesk above;
    CHECK(of(largest_source_on_bus(above, input), "bus.breakers").reason ==
          "the main is above the busbar");
}

TEST_CASE("no room is said, not a negative current") {
    TestDesk desk;
    const auto limits = largest_source_on_bus(desk, panel(200, 200, 40));
    CHECK_FALSE(of(limits, "bus.120").value);
    CHECK(of(limits, "bus.120").reason == "no room is left");
    CHECK_FALSE(of(limits, "bus.sum").value);
    CHECK(desk.line("bus_120_room").verdict == Verdict::fail);
}

TEST_CASE("the continuous output that belongs to a limit") {
    TestDesk desk;
    const auto most = continuous_output(desk, amps(40, "I_src.most"));
    CHECK(most.value == Amps{32});
    CHECK(desk.line("source_most").formula == "I_src.most ÷ 1.25");
}

TEST_CASE("smallest busbar") {
    TestDesk desk;
    auto input = panel(0, 200, 40);
    input.breakers = {amps(100), amps(120)};
    const auto limits = smallest_bus(desk, input);
    CHECK(of(limits, "bus.sum").value->value == Amps{240});
    CHECK(of(limits, "bus.120").value->value == Amps{200});
    CHECK(of(limits, "bus.breakers").value->value == Amps{220});
    CHECK(smallest(limits)->rule_id == "bus.120");
    CHECK(desk.line("bus_120_least").formula == "(I_main + I_src) ÷ 1.2");
}

TEST_CASE("largest main") {
    TestDesk desk;
    const auto limits = largest_main(desk, panel(200, 0, 60));
    CHECK(of(limits, "bus.120").value->value == Amps{175}); // 240 - 60 = 180
    CHECK(of(limits, "bus.sum").value->value == Amps{125}); // 200 - 60 = 140
    CHECK(desk.line("bus_120_main_most").formula == "standard rating ≤ 1.2 × I_bus − I_src");
    // Never above the busbar: 240 - 16 = 224.
    TestDesk capped;
    const auto small = largest_main(capped, panel(200, 0, 16));
    CHECK(of(small, "bus.120").value->value == Amps{200});
    CHECK(capped.line("bus_120_main_most").formula ==
          "standard rating ≤ lesser of 1.2 × I_bus − I_src and I_bus");
    CHECK(capped.line("bus_120_main_most").governs == "not above the busbar, 408.36");
}

TEST_CASE("a main that the load outgrows is no answer") {
    TestDesk desk;
    const auto limits = largest_main(desk, panel(200, 0, 60), amps(150, "I_load"));
    CHECK(of(limits, "bus.120").value->value == Amps{175});
    CHECK_FALSE(of(limits, "bus.sum").value);
    CHECK(of(limits, "bus.sum").reason == "the load asks for more: 125 A < 150 A");
    TestDesk exact;
    CHECK(of(largest_main(exact, panel(200, 0, 60), amps(175, "I_load")), "bus.120").value);
}

TEST_CASE("limits see power control where the edition does") {
    auto input = panel(200, 0, 75);
    input.power_control = PowerControlOnBus{.sources = amps(32, "I_setting"), .listed = true};
    TestDesk before(Edition::nec2017), since(Edition::nec2020);
    CHECK(of(largest_main(before, input), "bus.120").value->value == Amps{150}); // 240 - 75
    CHECK(of(largest_main(since, input), "bus.120").value->value == Amps{200});  // 240 - 40
}

TEST_CASE("loads that are not described leave the sum of breakers without an answer") {
    auto input = panel(200, 150, 0);
    input.loads_described = false;
    TestDesk desk;
    const auto limits = largest_source_on_bus(desk, input);
    CHECK_FALSE(of(limits, "bus.breakers").applies);
    CHECK(of(limits, "bus.breakers").reason == "the load breakers are not described");
}

TEST_CASE("a busbar without sources and breakers is asked for its main alone") {
    TestDesk least, main;
    const auto smallest = smallest_bus(least, panel(0, 100, 0));
    CHECK(of(smallest, "bus.sum").value->value == Amps{100});
    CHECK(of(smallest, "bus.120").value->value.value == Approx(100 / 1.2));
    CHECK(of(smallest, "bus.breakers").value->value == Amps{100});
    const auto largest = largest_main(main, panel(125, 0, 0));
    CHECK(of(largest, "bus.sum").value->value == Amps{125});
    CHECK(of(largest, "bus.120").value->value == Amps{125}); // 150 A is above the busbar
    // What is not there stands in no formula.
    TestDesk source;
    largest_source_on_bus(source, panel(200, 150, 0));
    CHECK(source.line("bus_120_room").formula == "1.2 × I_bus − I_main");
    CHECK(least.line("bus_120_least").formula == "I_main ÷ 1.2");
    CHECK(main.line("bus_sum_main_most").formula == "standard rating ≤ I_bus");
}

TEST_CASE("the largest answer, wherever it stands in the list") {
    TestDesk desk;
    const auto limits = largest_source_on_bus(desk, panel(200, 150, 0));
    // bus.sum allows 50 A, bus.120 90 A, the breakers, of which there are none, 200 A.
    CHECK(largest(limits)->rule_id == "bus.breakers");
    std::vector<BusLimit> turned(limits.rbegin(), limits.rend());
    CHECK(largest(turned)->rule_id == "bus.breakers");
    CHECK(smallest(turned)->rule_id == "bus.sum");
    CHECK(largest({}) == nullptr);
    CHECK(smallest({}) == nullptr);
}

TEST_CASE("breakers that fill the busbar exactly do not exceed it") {
    // 705.12(B)(3)(3): the sum "shall not exceed the rating of the busbar".
    auto input = panel(200, 0, 0);
    input.breakers = {amps(150), amps(50)};
    TestDesk full, beyond;
    CHECK(of(largest_main(full, input), "bus.breakers").value->value == Amps{200});
    input.breakers.push_back(amps(15));
    CHECK(of(largest_main(beyond, input), "bus.breakers").reason ==
          "its breakers exceed the busbar");
}

TEST_CASE("a main that is exactly the busbar is not cut down to it") {
    // 1.2 x 200 - 40 = 200.
    TestDesk desk;
    CHECK(of(largest_main(desk, panel(200, 0, 40)), "bus.120").value->value == Amps{200});
    CHECK(desk.line("bus_120_main_most").formula == "standard rating ≤ 1.2 × I_bus − I_src");
    CHECK(desk.line("bus_120_main_most").governs.empty());
}
