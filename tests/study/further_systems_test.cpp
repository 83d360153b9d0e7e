// Storage on a combiner, interlocked inputs, backup by the sun alone, a second PV system beside an
// existing one, meters and panels of other shapes: each at its job of Tolliver Bend.
#include "catch.h"
#include "example.h"

using namespace ohmfolio;
using namespace ohmfolio::example;

namespace {

std::string job(const std::string& name) { return "examples/tolliver-bend/" + name + ".toml"; }

const std::vector<std::string> jobs = {"foundry-yard",  "ferry-lane",    "orchard-steps",
                                       "skylark-hill",  "tanner-street", "gatehouse",
                                       "assembly-hall", "weir-cottage",  "quayside"};

} // namespace

TEST_CASE("further systems: each job is sound in every edition") {
    for (const std::string& name : jobs) {
        for (const Edition edition : all_editions) {
            const Case one(job(name), {}, edition);
            INFO(name);
            CHECK(listed(one.study).empty());
        }
    }
}

TEST_CASE("storage combiner: sixteen units add up") {
    const Case yard(job("foundry-yard"));
    // 16 × 16 A = 256 A, × 1.25 = 320 A, the next standard rating is 350 A (240.6(A)).
    CHECK(yard.from("EC-1").current.value == Approx(256));
    CHECK(yard.from("EC-1").required.value == Approx(320));
    CHECK(yard.breaker_from("SW-1").rating.value == Approx(350));
    CHECK(yard.study.totals.storage.value == Approx(16 * 10080));
    // A chain of two: 2 × 16 A × 1.25 = 40 A.
    CHECK(yard.breaker_from("ES-1").rating.value == Approx(40));
}

TEST_CASE("storage combiner: its limits and those of the bus hold by the smallest step") {
    // 400 A and 320 A against 1.2 × 600 A = 720 A.
    CHECK(Case(job("foundry-yard"), {{"main = \"400 A\"", "main = \"450 A\""}})
              .finding("connection.bus") != nullptr);
    // Eight breakers of 40 A are 320 A in all.
    const Change total{"branch_breakers_total = \"400 A\"", "branch_breakers_total = \"320 A\""};
    CHECK(Case(job("foundry-yard"), {total}).finding("combiner.breakers.total") == nullptr);
    const Change less{"branch_breakers_total = \"400 A\"", "branch_breakers_total = \"319 A\""};
    CHECK(Case(job("foundry-yard"), {less}).finding("combiner.breakers.total") != nullptr);
    CHECK(Case(job("foundry-yard"), {{"chain_limit = 3", "chain_limit = 1"}})
              .finding("storage.chain") != nullptr);
    CHECK(Case(job("foundry-yard"), {{"use = [\"storage\", \"utility\"]", "use = [\"utility\"]"}})
              .finding("storage.disconnect") != nullptr);
}

TEST_CASE("storage combiner: a panel that collects serves as well") {
    const Case yard(job("foundry-yard"),
                    {{"[combiner]\nEC-1 = {", "[panel]\nEC-1 = { collects = true,"},
                     {"model = \"dunmere-e400\"", "model = \"dunmere-600\""}});
    CHECK(listed(yard.study).empty());
    CHECK(yard.from("EC-1").required.value == Approx(320));
}

TEST_CASE("interlocked inputs: storage and generator each carry the island alone") {
    // 18 × 1.42 A = 25.56 A of PV; 3 × 16 A = 48 A of storage, 75 A of the generator.
    const Change apart{"interlocked = true\n", ""};
    const Case one(job("ferry-lane"));
    CHECK(one.study.derivation("MID-1.island_sources").value == Approx(25.56 + 75));
    const Case both(job("ferry-lane"), {apart});
    CHECK(both.study.derivation("MID-1.island_sources").value == Approx(25.56 + 75 + 48));
    // 18 kVA of the generator and 3 × 3.84 kVA, or the weaker of the two.
    CHECK(both.study.derivation("MID-1.capacity").value == Approx(18000 + 3 * 3840));
    CHECK(one.study.derivation("MID-1.weaker").value == Approx(3 * 3840));
    // What the generator cannot start alone, storage that is off then does not help to carry.
    const Case small(job("ferry-lane"), {{"output = \"18 kVA\"", "output = \"9 kVA\""}});
    CHECK(small.study.derivation("MID-1.weaker").value == Approx(9000));
    CHECK(one.finding("standby.island.microgrid") == nullptr); // the range, 9.6 kVA
    CHECK(small.finding("standby.island.microgrid") != nullptr);
    CHECK(small.finding("standby.automatic") != nullptr);
}

TEST_CASE("interlocked inputs: the bus carries what is on together") {
    const auto with_bus = [](const std::string& interlocked, const std::string& bus) {
        return Case(job("ferry-lane"),
                    {{"model = \"WX-200I\"\nlisting = \"UL 1741, UL 869A\"\nenclosure = \"NEMA "
                      "3R\"\nterminals = \"75 C\"\nbus = \"200 A\"",
                      "model = \"WX-200I\"\nlisting = \"UL 1741\"\nterminals = \"75 C\"\nbus = \"" +
                          bus + "\""},
                     {"backup_breaker_limit = \"200 A\"\ngenerator_breaker_limit = \"100 A\"\n"
                      "interlocked = true",
                      "backup_breaker_limit = \"100 A\"\ngenerator_breaker_limit = \"100 A\"\n"
                      "interlocked = " +
                          interlocked}});
    };
    CHECK(with_bus("true", "101 A").finding("mid.island.bus") == nullptr);
    CHECK(with_bus("true", "100 A").finding("mid.island.bus") != nullptr);
    CHECK(with_bus("false", "148 A").finding("mid.island.bus") != nullptr);
    CHECK(with_bus("false", "149 A").finding("mid.island.bus") == nullptr);
}

TEST_CASE("two storage inputs take a chain each") {
    const Case steps(job("orchard-steps"));
    CHECK(steps.from("SW-2").current.value == Approx(32)); // 2 × 16 A
    CHECK(steps.from("SW-3").current.value == Approx(16));
    CHECK(Case(job("orchard-steps"), {{"storage_limit = \"40.32 kWh\"\nstorage_limit_power_control",
                                       "storage_limit = \"30 kWh\"\nstorage_limit_power_control"}})
              .finding("mid.storage.energy") != nullptr); // 3 × 10.08 kWh = 30.24 kWh
}

TEST_CASE("backup by the sun: it carries the largest load while the sun shines") {
    const Case hill(job("skylark-hill"), {}, Edition::nec2017);
    CHECK(hill.study.derivation("MID-1.solar_output").value == Approx(20 * 340));
    CHECK(hill.study.worksheet.find("MID-1.availability") != nullptr);
    const auto pump = [](const std::string& power) {
        return Case(job("skylark-hill"), {{"power = \"1.2 kVA\"", "power = \"" + power + "\""}},
                    Edition::nec2017);
    };
    CHECK(pump("6.8 kVA").finding("standby.island") == nullptr);
    CHECK(pump("6.81 kVA").finding("standby.island") != nullptr);
    // Without microinverters that form a grid there is nothing to hold it.
    const Case none(job("skylark-hill"), {{"grid_forming = true", "grid_forming = false"}});
    CHECK(none.study.worksheet.find("MID-1.availability") == nullptr);
}

TEST_CASE("a second PV system: what exists counts in all sums") {
    const Case street(job("tanner-street"));
    CHECK(street.study.totals.dc.value == Approx(22 * 405));
    CHECK(street.study.totals.existing_dc.value == Approx(12 * 405));
    CHECK(street.study.totals.existing_ac.value == Approx(12 * 340));
    CHECK(street.study.totals.existing_modules == 12);
    // 22 × 1.42 A × 1.25 = 39.05 A and 200 A against 1.2 × 200 A.
    CHECK(street.study.derivation("MSP.sources_125").value == Approx(22 * 1.42 * 1.25));
    // A spa of 60 A leaves only that rule; 23 × 1.42 A × 1.25 = 40.8 A are too much for it.
    const Change spa{"\"Dryer\" = \"30 A 2P\" }",
                     "\"Dryer\" = \"30 A 2P\", \"Spa\" = \"60 A 2P\" }"};
    CHECK(Case(job("tanner-street"), {spa}).finding("connection.bus") == nullptr);
    CHECK(Case(job("tanner-street"), {spa, {"PV-3 = { modules = 10", "PV-3 = { modules = 11"}})
              .finding("connection.bus") != nullptr);
}

TEST_CASE("a second PV system: existing wiring is told of, not blamed") {
    const Change small{"above_roof = \"1 in\", size = \"10 AWG\"",
                       "above_roof = \"1 in\", size = \"14 AWG\""};
    const Case street(job("tanner-street"), {small});
    bool told = false;
    for (const Finding& finding : street.study.findings) {
        INFO(finding.message);
        CHECK(finding.severity < Severity::violation);
        told = told || finding.message.find("existing") != std::string::npos;
    }
    CHECK(told);
    // The same slip in new wiring is a violation.
    const Case fresh(job("tanner-street"),
                     {{"above_roof = \"1 in\" } }\n\n[combiner]",
                       "above_roof = \"1 in\", size = \"14 AWG\" } }\n\n[combiner]"}});
    bool violation = false;
    for (const Finding& finding : fresh.study.findings)
        violation = violation || finding.severity == Severity::violation;
    CHECK(violation);
    // And so it is once a new module feeds through the old wiring.
    const Case through(job("tanner-street"), {small, {"PV-2 = { existing = true,", "PV-2 = {"}});
    violation = false;
    for (const Finding& finding : through.study.findings)
        violation = violation || finding.severity == Severity::violation;
    CHECK(violation);
}

TEST_CASE("meters: the socket carries its circuit") {
    // 39 × 1.42 A × 1.25 = 69.2 A through the production meter.
    const auto with_rating = [](const std::string& rating) {
        return Case(job("assembly-hall"),
                    {{"model = \"HM-100\"\nlisting = \"UL 414\"\nenclosure = \"NEMA "
                      "3R\"\nterminals = \"75 C\"\nrating = \"100 A\"",
                      "model = \"HM-100\"\nterminals = \"75 C\"\nrating = \"" + rating + "\""}});
    };
    CHECK(with_rating("70 A").finding("meter.rating", "equipment:PM-1") == nullptr);
    CHECK(with_rating("69 A").finding("meter.rating", "equipment:PM-1") != nullptr);
    // A socket of 20 A behind current transformers carries a share; without them it does not.
    CHECK(Case(job("assembly-hall")).finding("meter.rating") == nullptr);
    CHECK(Case(job("assembly-hall"), {{"transformer_ratio = \"400:5\"", ""}})
              .finding("meter.rating", "equipment:UM-1") != nullptr);
}

TEST_CASE("panels: center-fed, in a chain, on feed-through lugs") {
    const Case cottage(job("weir-cottage"));
    // 16 × 1.42 A × 1.25 = 28.4 A reach all three buses.
    for (const char* id : {"SP-2", "SP-1", "MSP"}) {
        INFO(id);
        CHECK(cottage.study.derivation(std::string(id) + ".sources_125").value == Approx(28.4));
    }
    // On the garage's bus of 125 A: 100 A and 28.4 A are more, so that the sum of its breakers
    // counts: 15 A, 20 A, 60 A and what a kiln adds.
    const auto kiln = [](const std::string& breaker) {
        return Case(job("weir-cottage"),
                    {{"\"Receptacles\" = \"20 A\" }",
                      "\"Receptacles\" = \"20 A\", \"Kiln\" = \"" + breaker + "\" }"}});
    };
    CHECK(kiln("30 A 2P").finding("connection.bus") == nullptr);
    CHECK(kiln("35 A 2P").finding("connection.bus", "equipment:SP-1") != nullptr);
    const Case quay(job("quayside"));
    CHECK(quay.study.derivation("MSP.sources_125").value == Approx(28.4));
    CHECK(Case(job("quayside"), {{"size = \"4/0 AWG\"", "size = \"1/0 AWG\""}})
              .study.findings.empty() == false);
}

TEST_CASE("loads from line to neutral have one while islanded") {
    // Common practice, no source: two-wire sources form none, the device has to.
    const std::string rule = "island.neutral";
    CHECK(Case(job("ashgrove")).finding(rule) == nullptr);
    const Change none{"forms_neutral = true\n", ""};
    const Case bare(job("ashgrove"), {none});
    REQUIRE(bare.finding(rule, "equipment:MID-1") != nullptr);
    CHECK(bare.finding(rule)->severity == Severity::warning);
    // Storage of three wires brings its own.
    const Change three_wires{"chain_limit = 3\n", "chain_limit = 3\nneutral = true\n"};
    CHECK(Case(job("ashgrove"), {none, three_wires}).finding(rule) == nullptr);
}
