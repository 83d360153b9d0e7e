// What the sheets say of storage for direct current, of storage on a combiner, of backup by the sun
// alone and of a second PV system beside an existing one. Items of the storage label: public notes
// on 706.15(C) (nominal AC and maximum DC voltage).
#include "catch.h"

#include "fixture.h"
#include "sheet/placards.h"
#include "sheet/places.h"
#include "sheet/schedules.h"
#include "sheet/system_summary.h"

using namespace ohmfolio;
using namespace ohmfolio::sheets;
using example::Case;

namespace {

Bench bench_of(const std::string& name) {
    return Bench(Case("examples/tolliver-bend/" + name + ".toml"));
}

std::set<std::string> placards_of(Bench& bench) {
    std::set<std::string> found;
    for (const NeededPlacard& needed : needed_placards(bench.job()))
        found.insert(needed.placard->id);
    return found;
}

/// Of the placard on `equipment` alone, or of the first one where none is named.
std::string words_on(Bench& bench, const std::string& id, const std::string& equipment = {}) {
    const Job job = bench.job();
    for (const NeededPlacard& needed : needed_placards(job)) {
        const std::string at = ids(job.system, needed.at);
        if (needed.placard->id == id && (equipment.empty() || at == equipment))
            return words_of(draw_placard(needed, job));
    }
    return {};
}

/// The equipment that bears a placard.
std::string bearers(Bench& bench, const std::string& id) {
    std::vector<int> at;
    for (const NeededPlacard& needed : needed_placards(bench.job())) {
        if (needed.placard->id == id)
            at.insert(at.end(), needed.at.begin(), needed.at.end());
    }
    return ids(bench.job_case.system, at);
}

/// The cells of the first row whose first cell is `tag`, parted by bars.
std::string cells_of(const Table& table, std::string_view tag) {
    std::string cells;
    for (const Row& row : table.rows) {
        if (row.cells.front().text != tag)
            continue;
        for (const Cell& cell : row.cells)
            cells += cell.text + "|";
        break;
    }
    return cells;
}

std::string row(Bench& bench, std::string_view name) {
    for (const Fact& fact : system_rows(bench.job_case.system, bench.job_case.study, bench.facts)) {
        if (fact.label == name)
            return fact.value;
    }
    return {};
}

} // namespace

TEST_CASE("sheets: storage for direct current") {
    Bench bench = bench_of("larch-bend");
    const System& system = bench.job_case.system;
    CHECK(ids(system, storage_disconnects(system)) == "SW-2");
    CHECK(ids(system, pv_disconnects(system)) == "INV-1"); // the switch in the inverter
    const std::string words = words_on(bench, "storage-disconnect");
    CHECK(holds(words, "MAXIMUM DC VOLTAGE: 450 V"));
    CHECK_FALSE(holds(words, "AC"));
    // The battery input takes 26 A by its nameplate, more than the units' 22.5 A at 400 V.
    CHECK(holds(words, "MAXIMUM DC CURRENT: 26 A"));
    CHECK(placards_of(bench).contains("optional-standby"));
    CHECK(row(bench, "Storage") == "18.4 kWh");
    Bench alternating = bench_of("ashgrove");
    CHECK_FALSE(holds(words_on(alternating, "storage-disconnect"), "DC VOLTAGE"));
}

TEST_CASE("sheets: each storage disconnect tells what stands behind it") {
    Bench bench = bench_of("orchard-steps");
    CHECK(bearers(bench, "storage-disconnect") == "SW-2, SW-3");
    // 706.15(C): units of 16 A; two behind SW-2, one behind SW-3.
    CHECK(holds(words_on(bench, "storage-disconnect", "SW-2"), "OUTPUT CURRENT: 32 A"));
    CHECK(holds(words_on(bench, "storage-disconnect", "SW-3"), "OUTPUT CURRENT: 16 A"));
    // 706.15(B): the shutdown is of all storage, which takes both.
    const std::string first = words_on(bench, "storage-emergency-shutdown", "SW-2");
    CHECK(holds(first, "ES-1, ES-2"));
    CHECK(holds(first, "TO SHUT DOWN ALL STORAGE OPEN SW-3 ALSO"));
    const std::string second = words_on(bench, "storage-emergency-shutdown", "SW-3");
    CHECK(holds(second, "ES-3"));
    CHECK(holds(second, "TO SHUT DOWN ALL STORAGE OPEN SW-2 ALSO"));
    const std::string directory = words_on(bench, "source-directory");
    CHECK(holds(directory, "ENERGY STORAGE SYSTEM, ES-1, ES-2"));
    CHECK(holds(directory, "ENERGY STORAGE SYSTEM, ES-3"));
    // Nothing of the kind where one switch disconnects all.
    Bench one = bench_of("ashgrove");
    CHECK_FALSE(holds(words_on(one, "storage-emergency-shutdown"), "ALSO"));
    CHECK_FALSE(holds(words_on(one, "source-directory"), "ES-1"));
}

TEST_CASE("sheets: lugs bear no label of a power source breaker") {
    // 705.12(B)(2) of 2023 speaks of an overcurrent device: MSP feeds SP-2 by lugs.
    Bench bench = bench_of("quayside");
    CHECK(bearers(bench, "do-not-relocate") == "SP-2");
}

TEST_CASE("sheets: the power control system is a device, and the connection rests on it") {
    Bench bench = bench_of("tollgate");
    const Job job = bench.job();
    CHECK(bearers(bench, "power-control") == "CP-1, MSP");
    const std::string device = cells_of(equipment_schedule(job.system, {}), "CP-1");
    INFO(device);
    CHECK(holds(device, "POWER CONTROL SYSTEM (UL 1741 PCS)"));
    // 18 × 1.42 A + 16 A = 41.56 A, × 1.25 = 51.95 A; 200 A + 51.95 A > 240 A. By the setting
    // 1.25 × 30 A = 37.5 A: 237.5 A ≤ 240 A.
    CHECK(holds(row(bench, "Point of connection"), "sources held to 30 A"));
    CHECK(holds(row(bench, "Point of connection"), "705.13"));
    for (const ConnectionOption& option : bench.job_case.connection("MSP").options) {
        if (option.rule_id == "bus.power_control") {
            CHECK(option.counted);
            CHECK(holds(option.reason, "30 A"));
        } else {
            CHECK_FALSE(option.counted);
        }
    }
    // A setting above what the sources deliver limits nothing.
    Bench idle(Case("examples/tolliver-bend/tollgate.toml",
                    {{"sources = \"30 A\"", "sources = \"42 A\""}}));
    CHECK_FALSE(holds(row(idle, "Point of connection"), "held to"));
}

TEST_CASE("sheets: what an interconnect device commands has its control wiring in the schedule") {
    // The job: LC-1 sheds loads of MDP, LC-2 the branch PV-3, whose breaker is in CP-1.
    Bench bench = bench_of("fernhill");
    const Table table = metering_schedule(bench.job_case.system);
    CHECK(cells_of(table, "LC-1") == "LC-1|LOAD CONTROL|MID-1|—|MDP (E)|");
    CHECK(cells_of(table, "LC-2") == "LC-2|LOAD CONTROL|MID-1|—|CP-1|");
}

TEST_CASE("sheets: one disconnect behind a storage combiner") {
    Bench bench = bench_of("foundry-yard");
    CHECK(ids(bench.job_case.system, storage_disconnects(bench.job_case.system)) == "SW-1");
    CHECK_FALSE(placards_of(bench).contains("optional-standby"));
}

TEST_CASE("sheets: backup by the sun alone says so") {
    Bench bench = bench_of("skylark-hill");
    CHECK(placards_of(bench).contains("daylight-standby"));
    CHECK(placards_of(bench).contains("standby-grounding"));
    CHECK_FALSE(placards_of(bench).contains("optional-standby"));
    CHECK(holds(words_on(bench, "daylight-standby"), "DAYLIGHT ONLY"));
    Bench stored = bench_of("ashgrove");
    CHECK_FALSE(placards_of(stored).contains("daylight-standby"));
}

TEST_CASE("sheets: what exists is told beside what is new") {
    Bench bench = bench_of("tanner-street");
    // 22 and 12 modules of 405 W, 22 and 12 microinverters of 340 VA.
    CHECK(holds(row(bench, "Array, STC"), "8.91 kW DC, of which 4.86 existing"));
    CHECK(holds(row(bench, "Inverter output"), "7.48 kW AC, of which 4.08 existing"));
}
