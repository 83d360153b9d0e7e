// What the sheets say of storage for direct current, of storage on a combiner, of backup by the sun
// alone and of a second PV system beside an existing one. Items of the storage label: public notes
// on 706.15(C) (nominal AC and maximum DC voltage).
#include "catch.h"

#include "fixture.h"
#include "sheet/placards.h"
#include "sheet/places.h"
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

std::string words_on(Bench& bench, const std::string& id) {
    const Job job = bench.job();
    for (const NeededPlacard& needed : needed_placards(job)) {
        if (needed.placard->id == id)
            return words_of(draw_placard(needed, job));
    }
    return {};
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
    CHECK(holds(words, "NOMINAL AC VOLTAGE: 240 V"));
    CHECK_FALSE(holds(words, "OUTPUT CURRENT"));
    CHECK(placards_of(bench).contains("optional-standby"));
    CHECK(row(bench, "Storage") == "18.4 kWh");
    Bench alternating = bench_of("ashgrove");
    CHECK_FALSE(holds(words_on(alternating, "storage-disconnect"), "DC VOLTAGE"));
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
