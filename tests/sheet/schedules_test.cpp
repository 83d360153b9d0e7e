#include <numeric>
// The schedules against the example's description and against hand calculation.
#include "catch.h"

#include "fixture.h"
#include "sheet/conductor_words.h"
#include "sheet/schedules.h"

using namespace ohmfolio;
using namespace ohmfolio::sheets;
using example::Case;

namespace {

const Case& example_case() {
    static const Case job(Edition::nec2023);
    return job;
}

const Row& row_of(const Table& table, const std::string& tag) {
    for (const Row& row : table.rows)
        if (row.cells.front().text == tag)
            return row;
    throw std::logic_error("no row " + tag);
}

std::string cell(const Table& table, const std::string& tag, const std::string& heading) {
    for (std::size_t i = 0; i < table.columns.size(); ++i)
        if (table.columns[i].heading == heading)
            return row_of(table, tag).cells.at(i).text;
    throw std::logic_error("no column " + heading);
}

} // namespace

TEST_CASE("every circuit has its row, its anchor and a way to its calculation") {
    const Case& job = example_case();
    const Table table = conductor_schedule(job.system, job.study);
    // One more than circuits: the grounding electrode conductor.
    REQUIRE(table.rows.size() == job.system.circuits.size() + 1);
    for (std::size_t i = 0; i < job.system.circuits.size(); ++i) {
        const Row& row = table.rows[i];
        const std::string& tag = job.system.circuits[i].tag;
        CHECK(row.cells.size() == table.columns.size());
        CHECK(row.cells.front().anchor == "schedule:" + tag);
        // The utility's conductors are not sized and so have no calculation.
        CHECK(row.cells.front().link == (job.study.circuits[i].sized ? "calc:" + tag : ""));
        for (const Cell& each : row.cells)
            CHECK(each.shows == "circuit:" + tag);
    }
}

TEST_CASE("the conductor schedule holds what the arithmetic gives") {
    const Case& job = example_case();
    const Table table = conductor_schedule(job.system, job.study);
    // C5: 8 × 1.42 A = 11.36 A, × 1.25 = 14.20 A; four conductors in the raceway, 80 % by
    // 310.15(C)(1); 0.91 at 37 °C in the 90 °C column; 30 A × 0.91 × 0.80 = 21.84 A.
    CHECK(cell(table, "C5", "FROM") == "JB-1");
    CHECK(cell(table, "C5", "CURRENT\nA") == "11.36");
    CHECK(cell(table, "C5", "REQUIRED\nA") == "14.20");
    CHECK(cell(table, "C5", "CCC /\nFACTOR") == "4 / 0.80");
    CHECK(cell(table, "C5", "AMBIENT\n°C /\nFACTOR") == "37 / 0.91");
    CHECK(cell(table, "C5", "CORRECTED\nAMPACITY\nA") == "21.84");
    CHECK(cell(table, "C5", "OCPD\nA") == "20");
    CHECK(cell(table, "C5", "UNGROUNDED CONDUCTORS") == "(2) 12 AWG CU THWN-2");
    // Table 250.66: 4 AWG copper for service conductors of 2/0 or 3/0 AWG copper.
    CHECK(cell(table, "G1 (E)", "UNGROUNDED CONDUCTORS") == "(1) 4 AWG CU GEC, FIELD VERIFY");
    CHECK(cell(table, "G1 (E)", "FROM") == "MSP");
    CHECK(row_of(table, "G1 (E)").cells.size() == table.columns.size());
    // The utility's conductors are drawn and not sized.
    CHECK(cell(table, "C17 (E)", "UNGROUNDED CONDUCTORS") == "BY THE UTILITY");
}

TEST_CASE("the schedule agrees with the devices it names") {
    const Case& job = example_case();
    const Table table = conductor_schedule(job.system, job.study);
    const Table breakers = overcurrent_schedule(job.system, job.study);
    // 39.76 A of PV and 32 A of storage: 71.76 A, × 1.25 = 89.70 A for the breaker, while the loads
    // of the backed-up panel may draw the 100 A of the breaker inward through the conductors.
    CHECK(cell(breakers, "Q7", "REQUIRED\nA") == "89.70");
    CHECK(cell(table, "C14", "REQUIRED\nA") == "100");
    CHECK(holds(cell(table, "C14", "GOVERNED BY"), "LOADS UP TO BREAKER"));
    CHECK(cell(table, "C14", "CURRENT\nA") == "71.76");
    // Service conductors by the share of the service rating, not by 125 % of a current.
    CHECK(cell(table, "C16 (E)", "REQUIRED\nA") == none);
    CHECK(cell(table, "C16 (E)", "CURRENT\nA") == "200");
    CHECK(cell(table, "C16 (E)", "GOVERNED BY") == "EXISTING; 2/0 AWG COMPLIES");
    // The listing of trunk cable covers ambient temperature and bundling.
    CHECK(cell(table, "C1", "AMBIENT\n°C /\nFACTOR") == "37");
    CHECK(cell(table, "C1", "CCC /\nFACTOR") == none);
}

TEST_CASE("power flows from the first end to the second") {
    const Case& job = example_case();
    const Table table = conductor_schedule(job.system, job.study);
    CHECK(cell(table, "C15", "FROM") == "MID-1");
    CHECK(cell(table, "C15", "TO") == "BLP");
    CHECK(cell(table, "C14", "FROM") == "MID-1");
    CHECK(cell(overcurrent_schedule(job.system, job.study), "Q8", "PROTECTS") == "C15, TO BLP");
}

TEST_CASE("circuits that share a raceway share its grounding conductor") {
    const Case& job = example_case();
    const Table table = conductor_schedule(job.system, job.study);
    CHECK(cell(table, "C5", "EGC") == "(1) 12 AWG, SHARED IN R1");
    CHECK(cell(table, "C5", "RACEWAY") == "R1: 1/2\" EMT");
    CHECK(cell(table, "C9", "EGC") == "(1) 10 AWG");
    const Table raceways = raceway_schedule(job.system, job.study);
    CHECK(cell(raceways, "R1", "CIRCUITS") == "C5, C6");
    // Chapter 9, table 5: 12 AWG THWN-2 is 0.0133 in²; five of them in 1/2 in EMT of 0.304 in².
    CHECK(cell(raceways, "R1", "CONDUCTORS\nin²") == "0.0665");
    CHECK(cell(raceways, "R1", "FILL\n%") == "21.9");
    CHECK(cell(raceways, "R1", "EXPOSURE") == "ON ROOF, 1 in ABOVE IT");
}

TEST_CASE("existing and new are told apart") {
    const Case& job = example_case();
    const Table breakers = overcurrent_schedule(job.system, job.study);
    CHECK(cell(breakers, "Q7", "STATUS") == "NEW");
    CHECK(cell(breakers, "MAIN", "STATUS") == "EXISTING");
    CHECK(cell(breakers, "MAIN", "RATING IS") == "FIELD DATA");
    std::vector<int> all(job.system.circuits.size());
    std::iota(all.begin(), all.end(), 0);
    const Table key = conductor_key(job.system, job.study, all);
    CHECK(cell(key, "C16 (E)", "CONDUCTORS") == "(2) 3/0 AWG, (1) 3/0 AWG NEUTRAL, CU THWN-2");
    const Table panel = panel_schedule(job.system, job.study, job.system.find("MSP"));
    CHECK(cell(panel, "Q7", "STATUS") == "NEW");
    CHECK(cell(panel, "1", "STATUS") == "EXISTING");
}

TEST_CASE("what has nothing to say is a dash in the middle of its cell") {
    const Case& job = example_case();
    const Table table = conductor_schedule(job.system, job.study);
    for (const Cell& each : row_of(table, "C17 (E)").cells)
        if (each.text == none)
            CHECK(each.align == Align::centre);
    CHECK(cell(table, "C17 (E)", "NEUTRAL") == "—");
}

TEST_CASE("current transformers and control wiring have their table") {
    const Case& job = example_case();
    const Table table = metering_schedule(job.system);
    CHECK(table.rows.size() == job.system.transformers.size() + job.system.controls.size());
    // The production transformer sits on the output of the combiner with the gateway.
    CHECK(cell(table, "CT-1", "AT / FROM") == "CP-1");
    CHECK(cell(table, "CT-1", "ON CIRCUIT") == "C9");
}

TEST_CASE("overcurrent devices, disconnects and equipment as described") {
    const Case& job = example_case();
    const Table breakers = overcurrent_schedule(job.system, job.study);
    // One more than breakers of circuits: the main of MSP.
    CHECK(breakers.rows.size() == job.system.breakers.size() + 1);
    CHECK(cell(breakers, "Q7", "RATING\nA") == "100"); // stated for MID-1
    CHECK(cell(breakers, "Q7", "RATING IS") == "DESIGNER'S CHOICE");
    CHECK(cell(breakers, "Q7", "IN") == "MSP (E)");
    const Table disconnects = disconnect_schedule(job.system, job.study);
    REQUIRE(disconnects.rows.size() == 2);
    CHECK(cell(disconnects, "SW-1", "USE") ==
          "UTILITY LOCKABLE DISCONNECT, RAPID SHUTDOWN INITIATION");
    const Table equipment = equipment_schedule(job.system);
    CHECK(cell(equipment, "PV-1 TO PV-4", "QTY") == "28");
    CHECK(cell(equipment, "ES-1, ES-2", "QTY") == "2");
    CHECK(cell(equipment, "MSP", "STATUS") == "EXISTING");
    CHECK(cell(equipment, "MSP", "RATINGS") == "200 A BUS, MAIN MAX. 200 A, 22 kA SCCR");
}

TEST_CASE("a panel schedule lists main, sources and loads") {
    const Case& job = example_case();
    const Table table = panel_schedule(job.system, job.study, job.system.find("MSP"));
    REQUIRE(table.rows.size() == 4);
    CHECK(cell(table, "MAIN", "BREAKER\nA") == "200");
    CHECK(cell(table, "1", "CIRCUIT") == "RANGE");
    CHECK(cell(table, "1", "POLES") == "2");
    CHECK(cell(table, "Q7", "CIRCUIT") == "C14, FROM MID-1");
    CHECK(cell(table, "Q7", "KIND") == "POWER SOURCE");
    CHECK(table.title ==
          "MSP (E) MAIN SERVICE PANEL\n120/240 V, 200 A BUS, 200 A MAIN, 22 kA SCCR");
}

TEST_CASE("the material list goes on under the heading of a group, its remark under rows") {
    Bench bench(example_case());
    // Common practice, no source. In steps of a third of a row, so that a piece just fits a page
    // and just does not.
    for (double height = 3; height < 9; height += 0.05) {
        CAPTURE(height);
        Job job = bench.job();
        job.area.height = inches(height);
        const auto pages = material_pages(job);
        REQUIRE(pages.size() > 1);
        for (const Frame& page : pages) {
            const auto texts = texts_of(page);
            CHECK(texts.back()->at.y <= job.area.height); // the foot of the remark, or of a row
            const auto last_column = std::ranges::find(texts, "REMARK", &Text::text);
            REQUIRE(texts.end() - last_column > 1);
            const std::string& next = last_column[1]->text; // "M12" would be a row
            CHECK_FALSE((next.size() > 1 && next[0] == 'M' && next[1] >= '0' && next[1] <= '9'));
            CHECK(holds(words_of(page), "ORDER: AS DRAWN") == (&page == &pages.back()));
        }
    }
}
