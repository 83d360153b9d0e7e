// Which placards a job needs under which edition, their mandated wording and their sizes. Wording
// and heights: NFPA 70 as quoted by public code notes on articles 690, 705 and 706 and by a public
// permit record; what rests on memory is listed at the foot of the sheet and named here.
#include "catch.h"

#include "fixture.h"
#include "sheet/material_list.h"
#include "sheet/placards.h"

using namespace ohmfolio;
using namespace ohmfolio::sheets;
using example::Case;

namespace {

std::set<std::string> ids(Bench& bench) {
    std::set<std::string> found;
    for (const NeededPlacard& needed : needed_placards(bench.job()))
        found.insert(needed.placard->id);
    return found;
}

std::set<std::string> ids(Case job) {
    Bench bench(std::move(job));
    return ids(bench);
}

const NeededPlacard* find(const std::vector<NeededPlacard>& list, const std::string& id) {
    for (const NeededPlacard& needed : list)
        if (needed.placard->id == id)
            return &needed;
    return nullptr;
}

Frame drawn(Bench& bench, const std::string& id) {
    const Job job = bench.job();
    const auto list = needed_placards(job);
    const NeededPlacard* needed = find(list, id);
    REQUIRE(needed);
    return draw_placard(*needed, job);
}

const std::set<std::string> common = {
    "rapid-shutdown-building", "rapid-shutdown-switch", "pv-disconnect",      "pv-line-load",
    "several-sources",         "sum-of-breakers",       "storage-disconnect", "storage-line-load",
    "optional-standby",        "standby-grounding"};

std::set<std::string> with(std::set<std::string> ids, const std::set<std::string>& more) {
    ids.insert(more.begin(), more.end());
    return ids;
}

/// `more` is added at the end.
Case pv_only(const std::string& panel_keys, const std::string& more = {}) {
    const std::string text = R"(catalogue = "catalogue.toml"
code = "NEC 2023"
[project]
name = "Sorrel Lane"
address = "31 Sorrel Lane, Tolliver Bend"
jurisdiction = "Vance County"
utility = "Tolliver Bend Light & Water"
occupancy = "One-family dwelling"
scope = "Photovoltaic system"
date = "2026-03-02"
[site]
coldest = "-9 C"
hottest = "37 C"
service = "120/240 V, 200 A"
[modules]
module = "solvane-405"
microinverter = "wickhollow-340"
[branch]
PV-1 = { modules = 8, roof = "South", feeds = "JB-1", run = { length = "20 ft" } }
[junction_box]
JB-1 = { model = "dunmere-jb", feeds = "CP-1", run = { length = "30 ft", raceway = "EMT" } }
[combiner]
CP-1 = { model = "wickhollow-c4", location = "Garage", feeds = "MSP", run = { length = "6 ft", raceway = "EMT" } }
[panel.MSP]
existing = true
model = "dunmere-200"
location = "West wall"
main = "200 A"
)" + panel_keys + R"(
feeds = "UM-1"
run = { length = "6 ft", raceway = "RMC" }
loads = { "Range" = "50 A 2P", "Condenser" = "40 A 2P", "Car" = "60 A 2P", "Heat" = "60 A 2P" }
electrodes = ["two ground rods"]
[meter]
UM-1 = { existing = true, model = "harrowgate-200" }
)" + more;
    SourceFiles sources;
    Findings findings;
    auto system = read_system_text(text, example::file_text("catalogue.toml"), sources, findings,
                                   Edition::nec2023);
    REQUIRE(system.has_value());
    return Case(*system);
}

} // namespace

TEST_CASE("the example needs these placards and no others") {
    // 706.15, the emergency shutdown of dwelling storage, came with the 2020 edition.
    // 690.54, the rating at the point of interconnection, stood in 2017 and 2020.
    // 705.10 of 2017 wants the directory at each disconnecting means of a source, not at the
    // service alone.
    CHECK(ids(Case(Edition::nec2017)) ==
          with(common, {"interconnection-rating", "source-directory-everywhere"}));
    CHECK(ids(Case(Edition::nec2020)) == with(common, {"interconnection-rating", "source-directory",
                                                       "storage-emergency-shutdown"}));
    CHECK(ids(Case(Edition::nec2023)) ==
          with(common, {"source-directory", "storage-emergency-shutdown"}));
}

TEST_CASE("sections follow the edition") {
    const auto section = [](Edition edition, const std::string& id) {
        Bench bench((Case(edition)));
        const auto list = needed_placards(bench.job());
        const NeededPlacard* needed = find(list, id);
        return needed ? needed->section : std::string{};
    };
    // The building label moved from 690.56(C) to 690.12(D) in 2023.
    CHECK(section(Edition::nec2023, "rapid-shutdown-building") == "NEC 2023 690.12(D)");
    CHECK(section(Edition::nec2020, "rapid-shutdown-building") == "NEC 2020 690.56(C)");
    CHECK(section(Edition::nec2017, "rapid-shutdown-switch") == "NEC 2017 690.56(C)(3)");
    CHECK(section(Edition::nec2017, "storage-disconnect") == "NEC 2017 706.7(D)");
    CHECK(section(Edition::nec2023, "source-directory") == "NEC 2023 705.10");
}

TEST_CASE("the label of the busbar rule is that of the rule which was chosen") {
    // 8 × 1.42 = 11.36 A, × 1.25 = 14.2 A; 200 + 14.2 ≤ 240 at the far end of the bus, while loads
    // of 210 A leave nothing for a sum of breakers.
    const auto far_end = ids(pv_only("opposite_end = true"));
    CHECK(far_end.contains("do-not-relocate"));
    CHECK_FALSE(far_end.contains("sum-of-breakers"));
    const auto neither = ids(pv_only(""));
    CHECK_FALSE(neither.contains("do-not-relocate"));
    CHECK_FALSE(neither.contains("sum-of-breakers"));

    // In the example only the main panel rests on the sum of breakers, not the interconnect device.
    Bench bench((Case(Edition::nec2023)));
    const auto list = needed_placards(bench.job());
    const NeededPlacard* sum = find(list, "sum-of-breakers");
    REQUIRE(sum);
    REQUIRE(sum->at.size() == 1);
    CHECK(bench.job().equipment(sum->at.front()).id == "MSP");
}

TEST_CASE("there is one label for each breaker of a power source under the 120 % rule") {
    // The combiner is the only source; the four loads are none.
    Bench one(pv_only("opposite_end = true"));
    const auto single = needed_placards(one.job());
    const NeededPlacard* needed = find(single, "do-not-relocate");
    REQUIRE(needed);
    CHECK(needed->count == 1);
    CHECK(needed->where == "IN MSP, BESIDE THE POWER SOURCE BREAKER");

    // A second combiner of 4 × 1.42 = 5.68 A; 17.04 × 1.25 = 21.3 A, 200 + 21.3 ≤ 240.
    Bench two(pv_only("opposite_end = true", R"([branch.PV-2]
modules = 4
roof = "South"
feeds = "JB-2"
run = { length = "20 ft" }
[junction_box.JB-2]
model = "dunmere-jb"
feeds = "CP-2"
run = { length = "30 ft", raceway = "EMT" }
[combiner.CP-2]
model = "wickhollow-c4"
location = "Garage"
feeds = "MSP"
run = { length = "6 ft", raceway = "EMT" }
)"));
    const auto list = needed_placards(two.job());
    const NeededPlacard* both = find(list, "do-not-relocate");
    REQUIRE(both);
    CHECK(both->at.size() == 1);
    CHECK(both->count == 2);
    CHECK(both->where == "IN MSP, BESIDE EACH POWER SOURCE BREAKER");
    std::string captions;
    for (const Frame& page : placard_pages(two.job()).pages)
        captions += words_of(page);
    CHECK(holds(captions, "BACKFED BREAKER, 120 % RULE, QTY 2"));
    const Table material = material_list(two.job());
    const auto row = std::ranges::find_if(material.rows, [](const Row& each) {
        return each.cells.size() > 3 && holds(each.cells[3].text, "120 %");
    });
    REQUIRE(row != material.rows.end());
    CHECK(row->cells[1].text == "2"); // order
    CHECK(row->cells[6].text == "2"); // drawn
    CHECK(row->cells[9].text == "NEC 2023 705.12(B)(2)");
}

TEST_CASE("of one place a caption does not say each") {
    Bench bench(pv_only("opposite_end = true"));
    const auto list = needed_placards(bench.job());
    const NeededPlacard* several = find(list, "several-sources");
    REQUIRE(several);
    // The branch is one; combiner and panel hold it and the utility.
    CHECK(several->where == "ON EACH OF CP-1, MSP");

    Bench later((Case(Edition::nec2023)));
    for (Placard& placard : later.texts.placards)
        if (placard.id == "several-sources")
            placard.at = "bonding_point"; // which is always one
    const auto one = needed_placards(later.job());
    CHECK(find(one, "several-sources")->where == "ON MSP");
}

TEST_CASE("without storage and switch there are no labels for them") {
    const auto found = ids(pv_only("opposite_end = true"));
    CHECK(found == std::set<std::string>{"rapid-shutdown-building", "pv-disconnect", "pv-line-load",
                                         "source-directory", "do-not-relocate", "several-sources"});
}

TEST_CASE("where there is no PV disconnect the label goes where the breaker is") {
    Bench bench(pv_only("opposite_end = true"));
    const auto list = needed_placards(bench.job());
    CHECK(find(list, "pv-disconnect")->where == "ON MSP, WEST WALL");
}

TEST_CASE("a replaced service calls for the emergency disconnect label from 2020 on") {
    // 230.85 came with the 2020 edition.
    const example::Change replaced{"existing = true\nmodel = \"dunmere-200\"",
                                   "model = \"dunmere-200\""};
    CHECK_FALSE(ids(Case({replaced}, Edition::nec2017)).contains("emergency-disconnect"));
    CHECK(ids(Case({replaced}, Edition::nec2020)).contains("emergency-disconnect"));
    CHECK(ids(Case({replaced}, Edition::nec2023)).contains("emergency-disconnect"));
    CHECK_FALSE(ids(Case(Edition::nec2023)).contains("emergency-disconnect"));
}

TEST_CASE("labels that dwellings are exempt from, and those only dwellings need") {
    const example::Change shop{"One-family dwelling, R-3", "Bakery, group M"};
    const auto found = ids(Case({shop}, Edition::nec2023));
    CHECK(found.contains("available-fault-current")); // 110.24(A) exempts dwelling units
    CHECK(found.contains("arc-flash"));               // 110.16(A) likewise
    CHECK_FALSE(found.contains("storage-emergency-shutdown"));
}

TEST_CASE("the fault current is marked with the date of its calculation where that was made here") {
    // 110.24(A): the marking includes the date the fault current calculation was performed
    // (ecmweb.com code-qa-field-marking-equipment). The utility's date is written in.
    const example::Change shop{"One-family dwelling, R-3", "Bakery, group M"};
    Bench stated(Case({shop}, Edition::nec2023));
    const std::string by_utility = words_of(drawn(stated, "available-fault-current"));
    INFO(by_utility);
    CHECK(holds(by_utility, "MAXIMUM AVAILABLE FAULT CURRENT 9.2 kA"));
    CHECK(holds(by_utility, "CALCULATED ____________"));
    CHECK_FALSE(holds(by_utility, "2026"));
    // 12.26 kA: worked out in tests/study/fault_currents_test.cpp.
    Bench worked_out(Case("examples/tolliver-bend/tannery-yard.toml"));
    const std::string here = words_of(drawn(worked_out, "available-fault-current"));
    INFO(here);
    CHECK(holds(here, "MAXIMUM AVAILABLE FAULT CURRENT 12.26 kA"));
    CHECK(holds(here, "CALCULATED 2026-04-27"));
    // Not known, not marked; a dwelling is exempt, however its fault current is known.
    const example::Change unknown{"fault_current = \"9.2 kA\"\n", ""};
    CHECK_FALSE(ids(Case({shop, unknown})).contains("available-fault-current"));
    CHECK_FALSE(ids(Case(example::cinder_row)).contains("available-fault-current"));
}

TEST_CASE("mandated wording stands word for word") {
    struct Wording {
        Edition edition;
        std::string id, words;
    };
    const std::vector<Wording> wordings = {
        {Edition::nec2023, "rapid-shutdown-building",
         "SOLAR PV SYSTEM IS EQUIPPED WITH RAPID SHUTDOWN"},
        {Edition::nec2023, "rapid-shutdown-building",
         "TURN RAPID SHUTDOWN SWITCH TO THE \"OFF\" POSITION TO SHUT DOWN PV SYSTEM AND REDUCE "
         "SHOCK HAZARD IN ARRAY"},
        // From memory: the article before ARRAY was dropped after 2017.
        {Edition::nec2017, "rapid-shutdown-building", "REDUCE SHOCK HAZARD IN THE ARRAY"},
        {Edition::nec2023, "rapid-shutdown-switch", "RAPID SHUTDOWN SWITCH FOR SOLAR PV SYSTEM"},
        {Edition::nec2023, "pv-disconnect", "PV SYSTEM DISCONNECT"},
        {Edition::nec2020, "pv-line-load",
         "TERMINALS ON THE LINE AND LOAD SIDES MAY BE ENERGIZED IN THE OPEN POSITION"},
        {Edition::nec2023, "source-directory", "MULTIPLE SOURCES OF POWER"},
        {Edition::nec2023, "storage-disconnect", "ENERGY STORAGE SYSTEM DISCONNECT"},
        // From memory.
        {Edition::nec2023, "sum-of-breakers",
         "THIS EQUIPMENT FED BY MULTIPLE SOURCES. TOTAL RATING OF ALL OVERCURRENT DEVICES, "
         "EXCLUDING MAIN SUPPLY OVERCURRENT DEVICE, SHALL NOT EXCEED AMPACITY OF BUSBAR"},
        {Edition::nec2023, "standby-grounding",
         "SHOCK HAZARD EXISTS IF GROUNDING ELECTRODE CONDUCTOR OR BONDING JUMPER CONNECTION IN "
         "THIS EQUIPMENT IS REMOVED WHILE ALTERNATE SOURCE(S) IS ENERGIZED"},
    };
    for (const Wording& wording : wordings) {
        INFO(wording.id);
        Bench bench((Case(wording.edition)));
        const std::string words = words_of(drawn(bench, wording.id));
        INFO(words);
        CHECK(holds(words, wording.words));
    }
    Bench far_end(pv_only("opposite_end = true"));
    const std::string relocate = words_of(drawn(far_end, "do-not-relocate"));
    CHECK(holds(relocate, "WARNING"));
    CHECK(holds(relocate,
                "POWER SOURCE OUTPUT CONNECTION - DO NOT RELOCATE THIS OVERCURRENT DEVICE"));
}

TEST_CASE("letters are as tall as the code asks, in the colours it fixes") {
    Bench bench((Case(Edition::nec2023)));
    // 690.12(D): title and switch label in capitals of 3/8 in at least; the switch label white on
    // red.
    const Frame switch_label = drawn(bench, "rapid-shutdown-switch");
    for (const Text* text : texts_of(switch_label)) {
        CHECK(bench.measure->cap_height(text->style) >= inches(0.375));
        CHECK(text->color == white);
    }
    const Frame building = drawn(bench, "rapid-shutdown-building");
    CHECK(bench.measure->cap_height(texts_of(building).front()->style) >= inches(0.375));
    // No letter of any placard is smaller than what a sheet may carry.
    const Job job = bench.job();
    for (const NeededPlacard& needed : needed_placards(job)) {
        const Frame placard = draw_placard(needed, job);
        for (const Text* text : texts_of(placard))
            CHECK(bench.measure->cap_height(text->style) >= inches(0.10));
    }
}

TEST_CASE("placards are drawn at the size they state, nothing beyond the cut line") {
    Bench bench((Case(Edition::nec2023)));
    const Job job = bench.job();
    for (const NeededPlacard& needed : needed_placards(job)) {
        INFO(needed.placard->id);
        const Frame frame = draw_placard(needed, job);
        CHECK(frame.size.width == needed.placard->width);
        const Box edge{{}, {frame.size.width, frame.size.height}};
        for (const Text* text : texts_of(frame))
            CHECK(edge.contains(text_box(*text, *bench.measure)));
    }
}

TEST_CASE("data slots hold the ratings of the job") {
    Bench bench((Case(Edition::nec2023)));
    // 28 microinverters of 1.42 A: 39.76 A; two units of 16 A: 32 A; 2 × 10.08 kWh = 20.16 kWh.
    Bench before((Case(Edition::nec2020)));
    const std::string rating = words_of(drawn(before, "interconnection-rating"));
    CHECK(holds(rating, "39.76 A"));
    CHECK(holds(rating, "240 V"));
    CHECK(holds(words_of(drawn(bench, "storage-disconnect")), "32 A"));
    CHECK(holds(words_of(drawn(bench, "optional-standby")), "20.16 kWh"));
    const std::string directory = words_of(drawn(bench, "source-directory"));
    for (const char* word : {"SW-1", "SW-2", "MSP MAIN BREAKER"})
        CHECK(holds(directory, word));
    CHECK(bench.findings.empty());
}

TEST_CASE("captions number the placards and state their size; the foot says what to compare") {
    Bench bench((Case(Edition::nec2023)));
    const Job job = bench.job();
    std::string words;
    const auto pages = placard_pages(job).pages;
    for (const Frame& page : pages) {
        const std::string on_page = words_of(page);
        words += on_page;
        CHECK(holds(on_page, "TRUE SIZE WHEN THIS BAR MEASURES 4 in"));
        // 706.15 rests on a single source (placards.toml).
        CHECK(holds(on_page, "706.15(C)"));
        CHECK_FALSE(holds(on_page, "*"));
    }
    const auto list = needed_placards(job);
    for (std::size_t i = 1; i <= list.size(); ++i)
        CHECK(holds(words, "P" + std::to_string(i) + " "));
    // 4.2 in wide; the signal word in capitals of 5/16 in, the wording in capitals of 3/16 in.
    CHECK(holds(words, "4.2 × "));
    CHECK(holds(words, "CAPITALS 0.188 TO 0.313 in"));
}

TEST_CASE("what is written in at the site gets a rule, not underscores") {
    Bench bench((Case(Edition::nec2023)));
    const Frame directory = drawn(bench, "source-directory");
    CHECK_FALSE(holds(words_of(directory), "_"));
}

TEST_CASE("marks of the plan on the directory stand clear of one another") {
    Bench bench((Case(Edition::nec2023)));
    const Frame directory = drawn(bench, "source-directory");
    // Common practice, no source: what merges is counted as one. MSP, SW-2 and SW-1 hang within
    // 8 ft of one another, which are less than three marks at the size of the plan.
    std::vector<Box> marks;
    for (const Mark& mark : directory.marks) {
        const auto* path = std::get_if<Path>(&mark.item);
        if (path && path->filled && path->fill == black && mark.role == Role::symbol &&
            bounds(*path).width() == bounds(*path).height())
            marks.push_back(bounds(*path));
    }
    REQUIRE(marks.size() == 3);
    for (std::size_t i = 0; i < marks.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j)
            CHECK_FALSE(marks[i].grown(inches(0.015)).overlaps(marks[j].grown(inches(0.015))));
    }
}

TEST_CASE("a placard that is larger than the sheet at true size is refused, not shrunk") {
    Bench bench((Case(Edition::nec2023)));
    bench.layout.paper = {inches(8), inches(5)};
    placard_pages(bench.job());
    REQUIRE_FALSE(bench.findings.empty());
    for (const Finding& finding : bench.findings) {
        CHECK(finding.rule == "sheet.placard_too_large");
        CHECK(finding.severity == Severity::error);
        CHECK(finding.subject.starts_with("placard:"));
        CHECK(finding.expected == "a larger sheet format");
    }
}

TEST_CASE("on a sheet too low for placard and caption the caption stands beside it") {
    Bench bench((Case(Edition::nec2023)));
    const Job usual = bench.job();
    const auto list = needed_placards(usual);
    const NeededPlacard* needed = find(list, "source-directory");
    REQUIRE(needed);
    const Size placard = draw_placard(*needed, usual).size;
    const auto top_of = [&](const std::vector<Frame>& pages, const std::string& title) {
        for (const Frame& page : pages)
            for (const Text* text : texts_of(page))
                if (text->text.starts_with(title))
                    return text->at;
        FAIL("no caption " << title);
        return Point{};
    };
    const std::string title = "DIRECTORY OF POWER SOURCES";
    CHECK(top_of(placard_pages(usual).pages, title).y > placard.height);
    // A hair of room below the placard, for the footnote and the gap but no caption.
    Job low = bench.job();
    low.area.height = placard.height + inches(1.2);
    const Point beside = top_of(placard_pages(low).pages, title);
    CHECK(beside.x > placard.width);
    CHECK(beside.y < placard.height);
    CHECK(bench.findings.empty());
}
