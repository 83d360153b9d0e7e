// Disconnecting means. Limits: codebookcity.com article 690 part 3 (2020) and notes on the 2025
// California Electrical Code.
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

bool rated(double current, double volts, std::optional<Amps> fault) {
    TestDesk desk;
    return all_pass(check_disconnect_ratings(desk, {.current = amps(17.375, "I_max"),
                                                    .voltage = given("V_max", Volts{560}),
                                                    .fault = amps(5000, "I_fault"),
                                                    .rated_current = Amps{current},
                                                    .rated_voltage = Volts{volts},
                                                    .rated_fault = fault}));
}

/// Complies in every edition.
SystemDisconnect good() {
    return {.voltage = Volts{560},
            .readily_accessible = true,
            .opens_all_poles = true,
            .lockable = true};
}

RuleVerdicts system(const SystemDisconnect& input, Edition edition = Edition::nec2023) {
    TestDesk desk(edition);
    return check_system_disconnect(desk, input);
}

bool equipment(const EquipmentDisconnect& input, Edition edition = Edition::nec2023) {
    TestDesk desk(edition);
    return all_pass(check_equipment_disconnect(desk, input));
}

} // namespace

TEST_CASE("ratings of a disconnect hold exactly and fail by the smallest step") {
    CHECK(rated(17.375, 560, Amps{5000}));
    CHECK_FALSE(rated(17.37, 560, Amps{5000}));
    CHECK_FALSE(rated(17.375, 559.99, Amps{5000}));
    CHECK_FALSE(rated(17.375, 560, Amps{4999}));
    CHECK_FALSE(rated(17.375, 560, std::nullopt));
    TestDesk written; // currents in amperes, what the disconnect withstands in kA
    check_disconnect_ratings(written, {.current = amps(1100, "I_max"),
                                       .voltage = given("V_max", Volts{560}),
                                       .fault = amps(5000, "I_fault"),
                                       .rated_current = Amps{1200},
                                       .rated_voltage = Volts{600},
                                       .rated_fault = Amps{10000}});
    CHECK(written.line("disconnect_current").comparison == "1200 A ≥ 1100 A");
    CHECK(written.line("disconnect_fault").comparison == "10 kA ≥ 5 kA");
    TestDesk unknown;
    CHECK(check_disconnect_ratings(unknown, {.current = amps(17, "I_max"),
                                             .voltage = given("V_max", Volts{560}),
                                             .rated_current = Amps{30},
                                             .rated_voltage = Volts{600}})
              .size() == 2);
}

TEST_CASE("the PV disconnect in every edition") {
    for (const Edition edition : all_editions) {
        CHECK(all_pass(system(good(), edition)));
        SystemDisconnect far = good();
        far.readily_accessible = false;
        CHECK_FALSE(all_pass(system(far, edition)));
        SystemDisconnect one_pole = good();
        one_pole.opens_all_poles = false;
        CHECK_FALSE(all_pass(system(one_pole, edition)));
    }
}

TEST_CASE("at most six, grouped") {
    SystemDisconnect input = good();
    input.count = 6;
    CHECK(all_pass(system(input)));
    input.count = 7;
    CHECK_FALSE(all_pass(system(input)));
    input.count = 2;
    input.grouped = false;
    CHECK_FALSE(all_pass(system(input)));
    input.count = 0;
    CHECK_FALSE(all_pass(system(input)));
}

TEST_CASE("doors over live parts above 30 V, and locks, since 2020") {
    SystemDisconnect input = good();
    input.exposes_live_parts = true;
    CHECK(all_pass(system(input, Edition::nec2017)));
    CHECK_FALSE(all_pass(system(input, Edition::nec2020)));
    CHECK_FALSE(all_pass(system(input, Edition::nec2023)));
    input.voltage = Volts{30};
    CHECK(all_pass(system(input)));
    input.voltage = Volts{30.01};
    CHECK_FALSE(all_pass(system(input)));
    input.door_needs_tool_or_key = true;
    CHECK(all_pass(system(input)));
    input.door_needs_tool_or_key = false;
    input.unqualified_access = false;
    CHECK(all_pass(system(input)));
    SystemDisconnect open = good();
    open.lockable = false;
    CHECK(all_pass(system(open, Edition::nec2017)));
    CHECK_FALSE(all_pass(system(open, Edition::nec2020)));
}

TEST_CASE("an isolating device to 30 A, a disconnecting means above") {
    EquipmentDisconnect input{.by = IsolatedBy::connector_or_isolator,
                              .within_equipment = true,
                              .marked_not_for_load = true};
    input.current = amps(30, "I_max");
    CHECK(equipment(input));
    input.current = amps(30.01, "I_max");
    CHECK_FALSE(equipment(input));
    input.by = IsolatedBy::interlocked_device;
    CHECK(equipment(input));
    input.by = IsolatedBy::disconnect;
    CHECK(equipment(input));
    input.by = IsolatedBy::nothing;
    CHECK_FALSE(equipment(input));
    input.by = IsolatedBy::connector_or_isolator;
    input.current = amps(12, "I_max");
    input.marked_not_for_load = false;
    CHECK_FALSE(equipment(input));
}

TEST_CASE("in the equipment, or in sight within 10 ft, or remote as the edition allows") {
    EquipmentDisconnect input{.current = amps(12, "I_max"),
                              .by = IsolatedBy::disconnect,
                              .in_sight = true,
                              .distance = Feet{10}};
    CHECK(equipment(input));
    input.distance = Feet{10.01};
    CHECK_FALSE(equipment(input));
    input.lockable = true;
    CHECK_FALSE(equipment(input, Edition::nec2017));
    CHECK(equipment(input, Edition::nec2020));
    input.lockable = false;
    input.remote_control_near = true;
    CHECK(equipment(input, Edition::nec2017));
    input.remote_control_near = false;
    input.distance = Feet{5};
    input.in_sight = false;
    CHECK_FALSE(equipment(input));
    input.within_equipment = true;
    CHECK(equipment(input));
}

TEST_CASE("no disconnect is no means to disconnect") {
    auto input = good();
    input.count = 0;
    CHECK(fails(system(input), "pv.disconnect.count"));
    input.count = 1;
    CHECK_FALSE(fails(system(input), "pv.disconnect.count"));
}
