// What is missing from the description never lets a rule pass: 0 A, 0 ft, no setting.
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

TEST_CASE("a trip whose setting is not stated, or impossible, counts as the largest") {
    const auto rating = [](double largest, double setting) {
        TestDesk desk;
        return adjustable_rating(desk, {.largest = Amps{largest},
                                        .setting = Amps{setting},
                                        .access = TripAccess::locked_door})
            .value.value;
    };
    CHECK(rating(400, 320) == 320);
    CHECK(rating(400, 400) == 400);
    CHECK(rating(400, 0) == 400);   // else a device of 0 A, which every conductor carries
    CHECK(rating(400, 401) == 401); // the larger of two statements that do not agree
    CHECK(rating(0, 320) == 320);
    TestDesk largest; // a setting may be the largest one, 240.6(C)
    adjustable_rating(
        largest, {.largest = Amps{400}, .setting = Amps{400}, .access = TripAccess::locked_door});
    CHECK(text(largest.line("rating").cite) == "NEC 2023 240.6(C)");
    CHECK(largest.line("rating").source.starts_with("setting, adjustment "));
}

TEST_CASE("a tap without a length is none") {
    const auto tap = [](double length) {
        TestDesk desk;
        return check_tap(desk, {.feeder = amps(400, "I_feeder"),
                                .ampacity = amps(200, "I_z"),
                                .length = Feet{length},
                                .end = {.device = amps(100, "I_end")}})
            .passes;
    };
    CHECK(tap(0.1));
    CHECK_FALSE(tap(0));
    const auto secondary = [](double length) {
        TestDesk desk;
        return check_secondary(desk, {.primary_device = amps(100, "I_p"),
                                      .primary = Volts{480},
                                      .secondary = Volts{240},
                                      .ampacity = amps(200, "I_z"),
                                      .length = Feet{length},
                                      .end = {.device = amps(100, "I_end")}})
            .passes;
    };
    CHECK(secondary(0.1));
    CHECK_FALSE(secondary(0));
    const auto beside_sources = [](double length) {
        TestDesk desk;
        return all_pass(check_feeder_tap(desk, {.ampacity = amps(200, "I_tap"),
                                                .length = Feet{length},
                                                .feeder_device = amps(200, "I_feeder"),
                                                .sources_125 = amps(40, "I_src"),
                                                .source_devices = {amps(40, "I_d")},
                                                .end_device = amps(60, "I_end")}));
    };
    CHECK(beside_sources(0.1));
    CHECK_FALSE(beside_sources(0));
}

TEST_CASE("a fault current that is not known is not interrupted") {
    const auto interrupts = [](double available) {
        TestDesk desk;
        return check_interrupting(
                   desk, {.available = amps(available, "I_sc"), .rating = amps(10000, "I_rating")})
            .passes;
    };
    CHECK(interrupts(0.1));
    CHECK_FALSE(interrupts(0));
    // A run that could not be worked out leaves 0 A.
    TestDesk desk;
    CHECK_FALSE(check_interrupting(desk, {.available = FaultRunResult{}.current,
                                          .rating = amps(10000, "I_rating")})
                    .passes);
}

TEST_CASE("a string of no stated voltage is not shut down") {
    const auto inside = [](double volts) {
        TestDesk desk;
        const auto result =
            check_rapid_shutdown(desk, {.means = ShutdownMeans::string_device,
                                        .string_voltage = given("V_max", Volts{volts}),
                                        .left_outside = given("V_left", Volts{30}),
                                        .seconds = 30});
        return !fails(result.verdicts, "pv.shutdown.inside");
    };
    CHECK(inside(80));
    CHECK_FALSE(inside(80.1));
    CHECK_FALSE(inside(0));
    TestDesk desk;
    CHECK(fails(check_rapid_shutdown(desk, {.seconds = 30}).verdicts, "pv.shutdown.outside"));
}

TEST_CASE("service conductors of no stated ampacity do not let a dwelling's feeder off") {
    ConductorInput input{.continuous = amps(0, "I_cont"),
                         .required = amps(0, "I_req"),
                         .overcurrent = amps(200, "I_ocpd")};
    input.dwelling_service = input.dwelling_feeder = true;
    input.service_ampacity = amps(0, "I_service");
    TestDesk desk;
    CHECK(size_conductor(desk, input).size == wire("2/0")); // 0.83 × 200 A = 166 A
}

TEST_CASE("a termination marked 60 C holds the conductor to 60 C above 100 A too") {
    const auto column = [](std::optional<Celsius> marked) {
        ConductorInput input{.continuous = amps(100, "I_cont"),
                             .required = amps(125, "I_req"),
                             .overcurrent = amps(125, "I_ocpd")};
        input.terminations = {{.at = "main", .marked = marked}};
        TestDesk desk;
        return size_conductor(desk, input).terminal_column;
    };
    CHECK(column(std::nullopt) == 75); // 110.14(C)(1)(b)
    CHECK(column(Celsius{75}) == 75);
    CHECK(column(Celsius{90}) == 75);
    CHECK(column(Celsius{60}) == 60); // 110.14(C): the lowest rating of any termination
}

TEST_CASE("neutral of each of several raceways: 1/0 AWG at least, in both materials") {
    const auto neutral = [](const char* phase, int sets, bool by_raceway, Material material) {
        TestDesk desk;
        return size_bonding_jumper(desk, {.use = JumperUse::grounded_conductor,
                                          .phase = wire(phase),
                                          .phase_material = material,
                                          .parallel_sets = sets,
                                          .by_raceway = by_raceway,
                                          .material = material})
            .size;
    };
    CHECK(neutral("3/0", 2, true, Material::copper) == wire("1/0")); // the table alone: 4 AWG
    CHECK(neutral("350", 2, true, Material::copper) == wire("1/0")); // 2 AWG
    CHECK(neutral("600", 2, true, Material::copper) == wire("1/0")); // 1/0 by the table itself
    CHECK(neutral("700", 2, true, Material::copper) == wire("2/0"));
    CHECK(neutral("250", 2, true, Material::aluminum) == wire("1/0")); // 2 AWG
    CHECK(neutral("3/0", 1, false, Material::copper) == wire("4"));    // not in parallel
    TestDesk desk(Edition::nec2020);
    size_bonding_jumper(desk, {.use = JumperUse::grounded_conductor,
                               .phase = wire("3/0"),
                               .parallel_sets = 2,
                               .by_raceway = true});
    CHECK(text(desk.line("grounded_conductor").cite) == "NEC 2020 250.24(C)(2)");
}

namespace {

/// 48 A behind 60 A on a service of 200 A.
SupplySideInput supply() {
    SupplySideInput input;
    input.service = amps(200, "I_service");
    input.sources = input.connected = amps(48, "I_src");
    input.ampacity = amps(65, "I_z");
    input.device = amps(60, "I_d");
    return input;
}

} // namespace

TEST_CASE("on the supply side 2017 adds up devices, later editions outputs") {
    const auto passes = [](double devices, Edition edition) {
        auto input = supply();
        input.sources = amps(160, "I_src");
        input.devices = amps(devices, "I_devices");
        TestDesk desk(edition);
        const auto verdicts = check_supply_side(desk, input);
        return !fails(verdicts, "supply.sum.devices") && !fails(verdicts, "supply.sum");
    };
    CHECK(passes(200, Edition::nec2017));
    CHECK_FALSE(passes(200.1, Edition::nec2017));
    CHECK(passes(200.1, Edition::nec2020));
    CHECK(passes(200.1, Edition::nec2023));
    auto one = supply(); // no others: its own device counts
    one.device = amps(201, "I_d");
    TestDesk desk(Edition::nec2017);
    CHECK(fails(check_supply_side(desk, one), "supply.sum.devices"));
}

TEST_CASE("supply-side conductors without a length are not near") {
    const auto near = [](double length, bool adapter, Edition edition) {
        auto input = supply();
        input.place.length = Feet{length};
        if (adapter)
            input.adapter = amps(60, "I_adapter");
        TestDesk desk(edition);
        return !fails(check_supply_side(desk, input), "supply.distance");
    };
    for (const Edition edition : {Edition::nec2017, Edition::nec2020}) {
        CHECK(near(0.1, false, edition));
        CHECK_FALSE(near(0, false, edition));
        CHECK(near(0, true, edition)); // within the adapter
    }
}
