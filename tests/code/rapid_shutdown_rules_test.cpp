// Rapid shutdown. Limits: community.nfpa.org/polls/1299, iaeimagazine.org 2017-03-10, notes on the
// 2025 California Electrical Code; exceptions of 2023: electricallicenserenewal.com sectionID=1550
// and nacleanenergy.com; third way inside: inverters73.rssing.com article 3541 (2017).
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

bool required(Edition edition, ArrayStands stands, CircuitsGo go) {
    TestDesk desk(edition);
    return shutdown_scope(desk, stands, go).required;
}

/// Module electronics that leave 16 V of a 400 V string within 10 s, modules of 50 V.
ShutdownDesign electronics() {
    return {.means = ShutdownMeans::module_electronics,
            .string_voltage = given("V_max", Volts{400}),
            .module_voltage = given("V_oc.cold", Volts{50}),
            .left_outside = given("V_left", Volts{16}),
            .seconds = 10,
            .listed_equipment = true};
}

ShutdownResult checked(const ShutdownDesign& design, Edition edition = Edition::nec2023) {
    TestDesk desk(edition);
    return check_rapid_shutdown(desk, design);
}

const RuleVerdict& inside(const ShutdownResult& result) { return result.verdicts.at(2); }

} // namespace

TEST_CASE("an array on a building always needs it") {
    for (const Edition edition : all_editions)
        for (const CircuitsGo go : {CircuitsGo::off_buildings, CircuitsGo::ends_outside,
                                    CircuitsGo::as_outside, CircuitsGo::into_building})
            CHECK(required(edition, ArrayStands::building, go));
}

TEST_CASE("what needs none, by edition") {
    using enum ArrayStands;
    using enum CircuitsGo;
    for (const Edition edition : all_editions) {
        CHECK_FALSE(required(edition, ground, off_buildings));
        CHECK_FALSE(required(edition, ground, equipment_building));
        CHECK(required(edition, ground, into_building));
        CHECK(required(edition, open_structure, into_building));
    }
    for (const Edition edition : {Edition::nec2017, Edition::nec2020}) {
        CHECK(required(edition, ground, ends_outside));
        CHECK(required(edition, ground, as_outside));
        CHECK(required(edition, open_structure, off_buildings));
    }
    CHECK_FALSE(required(Edition::nec2023, ground, ends_outside));
    CHECK_FALSE(required(Edition::nec2023, ground, as_outside));
    CHECK_FALSE(required(Edition::nec2023, open_structure, off_buildings));
    CHECK_FALSE(required(Edition::nec2023, open_structure, ends_outside));
    TestDesk off(Edition::nec2020), into;
    CHECK(shutdown_scope(off, open_structure, off_buildings).reason ==
          "array on a structure that this edition does not exempt by name");
    CHECK(shutdown_scope(into, ground, into_building).reason == "circuits on or in a building");
}

TEST_CASE("the boundary: 1 ft from the array, 3 ft inside the building") {
    const auto side = [](const ConductorPlace& place) {
        TestDesk desk;
        return boundary_side(desk, place);
    };
    CHECK(side({.from_array = Feet{1}}) == BoundarySide::inside);
    CHECK(side({.from_array = Feet{1.01}}) == BoundarySide::outside);
    CHECK(side({.in_building = true, .from_entry = Feet{3}}) == BoundarySide::inside);
    CHECK(side({.in_building = true, .from_entry = Feet{3.01}}) == BoundarySide::outside);
}

TEST_CASE("outside: 30 V within 30 s") {
    ShutdownDesign design = electronics();
    CHECK(checked(design).passes());
    design.left_outside = given("V_left", Volts{30});
    CHECK(checked(design).passes());
    design.left_outside = given("V_left", Volts{30.01});
    CHECK_FALSE(checked(design).passes());
    design = electronics();
    design.seconds = 30;
    CHECK(checked(design).passes());
    design.seconds = 30.1;
    CHECK_FALSE(checked(design).passes());
    design.seconds.reset();
    CHECK_FALSE(checked(design).passes());
}

TEST_CASE("what no device states is not kept, and is shown as the word of the description if it "
          "says so") {
    // A statement is no listing (690.4(B) of 2023, 690.12(D) before): neither the sheet nor the
    // verdict may read as one.
    ShutdownDesign design = electronics();
    design.left_outside.reset();
    design.seconds.reset();
    design.listed_equipment = false;
    const RuleVerdicts unstated = checked(design).verdicts;
    CHECK(std::ranges::none_of(unstated, &RuleVerdict::passes));
    design.on_word = "module_shutdown";
    const RuleVerdicts on_word = checked(design).verdicts;
    CHECK(all_pass(on_word));
    for (const std::size_t i : {0U, 1U, 3U}) // outside, time, listing
        CHECK(on_word.at(i).statement == "as stated: module_shutdown");
    TestDesk desk;
    check_rapid_shutdown(desk, design);
    CHECK_FALSE(desk.has("shutdown_outside")); // no voltage is made up
}

TEST_CASE("a word does not stand for what a device states otherwise") {
    ShutdownDesign design = electronics();
    design.on_word = "module_shutdown";
    design.left_outside = given("V_left", Volts{30.01}); // 30 V, 690.12(B)(1)
    design.seconds = 30.1;                               // 30 s
    const RuleVerdicts verdicts = checked(design).verdicts;
    CHECK_FALSE(verdicts.at(0).passes);
    CHECK_FALSE(verdicts.at(1).passes);
}

TEST_CASE("inside: 80 V within 30 s") {
    ShutdownDesign design = electronics();
    design.module_voltage = given("V_oc.cold", Volts{80});
    CHECK(checked(design).passes());
    design.module_voltage = given("V_oc.cold", Volts{80.01});
    CHECK_FALSE(inside(checked(design)).passes);
    design = electronics();
    design.modules_per_device = 2; // 100 V
    CHECK_FALSE(inside(checked(design)).passes);
    design.module_voltage = given("V_oc.cold", Volts{40}); // 80 V
    CHECK(inside(checked(design)).passes);
}

TEST_CASE("microinverters leave nothing outside and one module inside") {
    ShutdownDesign design{.means = ShutdownMeans::microinverters,
                          .module_voltage = given("V_oc.cold", Volts{46}),
                          .seconds = 2,
                          .listed_equipment = true};
    CHECK(checked(design).passes());
    CHECK(inside(checked(design)).statement == "80 V within 30 s: 46 V remains");
    design.listed_equipment = false;
    CHECK_FALSE(checked(design).passes());
}

TEST_CASE("a string without devices at the modules needs another way inside") {
    ShutdownDesign design = electronics();
    design.means = ShutdownMeans::string_device;
    for (const Edition edition : all_editions) {
        CHECK_FALSE(inside(checked(design, edition)).passes);
        ShutdownDesign listed = design;
        listed.listed_system = true;
        CHECK(checked(listed, edition).passes());
        CHECK(inside(checked(listed, edition)).rule == "pv.shutdown.listed");
    }
    design.means = ShutdownMeans::none;
    design.listed_system = true;
    CHECK_FALSE(checked(design).passes()); // 400 V remains outside
}

TEST_CASE("nothing exposed and more than 8 ft away: a way until 2020") {
    ShutdownDesign design = electronics();
    design.means = ShutdownMeans::string_device;
    design.exposed_parts = false;
    design.from_grounded_metal = Feet{8.01};
    CHECK(checked(design, Edition::nec2017).passes());
    CHECK(checked(design, Edition::nec2020).passes());
    CHECK_FALSE(checked(design, Edition::nec2023).passes());
    design.from_grounded_metal = Feet{8};
    CHECK_FALSE(checked(design, Edition::nec2017).passes());
    design.from_grounded_metal = Feet{9};
    design.exposed_parts = true;
    CHECK_FALSE(checked(design, Edition::nec2017).passes());
}

TEST_CASE("a failed inside says why for every way of the edition") {
    ShutdownDesign design = electronics();
    design.means = ShutdownMeans::string_device;
    CHECK(inside(checked(design)).statement ==
          "listed system: not listed as a whole; 80 V within 30 s: 400 V remains, above 80 V");
    CHECK(checked(design).inside.size() == 3);
    CHECK_FALSE(checked(design).inside.back().exists);
    CHECK(checked(design, Edition::nec2017).inside.back().exists);
}

TEST_CASE("the initiation device of a dwelling is outdoors and readily accessible") {
    const auto passes = [](const ShutdownInitiation& input) {
        TestDesk desk;
        return all_pass(check_shutdown_initiation(desk, input));
    };
    ShutdownInitiation input{.readily_accessible = true, .outdoors = true};
    CHECK(passes(input));
    input.devices = 6;
    CHECK(passes(input));
    input.grouped = false;
    CHECK_FALSE(passes(input));
    input.grouped = true;
    input.devices = 7;
    CHECK_FALSE(passes(input));
    input.devices = 1;
    input.outdoors = false;
    CHECK_FALSE(passes(input));
    input.dwelling = false;
    CHECK(passes(input));
    input.devices = 0;
    CHECK_FALSE(passes(input));
}

TEST_CASE("listing of the equipment by its paragraph") {
    TestDesk before(Edition::nec2020), since(Edition::nec2023);
    check_rapid_shutdown(before, electronics());
    check_rapid_shutdown(since, electronics());
    CHECK(text(before.line("shutdown_equipment").cite) == "NEC 2020 690.12(D)");
    CHECK(text(since.line("shutdown_equipment").cite) == "NEC 2023 690.4(B)");
}

TEST_CASE("initiation at a dwelling: outdoors and readily accessible, both") {
    const auto told = [](bool outdoors, bool accessible) {
        TestDesk desk;
        const auto verdicts = check_shutdown_initiation(
            desk, {.readily_accessible = accessible, .outdoors = outdoors});
        return std::pair{all_pass(verdicts), verdicts.back().statement};
    };
    CHECK(told(true, true) == std::pair{true, std::string("outdoors, readily accessible")});
    CHECK(told(true, false) == std::pair{false, std::string("outdoors, not readily accessible")});
    CHECK(told(false, true) == std::pair{false, std::string("not outdoors, readily accessible")});
    CHECK(told(false, false) ==
          std::pair{false, std::string("not outdoors, not readily accessible")});
}
