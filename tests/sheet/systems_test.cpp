// Sheets of the single systems: which placards, notes and summary rows each kind has, against what
// its description says and sums made by hand.
#include "catch.h"

#include "fixture.h"
#include "sheet/conditions.h"
#include "sheet/placards.h"
#include "sheet/places.h"
#include "sheet/schedules.h"
#include "sheet/system_summary.h"

using namespace ohmfolio;
using namespace ohmfolio::sheets;
using example::Case;
using example::Change;

namespace {

Case job_of(const std::string& name, Edition edition = Edition::nec2023) {
    return Case("examples/tolliver-bend/" + name + ".toml", {}, edition);
}

std::set<std::string> placards_of(const std::string& name, Edition edition = Edition::nec2023) {
    Bench bench(job_of(name, edition));
    std::set<std::string> found;
    for (const NeededPlacard& needed : needed_placards(bench.job()))
        found.insert(needed.placard->id);
    return found;
}

/// Lettering of one placard, and where it goes.
struct Lettered {
    std::string words, where;
    std::size_t quantity = 0;
};
Lettered placard(const std::string& name, const std::string& id,
                 Edition edition = Edition::nec2023) {
    Bench bench(job_of(name, edition));
    const Job job = bench.job();
    for (const NeededPlacard& needed : needed_placards(job)) {
        if (needed.placard->id == id)
            return {words_of(draw_placard(needed, job)), needed.where, needed.at.size()};
    }
    return {};
}

std::string summary(const std::string& name, const std::string& label) {
    const Case job = job_of(name);
    for (const Fact& fact : system_rows(job.system, job.study, facts_of(job.system, job.study))) {
        if (fact.label == label)
            return fact.value;
    }
    return "no such row";
}

/// All lettering of the sheets of the diagram.
std::string diagram_words(Case job) {
    Bench bench(std::move(job));
    std::string words;
    for (const Sheet& sheet : bench.packet().sheets) {
        if (sheet.title.starts_with("SINGLE-LINE"))
            words += words_of(sheet.frame);
    }
    return words;
}
std::string diagram_words(const std::string& name) { return diagram_words(job_of(name)); }

bool applies(const std::string& name, const std::string& condition) {
    const Case job = job_of(name);
    const Condition* found = find_condition(condition);
    REQUIRE(found != nullptr);
    return found->holds(job.system, job.study);
}

/// The row of `table` whose first cell begins with `tag`, its cells joined by bars.
std::string row_of(const Table& table, const std::string& tag) {
    for (const Row& row : table.rows) {
        if (row.cells.front().text != tag)
            continue;
        std::string all;
        for (const Cell& cell : row.cells)
            all += cell.text + "|";
        return all;
    }
    return "no such row";
}

} // namespace

TEST_CASE("systems: the summary counts modules of strings and names their inverters") {
    // 8 + 8 + 7 = 23 modules on one inverter.
    CHECK(summary("cinder-row", "Modules") == "(23) Solvane SV-405M");
    CHECK(summary("cinder-row", "Inverters") == "(1) Wickhollow WS-7600");
    CHECK(summary("cinder-row", "Strings") == "2 of 8, 1 of 7 modules");
    CHECK(summary("cinder-row", "Microinverters").empty());
    // 4 × 8 + 2 × 7 = 46 modules, × 405 W = 18.63 kW; 3 × 5 kVA and 3 × 20.8 A.
    CHECK(summary("granary", "Modules") == "(46) Solvane SV-405M");
    CHECK(summary("granary", "Array, STC") == "18.63 kW DC");
    CHECK(summary("granary", "Inverter output") == "15 kW AC, 62.4 A at 240 V");
    CHECK(summary("granary", "DC to AC ratio") == "1.24"); // 18.63 ÷ 15 = 1.242
    CHECK(summary("slatecutter", "Module electronics") == "(16) Wickhollow WX-500C");
}

TEST_CASE("systems: the summary names generators, controllers, settings and added loads") {
    CHECK(summary("fernhill", "Generator") == "(1) Tarnmoor TG-18, 18 kVA");
    CHECK(summary("fernhill", "Load controllers") == "(2) Wickhollow WL-2");
    CHECK(summary("millrace", "Transfer switch") == "(1) Brackenway BT-100");
    CHECK(summary("tollgate", "Power control") == "MSP: sources 30 A, held by CP-1, UL 1741 PCS");
    CHECK(summary("kestrel", "Added loads") == "EV SUPPLY EQUIPMENT, 50 A, 9.6 kVA");
    for (const char* label :
         {"Generator", "Transfer switch", "Load controllers", "Power control", "Added loads"})
        CHECK(summary("larkspur", label).empty());
}

TEST_CASE("systems: the point of connection is where the sources join") {
    // 705.11 is the paragraph of connections ahead of the service disconnect.
    CHECK(holds(summary("hawthorn", "Point of connection"), "SC-1 SUPPLY-SIDE CONNECTION"));
    CHECK(holds(summary("hawthorn", "Point of connection"), "NEC 2023 705.11"));
    CHECK(holds(summary("tinkers", "Point of connection"), "MA-1 METER-SOCKET ADAPTER"));
    // 16 A × 1.25 = 20 A; 25.56 A × 1.25 = 31.95 A, the next standard rating 35 A.
    CHECK(holds(summary("tollgate", "Point of connection"), "35 A and 20 A breakers"));
    // 1.42 A × 1.25 = 1.775 A, for which 10 A is the smallest breaker of the 2023 edition.
    CHECK(holds(summary("bellwether", "Point of connection"), "PANEL, 10 A breaker"));
    // Two panels deep: 18 × 1.42 A = 25.56 A, × 1.25 = 31.95 A, on 35 A.
    const std::string deep = summary("stonecrop", "Point of connection");
    CHECK(deep.starts_with("SP-2 WORKSHOP SUBPANEL, 35 A breaker"));
    CHECK(deep.ends_with("Onward through SP-1, MSP"));
}

TEST_CASE("systems: modules on strings are PV on the roof as those on microinverters are") {
    for (const char* name : {"cinder-row", "granary", "slatecutter"}) {
        INFO(name);
        CHECK(applies(name, "pv"));
        CHECK(applies(name, "roof_pv"));
        CHECK(applies(name, "strings"));
        CHECK_FALSE(applies(name, "microinverters"));
        const auto found = placards_of(name);
        for (const char* id : {"rapid-shutdown-building", "rapid-shutdown-switch", "pv-disconnect",
                               "pv-line-load", "dc-raceway", "dc-voltage", "source-directory"})
            CHECK(found.contains(id));
    }
    CHECK_FALSE(placards_of("larkspur").contains("dc-raceway"));
    CHECK_FALSE(placards_of("larkspur").contains("dc-voltage"));
}

TEST_CASE("systems: labels of direct current say what the edition asks") {
    // 690.31: white on red, 3/8 in. 8 × 40.488 V = 323.9 V, told rounded up; 13.85 A × 1.25 =
    // 17.31 A, which 2017 wants beside it (690.53).
    CHECK(holds(placard("cinder-row", "dc-raceway").words, "SOLAR PV DC CIRCUIT"));
    CHECK(holds(placard("cinder-row", "dc-raceway", Edition::nec2017).words,
                "WARNING: PHOTOVOLTAIC POWER SOURCE"));
    CHECK(holds(placard("cinder-row", "dc-voltage").words, "MAXIMUM DC VOLTAGE: 324 V"));
    CHECK_FALSE(holds(placard("cinder-row", "dc-voltage").words, "CIRCUIT CURRENT"));
    CHECK(holds(placard("cinder-row", "dc-voltage", Edition::nec2017).words,
                "MAXIMUM CIRCUIT CURRENT: 17.4 A"));
    CHECK(holds(placard("slatecutter", "dc-voltage").words, "MAXIMUM DC VOLTAGE: 480 V"));
    // One for each inverter, of the voltage there: two have eight modules in series, one has seven.
    CHECK(placard("granary", "dc-voltage").quantity == 2);
    CHECK(holds(placard("granary", "dc-voltage").words, "MAXIMUM DC VOLTAGE: 324 V"));
}

TEST_CASE("systems: a generator has the sign of 702.7 and a row in the directory") {
    const Lettered sign = placard("millrace", "optional-standby");
    CHECK(holds(sign.words, "STANDBY"));
    CHECK(holds(sign.words, "18 kVA"));
    CHECK(holds(sign.words, "LOCATION: SOUTH YARD"));
    CHECK_FALSE(holds(sign.words, "ENERGY STORAGE"));
    const Lettered both = placard("fernhill", "optional-standby");
    CHECK(holds(both.words, "20.16 kWh"));
    CHECK(holds(both.words, "18 kVA"));
    CHECK(holds(placard("millrace", "source-directory").words, "GEN-1 BREAKER"));
    CHECK(placards_of("millrace").contains("standby-grounding"));
    CHECK_FALSE(placards_of("larkspur").contains("optional-standby"));
    // Storage without an interconnect device stops with the grid.
    CHECK_FALSE(placards_of("saltbox").contains("optional-standby"));
    CHECK(placards_of("saltbox").contains("storage-disconnect"));
}

TEST_CASE("systems: a generator behind a transfer switch never meets the others on a bus") {
    CHECK_FALSE(holds(placard("millrace", "several-sources").words, "GENERATOR"));
    CHECK(holds(placard("fernhill", "several-sources").words, "STANDBY GENERATOR"));
}

TEST_CASE("systems: sources ahead of the main have a service disconnect, marked as one") {
    // 230.70(B), and 705.10 at each of the two places of service equipment.
    for (const char* name : {"hawthorn", "tinkers", "cinder-row"}) {
        INFO(name);
        CHECK(placard(name, "source-service-disconnect").where.starts_with("ON SW-1"));
        CHECK(placard(name, "source-directory").quantity == 2);
    }
    CHECK(placard("larkspur", "source-directory").quantity == 1);
    CHECK_FALSE(placards_of("larkspur").contains("source-service-disconnect"));
}

TEST_CASE("systems: settings of a power control system are marked where they act") {
    CHECK(holds(placard("tollgate", "power-control").words, "SETTING: MSP: SOURCES 30 A"));
    CHECK(placards_of("tollgate", Edition::nec2020).contains("power-control"));
    // The 2017 edition knows no such systems.
    CHECK_FALSE(placards_of("tollgate", Edition::nec2017).contains("power-control"));
    CHECK_FALSE(placards_of("saltbox").contains("power-control"));
}

TEST_CASE("systems: schedules list strings, electronics, controllers and what they shed") {
    const Case strings = job_of("slatecutter");
    const Table equipment = equipment_schedule(strings.system);
    REQUIRE(equipment.rows.size() > 2);
    CHECK(row_of(equipment, "ST-1, ST-2").find("|PV MODULE|") != std::string::npos);
    // 4 × 8 + 2 × 7 = 46 modules of the granary, with a device at each.
    const Case granary = job_of("granary");
    std::string devices;
    for (const Row& row : equipment_schedule(granary.system).rows) {
        if (row.cells.at(1).text == "MODULE ELECTRONICS")
            devices =
                row.cells.at(3).text + "|" + row.cells.at(5).text + "|" + row.cells.at(8).text;
    }
    CHECK(devices == "WR-700|UL 1741|46");
    const Case farm = job_of("fernhill");
    CHECK(row_of(equipment_schedule(farm.system), "LC-1, LC-2").find("WL-2") != std::string::npos);
    const Table shed = shedding_schedule(farm.system);
    REQUIRE(shed.rows.size() == 3);
    // 8 × 340 VA = 2.72 kVA of PV, and a range of 12 kVA on 50 A, as described.
    std::string all;
    for (const Row& row : shed.rows)
        for (const Cell& cell : row.cells)
            all += cell.text + "|";
    CHECK(holds(all, "LC-2|PV BRANCH PV-3|—|—|2.72|"));
    CHECK(holds(all, "LC-1|RANGE|MDP (E)|50|12|"));
    CHECK(shedding_schedule(job_of("larkspur").system).rows.empty());
}

TEST_CASE("systems: devices are what they are, in the place that holds them") {
    const Case supply = job_of("hawthorn");
    CHECK(holds(row_of(overcurrent_schedule(supply.system, supply.study), "Q4"),
                "|SW-1|C7, FROM CP-1|FUSES|"));
    const Case generator = job_of("millrace");
    CHECK(holds(row_of(overcurrent_schedule(generator.system, generator.study), "INTEGRAL"),
                "|GEN-1|"));
    // The transfer switch takes power from the panel and sends none into it.
    const int service = generator.system.find("MSP");
    CHECK(holds(row_of(panel_schedule(generator.system, generator.study, service), "Q4"),
                "|C8, TO TS-1|80|2|FEEDER|"));
    CHECK(holds(row_of(disconnect_schedule(generator.system, generator.study), "TS-1"),
                "TRANSFERS SBP TO GEN-1, NEUTRAL NOT SWITCHED"));
    // 600 V and two inputs of two poles, by the nameplate.
    const Case strings = job_of("slatecutter");
    CHECK(
        holds(row_of(disconnect_schedule(strings.system, strings.study), "INV-1"), "|15|22|4|NO|"));
}

TEST_CASE("systems: keyed notes of the diagram say what is so for strings and ahead of the main") {
    const std::string strings = diagram_words("cinder-row");
    CHECK_FALSE(holds(strings, "NO DC CIRCUIT LEAVES THE ARRAY"));
    CHECK(holds(strings, "ELECTRONICS AT THE MODULES"));
    CHECK(holds(strings, "BONDED AT MSP AND AT THE SERVICE DISCONNECT OF THE PV, SW-1, NOWHERE"));
    CHECK(holds(strings, "NEC 2023 705.11"));
    CHECK(holds(diagram_words("larkspur"), "NO DC CIRCUIT LEAVES THE ARRAY"));
    // The fuses of the disconnect, by tag and rating: 42.6 A × 1.25 = 53.25 A, on 60 A.
    CHECK(holds(diagram_words("hawthorn"), "Q4 60 A FUSES"));
}

TEST_CASE("systems: sources ahead of the main name each disconnect and the paragraph") {
    // Two service disconnects at one connection; 705.11 is the paragraph of supply-side
    // connections.
    const Case twice = job_of("brickfield");
    const Facts facts = facts_of(twice.system, twice.study);
    CHECK(facts.at("connection_panel") == "SC-1 SUPPLY-SIDE CONNECTION");
    CHECK(holds(facts.at("connection_rule"), "through SW-1, SW-2, NEC 2023 705.11"));
    CHECK(holds(diagram_words("brickfield"), "AHEAD OF THE MAIN AT SC-1, NEC 2023 705.11"));
    const Case once = job_of("hawthorn");
    CHECK(holds(facts_of(once.system, once.study).at("connection_rule"),
                "through SW-1, NEC 2023 705.11"));
}

TEST_CASE("systems: strings side by side are counted in conductors and at their disconnect") {
    // Two strings in each raceway: four conductors, as its fill counts them. Two strings of
    // 1.25 × 13.85 A meet at each input: 2 × 17.3125 A = 34.63 A, 690.8(A)(1).
    const Case hall = job_of("gasworks");
    CHECK(
        holds(row_of(conductor_schedule(hall.system, hall.study), "C1"), "|(4) 12 AWG CU THWN-2|"));
    CHECK(holds(diagram_words("gasworks"), "(4) 12 AWG CU THWN-2"));
    CHECK(holds(row_of(disconnect_schedule(hall.system, hall.study), "INV-1"), "|34.63|44|"));
}

TEST_CASE("systems: the size of existing conductors that nobody stated is no fact") {
    // A survey finds what is there; a calculated size stands in for it until somebody has looked
    // (common practice, no source).
    const Case stated = job_of("weavers-court");
    CHECK_FALSE(holds(row_of(conductor_schedule(stated.system, stated.study), "C7 (E)"), "VERIFY"));
    const std::string weavers_court = "examples/tolliver-bend/weavers-court.toml";
    const Change without_size{", size = \"3/0 AWG\"", ""};
    const Case unstated(weavers_court, {without_size});
    const Finding* finding = unstated.finding("existing.size", "circuit:C7");
    REQUIRE(finding != nullptr);
    CHECK(finding->severity == Severity::warning);
    CHECK(unstated.study.findings.size() == 1); // what is new is for the program to size
    CHECK(holds(row_of(conductor_schedule(unstated.system, unstated.study), "C7 (E)"),
                "CU THWN-2, FIELD VERIFY|"));
    CHECK(holds(diagram_words(Case(weavers_court, {without_size})), "FIELD VERIFY"));
    CHECK_FALSE(holds(diagram_words("weavers-court"), "FIELD VERIFY"));
}

TEST_CASE("systems: the trade size of an existing raceway is to be verified") {
    const Case job = job_of("weavers-court");
    CHECK(holds(row_of(raceway_schedule(job.system, job.study), "R4 (E)"), " RMC, FIELD VERIFY|"));
    CHECK_FALSE(holds(row_of(raceway_schedule(job.system, job.study), "R3"), "VERIFY"));
    const Case stated("examples/tolliver-bend/weavers-court.toml",
                      {{", size = \"3/0 AWG\"", ", size = \"3/0 AWG\", trade_size = \"2\""}});
    CHECK_FALSE(holds(row_of(raceway_schedule(stated.system, stated.study), "R4 (E)"), "VERIFY"));
}

TEST_CASE("systems: electronics at the modules of a string are told beside it") {
    CHECK(holds(diagram_words("slatecutter"), "SV-405M, 405 W (8) WX-500C"));
    CHECK(holds(diagram_words("larch-bend"), "SV-405M, 405 W (9) WR-700"));
    // Rapid shutdown relies on electronics that no record describes.
    const std::string larch_bend = "examples/tolliver-bend/larch-bend.toml";
    CHECK(holds(diagram_words(Case(
                    larch_bend, {{"electronics = \"wickhollow-r700\"", "module_shutdown = true"}})),
                "405 W (9) MODULE ELECTRONICS"));
}

TEST_CASE("systems: every place where neutral and ground are bonded is named") {
    CHECK(holds(diagram_words("brickfield"),
                "BONDED AT MSB AND AT THE SERVICE DISCONNECTS OF THE PV, SW-1, SW-2, NOWHERE"));
}

TEST_CASE("systems: a count of circuits is written in the case of drawings") {
    CHECK(holds(diagram_words("brickfield"), "C126, C132, C138, AND 3 MORE"));
    CHECK_FALSE(holds(diagram_words("brickfield"), " more"));
}
