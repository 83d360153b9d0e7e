// The load calculation of the jobs, by each method; the arithmetic is written beside each check.
#include "catch.h"

#include "example.h"

using namespace ohmfolio;
using namespace ohmfolio::example;

namespace {

double value(const Case& one, const std::string& id) { return one.study.derivation(id).value; }

const Change metered{"method = \"existing\"\nfloor_area = \"1480 ft2\"",
                     "method = \"metered\"\npeak_demand = \"10 kVA\""};
const Change range_without_power{R"(kind = "range", power = "11.2 kVA")", R"(kind = "range")"};

} // namespace

TEST_CASE("the jobs are without findings in every edition") {
    for (const Edition edition : all_editions) {
        const Case farm(fernhill, {}, edition);
        INFO(name(edition) << "\n" << example::listed(farm.study));
        CHECK(farm.study.findings.empty());
    }
}

TEST_CASE("the optional method on the service") {
    // 220.82(B): 3 VA/ft² × 2640 ft² = 7920 VA, circuits 3 × 1500 = 4500 VA, appliances
    // 1800 + 12 000 + 5000 + 4500 = 23 300 VA, together 35 720 VA;
    // 10 000 + 0.4 × 25 720 = 20 288 VA; 220.82(C) heat pump 5800 VA: 26 088 VA.
    const Case farm(fernhill);
    CHECK(value(farm, "loads.optional_load") == Approx(26088));
    // ÷ 240 V = 108.70 A, to the whole ampere
    CHECK(value(farm, "loads.optional_amps") == 109);
    const Change enough{R"(service = "120/240 V, 200 A")", R"(service = "120/240 V, 109 A")"};
    const Change short_of{R"(service = "120/240 V, 200 A")", R"(service = "120/240 V, 108 A")"};
    CHECK(Case(fernhill, {enough}).finding("load.service") == nullptr);
    const Case small(fernhill, {short_of});
    REQUIRE(small.finding("load.service") != nullptr);
    CHECK(small.finding("load.service")->severity == Severity::violation);
}

TEST_CASE("a feeder that all loads pass carries the calculated load") {
    // The load is 109 A (above); 215.3: what protects the feeder is not smaller than its load.
    const Change of_mid{R"(breaker = "110 A", run)", R"(breaker = "90 A", run)"};
    const Change of_backup{R"(backup_breaker = "125 A")", R"(backup_breaker = "100 A")"};
    CHECK(Case(fernhill).finding("load.feeder") == nullptr);
    for (const Change& change : {of_mid, of_backup}) {
        const Case farm(fernhill, {change});
        REQUIRE(farm.finding("load.feeder") != nullptr);
        CHECK(farm.finding("load.feeder")->severity == Severity::violation);
    }
    // The backed-up panel of this job is one of two with loads.
    CHECK(Case("examples/tolliver-bend/ashgrove.toml").finding("load.feeder") == nullptr);
}

TEST_CASE("an existing dwelling that is to carry a vehicle") {
    // 220.83(A): 3 × 1480 = 4440 VA, 4500 VA, 11 200 + 5000 + 4500 + 9600 VA and cooling 4300 VA,
    // together 43 540 VA; 8000 + 0.4 × 35 540 = 22 216 VA ÷ 240 V = 92.57 A: 93 A
    const Case cottage(cinder_row);
    CHECK(value(cottage, "loads.existing_load") == Approx(22216));
    CHECK(value(cottage, "loads.existing_amps") == 93);
    const Change enough{R"(main = "200 A")", R"(main = "93 A")"};
    const Change short_of{R"(main = "200 A")", R"(main = "92 A")"};
    CHECK(Case(cinder_row, {enough}).finding("load.main") == nullptr);
    const Case small(cinder_row, {short_of});
    REQUIRE(small.finding("load.main", "equipment:MSP") != nullptr);
    CHECK(small.finding("load.main")->severity == Severity::violation);
}

TEST_CASE("new service equipment of a dwelling without a load calculation is told") {
    // 230.42 and 230.79: service conductors and disconnect are rated for the load by Article 220.
    const std::string granary = "examples/tolliver-bend/granary.toml";
    const Change none{"[load_calculation]\nmethod = \"existing\"\nfloor_area = \"2380 ft2\"\n", ""};
    const auto told = [](const std::string& job, const std::vector<Change>& changes) {
        const Case one(job, changes);
        const Finding* finding = one.finding("load.calculation", "equipment:MSP");
        return finding != nullptr && finding->severity == Severity::advice;
    };
    CHECK(told(granary, {none}));
    CHECK_FALSE(told(granary, {}));
    // A panel that was there and to which nothing is added needs none; no dwelling, no such advice.
    const std::string title = "title = \"Main service panel\"";
    CHECK_FALSE(told(granary, {none, {title, title + "\nexisting = true"}}));
    CHECK_FALSE(told(granary, {none, {"One-family dwelling, R-3", "Warehouse, S-1"}}));
    CHECK_FALSE(told(granary, {none, {"main = \"175 A\"\n", ""}}));
    // What is added to an existing dwelling, 220.83 and 220.87.
    const Change no_method{"[load_calculation]\nmethod = \"existing\"\nfloor_area = \"1480 ft2\"\n",
                           ""};
    CHECK(told(cinder_row, {no_method}));
    CHECK_FALSE(told(cinder_row, {no_method, {", added = true", ""}}));
}

TEST_CASE("the main of a new service panel carries the calculated load") {
    // 220.83(A): 3 × 2380 = 7140 VA, 4500 VA, 11 200 + 5000 VA and cooling 5800 VA, together
    // 33 640 VA; 8000 + 0.4 × 25 640 = 18 256 VA ÷ 240 V = 76.07 A: 76 A
    const std::string granary = "examples/tolliver-bend/granary.toml";
    const auto with_main = [&](const char* main) {
        return Case(granary, {{R"(main = "175 A")", std::string("main = \"") + main + "\""}});
    };
    CHECK(value(Case(granary), "loads.existing_load") == Approx(18256));
    CHECK(with_main("76 A").finding("load.main") == nullptr);
    CHECK(with_main("75 A").finding("load.main", "equipment:MSP") != nullptr);
}

TEST_CASE("a vehicle counts 7200 VA at least, in the edition that says so") {
    const Change small{R"(power = "9.6 kVA")", R"(power = "4.8 kVA")"};
    const auto vehicle = [&](Edition edition) {
        return value(Case(cinder_row, {small}, edition), "MSP.EV_CHARGER.vehicle_load");
    };
    CHECK(vehicle(Edition::nec2017) == Approx(4800));
    CHECK(vehicle(Edition::nec2020) == Approx(4800));
    CHECK(vehicle(Edition::nec2023) == Approx(7200)); // 220.57
}

TEST_CASE("the record of the meter and what is added") {
    // 220.87: 1.25 × 10 000 + 9600 = 22 100 VA ÷ 240 V = 92.08 A: 92 A
    const Case cottage(cinder_row, {metered});
    CHECK(value(cottage, "loads.metered_load") == Approx(22100));
    CHECK(value(cottage, "loads.metered_amps") == 92);
}

TEST_CASE("the standard method") {
    const Change standard{R"(method = "existing")", R"(method = "standard")"};
    // 220.42: 4440 + 4500 = 8940 VA; 3000 + 0.35 × 5940 = 5079 VA. Water heater 4500 VA, dryer 5000
    // VA, range of 11.2 kW by column C 8000 VA, cooling with 25 % of its motor 5375 VA, vehicle
    // 9600 VA: 37 554 VA ÷ 240 V = 156.5 A, to the whole ampere 156 A
    const Case cottage(cinder_row, {standard});
    CHECK(value(cottage, "loads.standard_load") == Approx(37554));
    CHECK(value(cottage, "loads.standard_amps") == 156);
}

TEST_CASE("a load without power is named, lighting is not") {
    const Case cottage(cinder_row, {range_without_power});
    REQUIRE(cottage.finding("load.power") != nullptr);
    CHECK(cottage.finding("load.power")->severity == Severity::warning);
    CHECK(cottage.finding("load.power")->message.find("RANGE") != std::string::npos);
    CHECK(Case(cinder_row).finding("load.power") == nullptr);
    // The meter has seen it already.
    CHECK(Case(cinder_row, {metered, range_without_power}).finding("load.power") == nullptr);
}

TEST_CASE("a load of two poles is no lighting, and is named where its power is not stated") {
    const Change bare_range{R"("Range" = { breaker = "50 A 2P", kind = "range", power = "8 kVA" })",
                            R"("Range" = "50 A 2P")"};
    const Case house(ashgrove, {bare_range});
    REQUIRE(house.finding("load.power") != nullptr);
    CHECK(house.finding("load.power")->severity == Severity::warning);
    CHECK(house.finding("load.power")->message ==
          "RANGE on MSP: no power is stated for this load, so the load calculation leaves it out");
    CHECK(Case(ashgrove).finding("load.power") == nullptr);
}

TEST_CASE("the house of the example counts its range, condenser, pump and furnace") {
    // 220.82(B): 3 × 1860 = 5580 VA, 4500 VA, 8000 + 1500 + 700 VA, together 20 280 VA;
    // 10 000 + 0.4 × 10 280 = 14 112 VA; 220.82(C) condenser 4600 VA: 18 712 VA ÷ 240 V = 77.97 A
    const Case house(ashgrove);
    CHECK(value(house, "loads.optional_load") == Approx(18712));
    CHECK(value(house, "loads.optional_amps") == 78);
}

TEST_CASE("the load calculation is explained and on the sheet") {
    const Case cottage(cinder_row);
    CHECK(explain(cottage.system, cottage.study, "loads").find("22.22 kVA") != std::string::npos);
    bool group = false;
    for (const CalculationGroup& one : cottage.study.groups)
        group = group || one.title == "LOAD CALCULATION";
    CHECK(group);
}
