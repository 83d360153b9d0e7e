// What sheets say of three lines and of sets in parallel: the jobs' own descriptions and the
// results that tests/study/three_phase_test.cpp holds against tables.
#include "catch.h"

#include "diagram/callouts.h"
#include "fixture.h"
#include "sheet/conditions.h"
#include "sheet/schedules.h"
#include "sheet/system_summary.h"

using namespace ohmfolio;
using namespace ohmfolio::sheets;
using example::Case;

namespace {

const std::string tannery = "examples/tolliver-bend/tannery-yard.toml";
const std::string brickfield = "examples/tolliver-bend/brickfield.toml";

std::string cell(const Table& table, const std::string& first, const std::string& heading) {
    for (const Row& row : table.rows) {
        for (std::size_t i = 0; row.cells.front().text == first && i < table.columns.size(); ++i)
            if (table.columns[i].heading == heading)
                return row.cells.at(i).text;
    }
    throw std::logic_error("no cell " + first + ", " + heading);
}

} // namespace

TEST_CASE("the panel schedule of three lines says which of them the poles sit on") {
    const Case job(tannery);
    const Table table = panel_schedule(job.system, job.study, job.system.find("MDP"));
    CHECK(table.title.find("120/208 V, 3 PHASE, 4 WIRE") != std::string::npos);
    CHECK(cell(table, "MAIN", "POLES") == "3");
    CHECK(cell(table, "MAIN", "LINES") == "A-B-C");
    CHECK(cell(table, "Q7", "LINES") == "A-B-C");
    CHECK(cell(table, "5", "LINES") == "A-B"); // the heater, two poles
    CHECK(cell(table, "6", "LINES") == "C");   // the next pole below
    const Case house;
    const Table other = panel_schedule(house.system, house.study, house.system.find("MSP"));
    for (const Column& column : other.columns)
        CHECK(column.heading != "LINES");
}

TEST_CASE("the devices of three lines have three poles, the main too") {
    const Case job(tannery);
    const Table table = overcurrent_schedule(job.system, job.study);
    CHECK(cell(table, "Q1", "POLES") == "2");
    CHECK(cell(table, "Q7", "POLES") == "3");
    CHECK(cell(table, "MAIN", "POLES") == "3");
    CHECK(cell(table, "Q1", "LINES") == "A-B");
    CHECK(cell(table, "Q2", "LINES") == "C-A");
    CHECK(cell(table, "Q3", "LINES") == "B-C");
    CHECK(cell(table, "Q7", "LINES") == "A-B-C");
}

TEST_CASE("sets in parallel are told with conductors, ground and raceways") {
    const Case job(brickfield);
    const Table table = conductor_schedule(job.system, job.study);
    REQUIRE(table.rows.size() == job.system.circuits.size() + 1); // each of 199, and G1
    CHECK(cell(table, "C195", "UNGROUNDED CONDUCTORS") == "4 SETS OF (3) 350 kcmil CU THWN-2");
    CHECK(cell(table, "C195", "NEUTRAL") == "4 SETS OF (1) 350 kcmil");
    CHECK(cell(table, "C195", "EGC").find("4 SETS OF (1)") == 0);
    CHECK(cell(table, "C195", "RACEWAY").find("(4) ") != std::string::npos);
}

TEST_CASE("the summary tells service, inverters and the current of a line") {
    const Case job(brickfield);
    const Facts facts = facts_of(job.system, job.study);
    const auto value = [&](std::string_view label) {
        for (const Fact& fact : system_rows(job.system, job.study, facts))
            if (fact.label == label)
                return fact.value;
        return std::string{};
    };
    CHECK(value("Service") == "120/208 V, 3 phase, 4 wire, 2500 A");
    CHECK(value("Inverters") == "(60) Wickhollow WS-10K-208");
    CHECK(value("Modules") == "(1680) Solvane SV-405M");             // 60 × 2 × 14
    CHECK(value("Inverter output") == "600 kW AC, 1668 A at 208 V"); // 60 × 27.8 A
}

TEST_CASE("a fault current worked out is told where one stated is: summary, note, diagram") {
    // 12.26 kA: worked out in tests/study/fault_currents_test.cpp.
    const Case job(tannery);
    const auto rows = site_rows(facts_of(job.system, job.study));
    const auto row = std::ranges::find(rows, "Available fault current", &Fact::label);
    REQUIRE(row != rows.end());
    CHECK(row->value == "12.26 kA at the service");
    CHECK(find_condition("fault_current")->holds(job.system, job.study)); // of the note
    const Equipment& utility = job.system.at(job.system.root());
    CHECK(diagram::fields_of(job.system, job.study, utility).at("fault_current") == "12.26 kA");
    const Case unknown{{"fault_current = \"9.2 kA\"\n", ""}};
    CHECK_FALSE(find_condition("fault_current")->holds(unknown.system, unknown.study));
}
