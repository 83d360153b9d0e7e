// Where storage stands, what accessories switch and reach, and what inverters clip.
#include "catch.h"

#include "example.h"

using namespace ohmfolio;
using namespace ohmfolio::example;

namespace {

Case farm(const std::vector<Change>& changes) { return Case(fernhill, changes); }

Change unit(const std::string& energy) {
    return {R"(energy = "10.08 kWh")", "energy = \"" + energy + "\""};
}
const Change adopted{R"(occupancy = "One-family dwelling, R-3")",
                     "occupancy = \"One-family dwelling, R-3\"\nother_codes = [\"IRC 2021\"]"};

} // namespace

TEST_CASE("energy of a unit and distance between units, by the adopted code") {
    // IRC 2021 R328.5: 20 kWh a unit; R328.3.1: 3 ft between units (see storage_siting.toml)
    CHECK(farm({adopted, unit("20 kWh")}).finding("storage.siting.unit") == nullptr);
    REQUIRE(farm({adopted, unit("20.1 kWh")}).finding("storage.siting.unit") != nullptr);
    CHECK(farm({adopted, unit("20.1 kWh")}).finding("storage.siting.unit")->severity ==
          Severity::violation);
    const Change nearer{R"(spacing = "3 ft")", R"(spacing = "2.9 ft")"};
    CHECK(farm({adopted}).finding("storage.siting.spacing") == nullptr);
    CHECK(farm({adopted, nearer}).finding("storage.siting.spacing") != nullptr);
    // A listing by test may allow less; the units may then stand as near as that.
    const Change tested{"surge = \"32 A\"\n", "surge = \"32 A\"\nspacing = \"6 in\"\n"};
    CHECK(farm({adopted, nearer, tested}).finding("storage.siting.spacing") == nullptr);
}

TEST_CASE("without an adopted code a fault is only a warning") {
    const Case house(farm({unit("20.1 kWh")}));
    REQUIRE(house.finding("storage.siting.unit") != nullptr);
    CHECK(house.finding("storage.siting.unit")->severity == Severity::warning);
}

TEST_CASE("an adopted code is known by its full name") {
    const auto severity = [](const std::string& code) {
        const Change named{R"(occupancy = "One-family dwelling, R-3")",
                           "occupancy = \"One-family dwelling, R-3\"\nother_codes = [\"" + code +
                               "\"]"};
        return farm({named, unit("20.1 kWh")}).finding("storage.siting.unit")->severity;
    };
    CHECK(severity("2021 International Residential Code, Vance County") == Severity::violation);
    CHECK(severity("1995 International Residential Code") == Severity::warning);
    CHECK(severity("2021 International Plumbing Code") == Severity::warning);
}

TEST_CASE("energy of a location") {
    // R328.5: 40 kWh in a utility closet, 80 kWh on an exterior wall: 2 × 20 kWh and 2 × 20.05 kWh
    const std::vector<Change> closet = {
        adopted,
        {R"(place = "exterior wall")", R"(place = "utility closet")"},
        {R"(place = "exterior wall")", R"(place = "utility closet")"}};
    auto within = closet, beyond = closet;
    within.push_back(unit("20 kWh"));
    beyond.push_back(unit("20.05 kWh"));
    CHECK(farm(within).finding("storage.siting.energy") == nullptr);
    CHECK(farm(beyond).finding("storage.siting.energy") != nullptr);
}

TEST_CASE("a place that is not stated is told once") {
    const Case house(
        farm({{R"(place = "exterior wall", )", ""}, {R"(place = "exterior wall", )", ""}}));
    int told = 0;
    for (const Finding& finding : house.study.findings)
        told += finding.rule == "storage.siting.missing" ? 1 : 0;
    CHECK(told == 1);
    CHECK(house.finding("storage.siting.missing")->severity == Severity::advice);
}

TEST_CASE("a load controller takes two 240 V circuits") {
    // Range and heat pump are on LC-1, the most by its record; PV-3 would be a third.
    CHECK(farm({}).finding("accessory.controller.loads") == nullptr);
    const Change third{R"(shed_by = "LC-2")", R"(shed_by = "LC-1")"};
    CHECK(farm({third}).finding("accessory.controller.loads", "controller:LC-1") != nullptr);
}

TEST_CASE("the interconnect device commands two load controllers") {
    CHECK(farm({}).finding("accessory.controller.count") == nullptr);
    const Change fewer{"load_controllers = 2", "load_controllers = 1"};
    CHECK(farm({fewer}).finding("accessory.controller.count", "equipment:MID-1") != nullptr);
}

TEST_CASE("a relay contact carries the load's breaker") {
    // The range is on 50 A.
    CHECK(farm({}).finding("controller.contact") == nullptr);
    CHECK(farm({{R"(contact = "50 A")", R"(contact = "49 A")"}}).finding("controller.contact") !=
          nullptr);
}

TEST_CASE("control wiring is as long as the device allows") {
    const Change within{R"(length = "160 ft")", R"(length = "250 ft")"};
    const Change beyond{R"(length = "160 ft")", R"(length = "251 ft")"};
    CHECK(farm({within}).finding("accessory.control") == nullptr);
    CHECK(farm({beyond}).finding("accessory.control") != nullptr);
}

TEST_CASE("drops of the trunk cable are as far apart as the modules") {
    // In portrait the short side lies along the row: 1.13 m = 3.707 ft
    const auto drops = [](const std::string& spacing) {
        return Change{R"(drop_spacing_portrait = "4.3 ft")",
                      "drop_spacing_portrait = \"" + spacing + "\""};
    };
    CHECK(farm({drops("3.71 ft")}).finding("accessory.trunk.spacing") == nullptr);
    CHECK(farm({drops("3.70 ft")}).finding("accessory.trunk.spacing", "equipment:PV-1") != nullptr);
}

TEST_CASE("an inverter that no module can drive to its limit clips nothing") {
    // 405 W from a module at 25 °C in 1000 W/m²; light on a plane stays below 1.2 of that, so that
    // an inverter of 486 VA is never reached.
    const Change large{R"(output = "340 VA")", R"(output = "486 VA")"};
    const Change current{R"(output_current = "1.42 A")", R"(output_current = "2.03 A")"};
    CHECK(farm({large, current}).study.derivation("PV-1.clipped_share").value == 0);
}

TEST_CASE("an inverter far too small is told, with its ratio") {
    const Change small{R"(output = "340 VA")", R"(output = "240 VA")"};
    const Change current{R"(output_current = "1.42 A")", R"(output_current = "1 A")"};
    const Case house(farm({small, current}));
    const Finding* clipped = house.finding("inverter.clipping", "equipment:PV-1");
    REQUIRE(clipped != nullptr);
    CHECK(clipped->severity == Severity::advice);
    // 405 W ÷ 240 VA = 1.6875
    CHECK(clipped->message.find("1.6875") != std::string::npos);
    CHECK(house.study.derivation("PV-1.clipped_share").source.find("clear-sky") !=
          std::string::npos);
    // Branches that lie alike are told of once.
    CHECK(house.finding("inverter.clipping", "equipment:PV-2") == nullptr);
    CHECK(farm({}).finding("inverter.clipping") == nullptr);
}

TEST_CASE("a string inverter is judged with all of its roofs") {
    const Case cottage(cinder_row);
    // 23 × 405 W = 9315 W ÷ 7600 VA = 1.22566
    CHECK(cottage.study.derivation("INV-1.clipping_ratio").value == Approx(1.22566));
    CHECK(cottage.study.worksheet.find("INV-1.clipped_share") != nullptr);
}
