// Wiring methods of direct-current circuits. Sources: iaeimagazine.org more PV equipment on the
// roof (2020), notes on the 2025 California Electrical Code, go.mail-archive.com re-wrenches 27679.
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

RuleVerdicts insulation(DcInsulation input, double volts) {
    TestDesk desk;
    input.voltage = given("V_max", Volts{volts});
    return check_dc_insulation(desk, input);
}

bool route(DcRoute input, Edition edition, double volts, double current) {
    TestDesk desk(edition);
    input.voltage = given("V_max", Volts{volts});
    input.current = amps(current, "I_max");
    return all_pass(check_dc_route(desk, input));
}

bool identified(const DcIdentification& input, Edition edition = Edition::nec2023) {
    TestDesk desk(edition);
    return all_pass(check_dc_identification(desk, input));
}

} // namespace

TEST_CASE("insulation is rated for the voltage") {
    const DcInsulation wire_600{.rating = Volts{600}};
    CHECK(all_pass(insulation(wire_600, 600)));
    CHECK_FALSE(all_pass(insulation(wire_600, 600.01)));
    CHECK(all_pass(insulation({.rating = Volts{2000}}, 1000)));
}

TEST_CASE("exposed in the array: PV wire, or USE-2 marked sunlight resistant") {
    const auto passes = [](Insulation kind, bool sunlight) {
        return all_pass(
            insulation({.kind = kind, .rating = Volts{600}, .sunlight_resistant = sunlight}, 500));
    };
    CHECK(passes(Insulation::pv_wire, false)); // its listing asks for it
    CHECK(passes(Insulation::use_2, true));
    CHECK_FALSE(passes(Insulation::use_2, false));
    CHECK_FALSE(passes(Insulation::thwn_2, true));
    CHECK_FALSE(passes(Insulation::xhhw_2, true));
    CHECK_FALSE(passes(Insulation::trunk_cable, true));
}

TEST_CASE("in raceway: USE-2 needs a further marking, and Article 338 governs no other kind") {
    const auto passes = [](Insulation kind, bool marked) {
        return all_pass(insulation({.kind = kind,
                                    .rating = Volts{600},
                                    .marked_for_raceway = marked,
                                    .method = DcMethod::metal_raceway},
                                   500));
    };
    CHECK(passes(Insulation::use_2, true));
    CHECK_FALSE(passes(Insulation::use_2, false));
    // Article 338 is titled service-entrance cable: types SE and USE.
    for (const Insulation kind : {Insulation::thwn_2, Insulation::xhhw_2, Insulation::pv_wire}) {
        CHECK(passes(kind, false));
        TestDesk desk;
        check_dc_insulation(desk, {.kind = kind,
                                   .rating = Volts{600},
                                   .method = DcMethod::metal_raceway,
                                   .voltage = given("V_max", Volts{500})});
        CHECK_FALSE(desk.has("insulation_raceway"));
    }
}

TEST_CASE("inside buildings: metal, above 30 V or 8 A since 2020") {
    DcRoute input{.method = DcMethod::nonmetallic_raceway, .inside_building = true};
    for (const Edition edition : {Edition::nec2020, Edition::nec2023}) {
        CHECK(route(input, edition, 30, 8));
        CHECK_FALSE(route(input, edition, 30.01, 8));
        CHECK_FALSE(route(input, edition, 30, 8.01));
    }
    CHECK_FALSE(route(input, Edition::nec2017, 30, 8));
    for (const Edition edition : all_editions) {
        input.method = DcMethod::metal_raceway;
        CHECK(route(input, edition, 560, 17));
        input.method = DcMethod::mc_cable;
        CHECK(route(input, edition, 560, 17));
        input.method = DcMethod::jacketed_cable;
        CHECK_FALSE(route(input, edition, 560, 17));
    }
}

TEST_CASE("a hazard control system may enter in plastic, since 2020") {
    DcRoute input{.method = DcMethod::nonmetallic_raceway,
                  .inside_building = true,
                  .at_penetration = true,
                  .hazard_control_system = true};
    CHECK_FALSE(route(input, Edition::nec2017, 560, 17));
    CHECK(route(input, Edition::nec2020, 560, 17));
    CHECK(route(input, Edition::nec2023, 560, 17));
    input.at_penetration = false;
    CHECK_FALSE(route(input, Edition::nec2023, 560, 17));
}

TEST_CASE("within reach above 30 V: guarded, MC cable or raceway; jacketed cable since 2020") {
    DcRoute input{.readily_accessible = true};
    for (const Edition edition : all_editions) {
        input.method = DcMethod::exposed_singles;
        input.guarded = false;
        CHECK(route(input, edition, 30, 12));
        CHECK_FALSE(route(input, edition, 30.01, 12));
        input.guarded = true;
        CHECK(route(input, edition, 560, 12));
        input.guarded = false;
        input.method = DcMethod::nonmetallic_raceway;
        CHECK(route(input, edition, 560, 12));
        input.method = DcMethod::mc_cable;
        CHECK(route(input, edition, 560, 12));
    }
    input.method = DcMethod::jacketed_cable;
    CHECK_FALSE(route(input, Edition::nec2017, 560, 12));
    CHECK(route(input, Edition::nec2020, 560, 12));
}

TEST_CASE("with other systems only behind a barrier") {
    DcRoute input{.method = DcMethod::metal_raceway, .with_other_systems = true};
    CHECK_FALSE(route(input, Edition::nec2017, 560, 12));
    input.barrier = true;
    CHECK(route(input, Edition::nec2017, 560, 12));
    input.with_other_systems = input.barrier = false;
    CHECK(route(input, Edition::nec2023, 560, 12));
}

TEST_CASE("polarity is marked, and colors keep their meaning") {
    using Solid = DcIdentification::Solid;
    DcIdentification input{.positive = "red", .negative = "black", .polarity_marked = true};
    CHECK(identified(input));
    input.polarity_marked = false;
    CHECK_FALSE(identified(input));
    for (const char* color : {"white", "gray", "green"}) {
        CHECK_FALSE(identified({color, "black", true, Solid::none}));
        CHECK_FALSE(identified({"red", color, true, Solid::none}));
    }
    CHECK(identified({"red", "white", true, Solid::negative}));
    CHECK(identified({"red", "gray", true, Solid::negative}));
    CHECK_FALSE(identified({"red", "black", true, Solid::negative}));
    CHECK(identified({"white", "black", true, Solid::positive}));
    CHECK_FALSE(identified({"white", "black", true, Solid::negative}));
}

TEST_CASE("a red negative since 2020 is refused") {
    const DcIdentification input{"black", "red", true};
    CHECK(identified(input, Edition::nec2017));
    CHECK_FALSE(identified(input, Edition::nec2020));
    CHECK_FALSE(identified(input, Edition::nec2023));
}

TEST_CASE("within reach: raceways, burial and guards serve, jacketed cable since it is listed") {
    // 690.31(A): readily accessible above 30 V.
    const auto reached = [](DcMethod method, bool guarded, Edition edition = Edition::nec2023) {
        return route({.method = method, .readily_accessible = true, .guarded = guarded}, edition,
                     500, 10);
    };
    CHECK(reached(DcMethod::underground, false));
    CHECK_FALSE(reached(DcMethod::enclosed_tray, false)); // 690.31(A) names raceways, no trays
    CHECK(reached(DcMethod::nonmetallic_raceway, false));
    CHECK_FALSE(reached(DcMethod::exposed_singles, false));
    CHECK(reached(DcMethod::exposed_singles, true));
    // Guarded jacketed cable passes by its guard.
    for (const bool guarded : {false, true}) {
        TestDesk desk;
        const auto verdicts = check_dc_route(desk, {.method = DcMethod::jacketed_cable,
                                                    .voltage = given("V_max", Volts{500}),
                                                    .current = amps(10, "I_max"),
                                                    .readily_accessible = true,
                                                    .guarded = guarded});
        CHECK(all_pass(verdicts));
        CHECK((verdict_of(verdicts, guarded ? "pv.wiring.accessible" : "pv.wiring.jacketed") !=
               nullptr));
    }
}

TEST_CASE("the way it runs is named in the verdict") {
    const auto told = [](DcMethod method) {
        TestDesk desk;
        check_dc_route(desk, {.method = method,
                              .voltage = given("V_max", Volts{500}),
                              .current = amps(10, "I_max"),
                              .readily_accessible = true});
        return desk.line("method_reach").comparison;
    };
    CHECK(told(DcMethod::enclosed_tray) == "enclosed metallic cable tray at 500 V, not guarded");
    CHECK(told(DcMethod::underground) == "underground at 500 V, not guarded");
}
