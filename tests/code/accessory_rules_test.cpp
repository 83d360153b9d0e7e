// Accessories, each with the smallest step that passes and fails. The limits are customs of the
// trade without a source, and the equipment's own where the test states one.
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

constexpr double feet_per_meter = 1 / 0.3048;

Feet meters(double value) { return Feet{feet_per_meter * value}; }

TrunkInput row(int modules) {
    return {.modules = modules,
            .branch_limit = 13,
            .orientation = ModuleOrientation::portrait,
            .module_pitch = meters(1.0),
            .length = Feet{20}};
}

} // namespace

TEST_CASE("a drop for each module, and caps for what is left") {
    TrunkInput input = row(12);
    const auto judge = [&] {
        TestDesk desk;
        return judge_trunk(desk, input);
    };
    CHECK(all_pass(judge().verdicts));
    CHECK(judge().sealing_caps == 0);
    CHECK(judge().end_caps == 1);
    input.drops = 14;
    CHECK(judge().sealing_caps == 2);
    input.drops = 11;
    CHECK(fails(judge().verdicts, "accessory.trunk.drops"));
    CHECK(judge().sealing_caps == 0);
    input = row(13);
    CHECK(all_pass(judge().verdicts));
    input = row(14);
    CHECK(fails(judge().verdicts, "accessory.trunk.branch"));
    input.branch_limit.reset();
    CHECK(verdict_of(judge().verdicts, "accessory.trunk.branch") == nullptr);
}

TEST_CASE("modules fit the spacing of the drops: 1.0 m in portrait, 1.7 m in landscape") {
    TrunkInput input = row(12);
    const auto too_wide = [&] {
        TestDesk desk;
        return fails(judge_trunk(desk, input).verdicts, "accessory.trunk.spacing");
    };
    CHECK_FALSE(too_wide());
    input.module_pitch = meters(1.01);
    CHECK(too_wide());
    input.orientation = ModuleOrientation::landscape;
    CHECK_FALSE(too_wide());
    input.module_pitch = meters(1.7);
    CHECK_FALSE(too_wide());
    input.module_pitch = meters(1.71);
    CHECK(too_wide());
    input.drop_spacing = meters(2.0); // what the cable states goes before
    CHECK_FALSE(too_wide());
    TestDesk desk;
    judge_trunk(desk, input);
    CHECK(text(desk.line("trunk_spacing").cite) == "equipment nameplate");
}

TEST_CASE("supports every 24 in") {
    const auto supports = [](double length, std::optional<Feet> spacing = {}) {
        TestDesk desk;
        TrunkInput input = row(6);
        input.length = Feet{length};
        input.support_spacing = spacing;
        return judge_trunk(desk, input).supports;
    };
    CHECK(supports(20) == 10);
    CHECK(supports(20.1) == 11);
    CHECK(supports(20, Feet{4}) == 5);
    TestDesk desk;
    judge_trunk(desk, row(6));
    CHECK(desk.line("trunk_supports").figures == "20 ft ÷ 2 ft");
    CHECK(text(desk.line("trunk_supports").cite) == "common practice");
}

TEST_CASE("control wiring of 250 ft in all") {
    const auto passes_with = [](double last, std::optional<Feet> limit = {}) {
        TestDesk desk;
        return check_control_wiring(desk, {given("L_1", Feet{100}), given("L_2", Feet{last})},
                                    limit)
            .passes;
    };
    CHECK(passes_with(150));
    CHECK_FALSE(passes_with(150.1));
    CHECK(passes_with(150.1, Feet{300}));
    TestDesk desk;
    check_control_wiring(desk, {given("L_1", Feet{100}), given("L_2", Feet{50})});
    CHECK(desk.line("control_length").formula == "L_1 + L_2");
    CHECK(desk.line("control_wiring").comparison == "150 ft ≤ 250 ft");
}

TEST_CASE("one set of current transformers for storage") {
    TestDesk one, two, stated;
    CHECK(check_storage_sensors(one, 1).passes);
    CHECK_FALSE(check_storage_sensors(two, 2).passes);
    CHECK(check_storage_sensors(stated, 2, 2).passes);
}

TEST_CASE("load controllers: two 240 V or four 120 V loads each, two on a device") {
    const auto failing = [](const LoadControllers& input) {
        TestDesk desk;
        int count = 0;
        for (const RuleVerdict& one : check_load_controllers(desk, input))
            count += one.passes ? 0 : 1;
        return count;
    };
    CHECK(failing({.controllers = 1, .loads_240 = 2}) == 0);
    CHECK(failing({.controllers = 1, .loads_240 = 3}) == 1);
    CHECK(failing({.controllers = 2, .loads_240 = 3}) == 0);
    CHECK(failing({.controllers = 1, .loads_120 = 4}) == 0);
    CHECK(failing({.controllers = 1, .loads_120 = 5}) == 1);
    CHECK(failing({.controllers = 1, .loads_240 = 1, .loads_120 = 1}) == 1);
    CHECK(failing({.controllers = 3, .loads_240 = 5}) == 1); // one too many for the device
    CHECK(failing({.controllers = 3, .loads_240 = 5, .interconnect_devices = 2}) == 0);
    CHECK(failing({.controllers = 3, .loads_240 = 5, .limit = 3}) == 0);
    TestDesk desk;
    check_load_controllers(desk, {.controllers = 2, .loads_240 = 3});
    CHECK(desk.line("controllers_240").result == "2");
    CHECK(desk.line("controllers_240").rounding == "1.5, rounded up");
    CHECK(desk.line("controllers").figures == "2 ≥ 2 + 0");
}

TEST_CASE("no control wiring is 0 ft") {
    TestDesk desk;
    const auto verdict = check_control_wiring(desk, {}, Feet{100});
    CHECK(verdict.passes);
    CHECK(desk.line("control_length").value == 0);
}

TEST_CASE("load controllers by what the equipment takes, where it states both") {
    // 3 loads at 2 each need 2 controllers, 1 load of 120 V at 4 each one more.
    LoadControllers input{.controllers = 3, .loads_240 = 3, .loads_120 = 1};
    const auto verdict = [&] {
        TestDesk desk;
        const auto result = check_controller_loads(desk, input);
        return std::pair{result.passes, desk.line("controllers").cite.section};
    };
    input.takes_240 = 2;
    const std::string custom = verdict().second; // the other limit is not the equipment's
    CHECK(custom != "equipment nameplate");
    input.takes_120 = 4;
    CHECK(verdict() == std::pair{true, std::string("equipment nameplate")});
    input.controllers = 2;
    CHECK_FALSE(verdict().first);
    input.takes_240.reset();
    CHECK(verdict().second == custom);
}
