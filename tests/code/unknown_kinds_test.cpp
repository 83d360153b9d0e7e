// A kind that is none of those listed, as a caller's mistake would bring it: it takes the strict
// side and never borrows the words or the paragraph of another kind.
#include "catch.h"
#include "code/inquiry.h"
#include "code/tables.h"
#include "code/working_space_rules.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

/// A value of the enumeration that has no name.
template <class Kind> Kind unknown() { return static_cast<Kind>(99); }

} // namespace

TEST_CASE("steel is what is made of it") {
    for (const RacewayKind kind :
         {RacewayKind::emt, RacewayKind::rmc, RacewayKind::fmc, RacewayKind::lfmc})
        CHECK(is_steel(kind));
    for (const RacewayKind kind : {RacewayKind::pvc40, RacewayKind::pvc80, RacewayKind::lfnc,
                                   RacewayKind::free_air, RacewayKind::cable})
        CHECK_FALSE(is_steel(kind));
    CHECK_FALSE(is_steel(unknown<RacewayKind>()));
}

TEST_CASE("an unknown place has neither words nor a limit") {
    CHECK(words(unknown<ArrayPlace>()).empty());
    CHECK(building_voltage_rule(unknown<ArrayPlace>()).empty());
    CHECK(name(unknown<SitingPlace>()).empty());
    TestDesk desk;
    CHECK_THROWS_AS(building_voltage_limit(desk, unknown<ArrayPlace>()), std::logic_error);
}

TEST_CASE("an unknown kind of what is opposite has no depth of working space") {
    TestDesk desk;
    CHECK_THROWS_AS(need_working_space(desk, {.to_ground = Volts{120},
                                              .opposite = unknown<Opposite>(),
                                              .equipment_width = Feet{1},
                                              .equipment_top = Feet{5}}),
                    std::logic_error);
}

TEST_CASE("unknown means of shutdown leave the whole string") {
    TestDesk desk;
    const auto result = check_rapid_shutdown(desk, {.means = unknown<ShutdownMeans>(),
                                                    .string_voltage = given("V_max", Volts{400}),
                                                    .module_voltage = given("V_oc", Volts{50}),
                                                    .seconds = 10});
    CHECK(desk.line("shutdown_inside").value == 400);
    CHECK(fails(result.verdicts, "pv.shutdown.inside"));
}

TEST_CASE("unknown means of isolation isolate nothing") {
    TestDesk desk;
    const auto verdicts =
        check_equipment_disconnect(desk, {.by = unknown<IsolatedBy>(), .within_equipment = true});
    CHECK(fails(verdicts, "pv.equipment.disconnect"));
    CHECK(desk.line("equipment_means").comparison == "nothing isolates the equipment");
}

TEST_CASE("access to a trip of an unknown kind is not restricted") {
    TestDesk desk;
    CHECK(adjustable_rating(
              desk, {.largest = Amps{400}, .setting = Amps{320}, .access = unknown<TripAccess>()})
              .value == Amps{400});
}

TEST_CASE("an unknown route to the service is told like one that is not stated") {
    TestDesk desk;
    const auto verdicts = check_supply_side(desk, {.route = unknown<SupplyRoute>(),
                                                   .service = amps(200, "I_service"),
                                                   .sources = amps(48, "I_src"),
                                                   .connected = amps(48, "I_src"),
                                                   .conductor = wire("6"),
                                                   .ampacity = amps(65, "I_z"),
                                                   .device = amps(60, "I_d")});
    CHECK(verdict_of(verdicts, "supply.route")
              ->statement.ends_with("how the sources reach the service"));
}

TEST_CASE("an unknown way of cooking counts by the nameplate, which is the most") {
    TestDesk desk;
    // 12 kW would be 8 kVA by column C of Table 220.55.
    CHECK(cooking_circuit_load(desk, unknown<CookingCircuit>(),
                               {nameplate_load("range", Watts{12000})})
              .value == Watts{12000});
}

TEST_CASE("an unknown way of wiring, a method or a grounding without a name") {
    CHECK(current_carrying_of({.wiring = unknown<CircuitWiring>()}) == 0);
    TestDesk route;
    const auto verdicts = check_dc_route(route, {.method = unknown<DcMethod>(),
                                                 .voltage = given("V_max", Volts{500}),
                                                 .current = amps(10, "I_max"),
                                                 .inside_building = true,
                                                 .readily_accessible = true});
    CHECK(fails(verdicts, "pv.wiring.accessible"));
    CHECK(fails(verdicts, "pv.wiring.building"));
    TestDesk array;
    CHECK_FALSE(array_grounding(array, unknown<ArrayGrounding>()).solidly_grounded);
    CHECK(array.line("array_grounding").result.empty());
}

TEST_CASE("a jumper of an unknown use is sized as the grounded conductor") {
    TestDesk desk;
    const auto result =
        size_bonding_jumper(desk, {.use = unknown<JumperUse>(), .phase = wire("3/0")});
    CHECK(result.size == wire("4"));
    CHECK(desk.line("grounded_conductor").title == "Grounded conductor");
}

TEST_CASE("rules that the edition lacks are not asked") {
    TestDesk desk(Edition::nec2017);
    const Desk asked = desk;
    Inquiry inquiry(asked);
    const std::string rule = "control.setting"; // 705.13 came with the 2020 edition
    REQUIRE_FALSE(inquiry.asks(rule));
    CHECK(inquiry.compare(rule, "a", "A", amps(2), "≤", amps(1)));
    CHECK(inquiry.compare(rule, "b", "B", given("L", Feet{2}), "≤", given("M", Feet{1})));
    CHECK(inquiry.compare(rule, "c", "C", given("R", Ohms{2}), "≤", given("S", Ohms{1})));
    CHECK(inquiry.verdicts().empty());
    CHECK(first_fault(inquiry.verdicts()) == nullptr);
    CHECK(desk.sheet.all().empty());
}
