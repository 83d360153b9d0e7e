// The schedules against the example's description and against hand calculation.
#include "catch.h"

#include "fixture.h"
#include "sheet/calculation_sections.h"
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
    CHECK(cell(table, "C5", "125 %\nA") == "14.20");
    CHECK(cell(table, "C5", "CCC /\nFACTOR") == "4 / 0.80");
    CHECK(cell(table, "C5", "AMB.\nFACTOR") == "0.91");
    CHECK(cell(table, "C5", "AMPACITY\nCORRECTED\nA") == "21.84");
    CHECK(cell(table, "C5", "OCPD\nA") == "20");
    CHECK(cell(table, "C5", "UNGROUNDED CONDUCTORS") == "(2) 12 AWG CU THWN-2");
    // Table 250.66: 4 AWG copper for service conductors of 2/0 or 3/0 AWG copper.
    CHECK(cell(table, "G1", "UNGROUNDED CONDUCTORS") == "(1) 4 AWG CU GEC");
    CHECK(cell(table, "G1", "FROM") == "MSP");
    CHECK(row_of(table, "G1").cells.size() == table.columns.size());
    // The utility's conductors are drawn and not sized.
    CHECK(cell(table, "C17", "UNGROUNDED CONDUCTORS") == "BY THE UTILITY");
}

TEST_CASE("overcurrent devices, disconnects and equipment as described") {
    const Case& job = example_case();
    const Table breakers = overcurrent_schedule(job.system, job.study);
    CHECK(breakers.rows.size() == job.system.breakers.size());
    CHECK(cell(breakers, "Q7", "RATING\nA") == "100"); // stated for MID-1
    CHECK(cell(breakers, "Q7", "RATING IS") == "STATED, CHECKED");
    CHECK(cell(breakers, "Q7", "IN") == "MSP (E)");
    const Table disconnects = disconnect_schedule(job.system, job.study);
    REQUIRE(disconnects.rows.size() == 2);
    CHECK(cell(disconnects, "SW-1", "USE") ==
          "UTILITY LOCKABLE DISCONNECT, RAPID SHUTDOWN INITIATION");
    const Table equipment = equipment_schedule(job.system);
    CHECK(cell(equipment, "PV-1, PV-2, PV-3, PV-4", "QTY") == "28");
    CHECK(cell(equipment, "ES-1, ES-2", "QTY") == "2");
    CHECK(cell(equipment, "MSP", "STATUS") == "EXISTING");
    CHECK(cell(equipment, "MSP", "RATINGS") == "200 A BUS, MAIN MAX. 200 A, 22 kAIC");
}

TEST_CASE("a panel schedule lists main, sources and loads") {
    const Case& job = example_case();
    const Table table = panel_schedule(job.system, job.study, job.system.find("MSP"));
    REQUIRE(table.rows.size() == 4);
    CHECK(cell(table, "MAIN BREAKER", "BREAKER\nA") == "200");
    CHECK(cell(table, "RANGE", "POLES") == "2");
    CHECK(cell(table, "Q7 C14, MID-1", "KIND") == "POWER SOURCE");
}

TEST_CASE("calculations that read alike are printed once") {
    const Case& job = example_case();
    const auto groups = printed_groups(job.study);
    std::size_t printed = 0;
    for (const PrintedGroup& group : groups)
        printed += group.groups.size();
    CHECK(printed == job.study.groups.size());
    const auto pair = std::find_if(groups.begin(), groups.end(), [](const PrintedGroup& group) {
        return group.groups.front()->anchor == "calc:C5";
    });
    REQUIRE(pair != groups.end());
    // C5 and C6 carry branches of eight over the same run; C7 and C8 branches of six.
    REQUIRE(pair->groups.size() == 2);
    CHECK(pair->groups[1]->anchor == "calc:C6");
    CHECK(title_of(*pair) == "CIRCUITS C5, C6: JB-1 TO CP-1");
}
