// The packet as a whole: numbering, index, title blocks, links, and the lint of every sheet.
#include <map>

#include "catch.h"

#include "fixture.h"
#include "sheet/abbreviations.h"
#include "sheet/legend.h"
#include "sheet/title_block.h"

using namespace ohmfolio;
using namespace ohmfolio::sheets;
using example::Case;

namespace {

/// The measure of tests has capitals of 0.7 em, a hair less than the lettering of the house.
const LintRules test_rules{points(10), inches(0.099), points(0.25)};

/// The example's packet, made once: most tests only read it.
const Packet& example_packet(Edition edition = Edition::nec2023) {
    static std::map<Edition, Packet> packets;
    const auto found = packets.find(edition);
    if (found != packets.end())
        return found->second;
    Bench bench((Case(edition)));
    return packets.emplace(edition, bench.packet()).first->second;
}

std::vector<std::string> numbers(const Packet& packet) {
    std::vector<std::string> list;
    for (const Sheet& sheet : packet.sheets)
        list.push_back(sheet.number);
    return list;
}

} // namespace

TEST_CASE("sheets are numbered by discipline, type and sequence") {
    const Packet& packet = example_packet();
    const auto list = numbers(packet);
    REQUIRE(list.size() >= 5);
    // US National CAD Standard: G-0xx general, E-6xx schedules and diagrams.
    CHECK(list.front() == "G-001");
    CHECK(std::set<std::string>(list.begin(), list.end()).size() == list.size());
    const auto diagram = std::find(list.begin(), list.end(), "E-601");
    REQUIRE(diagram != list.end());
    CHECK(packet.sheets[static_cast<std::size_t>(diagram - list.begin())].title.starts_with(
        "SINGLE-LINE DIAGRAM"));
    CHECK(packet.sheets.back().title.starts_with("PLACARDS"));
    int sequence = 0;
    for (const std::string& number : list)
        if (number.starts_with("E-6"))
            CHECK(std::stoi(number.substr(3)) == ++sequence);
}

TEST_CASE("each placard is named beside the equipment that bears it") {
    Bench bench((Case(Edition::nec2023)));
    const auto keys = placard_pages(bench.job()).keys;
    REQUIRE_FALSE(keys.empty());
    std::map<int, std::vector<std::string>> borne;
    for (const PlacardKey& key : keys) {
        for (const int equipment : key.at)
            borne[equipment].push_back(key.number);
    }
    // The diagram may take several sheets.
    std::map<std::string, std::string> words;
    for (const Sheet& sheet : example_packet().sheets) {
        if (!sheet.title.starts_with("SINGLE-LINE DIAGRAM"))
            continue;
        for (const Mark& mark : sheet.frame.marks) {
            if (const auto* text = std::get_if<Text>(&mark.item))
                words[mark.shows] += text->text + " ";
        }
    }
    for (const auto& [equipment, numbers] : borne) {
        const std::string shows = "equipment:" + bench.job_case.system.at(equipment).id;
        INFO(shows << ": " << words[shows]);
        CHECK(occurs(numbers.front(), words[shows]));
        CHECK(occurs(numbers.back(), words[shows]));
    }
}

TEST_CASE("the index tells the latest issue of each sheet") {
    Bench bench((Case(Edition::nec2023)));
    bench.job_case.system.revisions.push_back({"A", "2026-04-09", "JM", "Comments"});
    const Packet packet = bench.packet();
    const std::string words = words_of(packet.sheets.front().frame);
    CHECK(words.find("REV") != std::string::npos);
    std::size_t marks = 0;
    for (const Sheet& sheet : packet.sheets) {
        for (const Text* text : texts_of(sheet.frame)) {
            const bool in_index = sheet.number == "G-001" && sheet.drawing_area.contains(text->at);
            marks += in_index && text->text == "A" ? 1u : 0u;
        }
    }
    CHECK(marks == packet.sheets.size());
}

TEST_CASE("what one general sheet does not hold goes on two, arranged for two") {
    Bench bench((Case(Edition::nec2023)));
    for (int i = 0; i < 4; ++i)
        bench.job_case.system.project.other_codes.push_back("Code " + std::to_string(i));
    const Packet packet = bench.packet();
    CHECK(packet.sheets[1].title == "GENERAL, 2 OF 2");
    CHECK(words_of(packet.sheets[0].frame).find("ABBREVIATIONS") == std::string::npos);
    CHECK(words_of(packet.sheets[1].frame).find("ABBREVIATIONS") != std::string::npos);
    for (const auto* banner : texts_of(packet.sheets[1].frame))
        CHECK(banner->style != bench.layout.lettering.banner);
}

TEST_CASE("the index names every sheet and leads to it") {
    const Packet& packet = example_packet();
    std::set<std::string> links;
    std::set<std::string> index_words;
    for (const Sheet& sheet : packet.sheets) {
        if (!sheet.number.starts_with("G-"))
            continue;
        for (const Text* text : texts_of(sheet.frame))
            index_words.insert(text->text);
        for (const Mark& mark : sheet.frame.marks)
            if (const auto* link = std::get_if<Link>(&mark.item))
                links.insert(link->target);
    }
    for (const Sheet& sheet : packet.sheets) {
        INFO(sheet.number);
        CHECK(index_words.contains(sheet.number));
        CHECK(index_words.contains(sheet.title));
        CHECK(links.contains("sheet:" + sheet.number));
    }
}

TEST_CASE("each title block says which sheet of how many") {
    const Packet& packet = example_packet();
    const std::string count = std::to_string(packet.sheets.size());
    for (std::size_t i = 0; i < packet.sheets.size(); ++i) {
        const std::string words = words_of(packet.sheets[i].frame);
        CHECK(holds(words, std::to_string(i + 1) + " OF " + count + " "));
        CHECK(holds(words, "ASHGROVE RESIDENCE"));
        CHECK(holds(words, "NEC 2023"));
        CHECK(holds(words, "2026-03-02"));
    }
}

TEST_CASE("anchors are unique and every circuit is tied both ways") {
    const Case job(Edition::nec2023);
    const Packet& packet = example_packet();
    std::set<std::string> anchors;
    for (const Sheet& sheet : packet.sheets)
        for (const std::string& name : anchors_of(sheet.frame)) {
            INFO(name);
            CHECK(anchors.insert(name).second);
        }
    for (std::size_t i = 0; i < job.system.circuits.size(); ++i) {
        const std::string& tag = job.system.circuits[i].tag;
        CHECK(anchors.contains("schedule:" + tag));
        CHECK(anchors.contains("calc:" + tag) == job.study.circuits[i].sized);
    }
}

TEST_CASE("every sheet but the diagram is free of drafting faults in every edition") {
    // The diagram is laid out for the lettering of the house; its own tests look at it.
    for (const Edition edition : all_editions) {
        const auto measure = fixed_measure();
        for (const Sheet& sheet : example_packet(edition).sheets) {
            if (sheet.number == "E-601")
                continue;
            for (const Finding& finding : lint(sheet, *measure, test_rules))
                FAIL_CHECK(name(edition) << " " << finding.rule << " " << finding.message);
        }
    }
}

TEST_CASE("nothing is lettered beyond the area it belongs to") {
    Bench bench((Case(Edition::nec2023)));
    const SheetAreas areas = areas_of(bench.layout, false, *bench.measure);
    // The large sheet number has room for capitals and digits, which reach no lower than the line.
    const Box title = areas.title.grown(points(2));
    for (const Sheet& sheet : example_packet().sheets) {
        if (sheet.number == "E-601")
            continue;
        for (const Text* text : texts_of(sheet.frame)) {
            const Box ink = text_box(*text, *bench.measure);
            INFO(sheet.number << " " << text->text);
            const bool in_zones = areas.outer.contains(ink) && !areas.border.overlaps(ink);
            const bool inside = sheet.drawing_area.contains(ink) || title.contains(ink);
            CHECK((in_zones || inside));
        }
    }
}

TEST_CASE("a draft is marked on every sheet and lists its violations") {
    // Ten AWG on a 40 A device is a published reason for return; here a stated 14 AWG branch.
    Bench bench(Case({{"JB-1 = { model = \"dunmere-jb\", location = \"South roof\", feeds = "
                       "\"CP-1\", run = { length = \"46 ft\"",
                       "JB-1 = { model = \"dunmere-jb\", location = \"South roof\", feeds = "
                       "\"CP-1\", run = { size = \"14 AWG\", length = \"46 ft\""}}));
    REQUIRE(has(bench.job_case.study.findings, Severity::violation));
    const Packet draft = bench.packet(true);
    for (const Sheet& sheet : draft.sheets) {
        INFO(sheet.number);
        const std::string words = words_of(sheet.frame);
        const std::string mark = "DRAFT - NOT FOR CONSTRUCTION";
        const auto band = words.find(mark);
        REQUIRE(band != std::string::npos);
        CHECK(words.find(mark, band + 1) != std::string::npos); // in the title block too
    }
    CHECK(holds(words_of(draft.sheets.front().frame), "UNRESOLVED VIOLATIONS"));
    for (const Sheet& sheet : example_packet().sheets)
        CHECK_FALSE(holds(words_of(sheet.frame), "DRAFT"));
}

TEST_CASE("revisions beyond the rows of the block show the newest") {
    Bench bench((Case(Edition::nec2023)));
    bench.job_case.system.revisions.clear();
    for (int i = 0; i < 8; ++i)
        bench.job_case.system.revisions.push_back({std::to_string(i),
                                                   "2026-03-0" + std::to_string(i + 1), "JM",
                                                   "Round " + std::to_string(i)});
    const std::string words = words_of(bench.packet().sheets.front().frame);
    CHECK(holds(words, "ROUND 7"));
    CHECK(holds(words, "ROUND 3"));
    CHECK_FALSE(holds(words, "ROUND 2"));
}

TEST_CASE("a title block that cannot hold its cells is a finding") {
    Bench bench((Case(Edition::nec2023)));
    auto& cells = bench.layout.title_block.columns.back().cells;
    cells.insert(cells.end(), 40, TitleCell{TitleCell::Kind::lines, "Filler", {}, {}, 0, false});
    const SheetAreas areas = areas_of(bench.layout, false, *bench.measure);
    Frame frame;
    Findings findings;
    draw_title_block(frame, areas.title,
                     {bench.facts, bench.job_case.system.revisions, "General", "G-001"},
                     bench.layout, *bench.measure, findings);
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].rule == "sheet.title_block_full");
}

TEST_CASE("zones count from the corner of the title block") {
    Bench bench((Case(Edition::nec2023)));
    // ASME Y14.1: numbers from right to left, letters from the bottom up.
    CHECK(zone_at(bench.layout, {inches(16.5), inches(10.5)}) == "A1");
    CHECK(zone_at(bench.layout, {inches(0.6), inches(0.4)}) == "D8");
    CHECK(zone_at(bench.layout, {inches(-3), inches(20)}) == "A8");
}

TEST_CASE("zones of ISO sheets count from the upper left and leave out I and O") {
    Bench bench((Case(Edition::nec2023)));
    bench.layout =
        read_layout(source_folder / "layouts", {"a1", {}}, bench.sources, bench.findings).value();
    // ISO 5457: A1 has 16 fields by 12.
    CHECK(zone_at(bench.layout, {millimetres(20), millimetres(10)}) == "A1");
    CHECK(zone_at(bench.layout, {millimetres(830), millimetres(580)}) == "M16");
    // The ninth row from the top: A B C D E F G H J.
    CHECK(zone_at(bench.layout, {millimetres(20), millimetres(420)}) == "J1");
}

TEST_CASE("a title block along the foot holds its columns side by side, the number at the right") {
    Bench bench((Case(Edition::nec2023)));
    bench.layout =
        read_layout(source_folder / "layouts", {"ansi-a", {}}, bench.sources, bench.findings)
            .value();
    const SheetAreas areas = areas_of(bench.layout, false, *bench.measure);
    CHECK(areas.title.width() == areas.border.width());
    CHECK(areas.title.low.y == areas.drawing.high.y + bench.layout.border.clear);
    Frame frame;
    Findings findings;
    draw_title_block(frame, areas.title,
                     {bench.facts, bench.job_case.system.revisions, "General", "G-001"},
                     bench.layout, *bench.measure, findings);
    std::set<Length> lefts;
    for (const Text* text : texts_of(frame)) {
        if (text->align == Align::left)
            lefts.insert(text->at.x);
        if (text->text == "G-001")
            CHECK(text->at.x == areas.title.high.x - bench.layout.title_block.pad_x);
    }
    CHECK(lefts.size() >= bench.layout.title_block.columns.size());
}

TEST_CASE("in a strip too low for all revisions the oldest give way") {
    Bench bench((Case(Edition::nec2023)));
    const std::vector<Revision> revisions = {
        {"1", "2026-03-09", "JM", "First answer to the comments of the plan checker, in full"},
        {"2", "2026-03-16", "JM", "Second answer to the comments of the plan checker"}};
    TitleCell cell;
    cell.kind = TitleCell::Kind::revisions;
    cell.rows = 5;
    bench.layout.title_block.columns = {{1, {cell}}};
    const auto words_in = [&](double height) {
        Frame frame;
        Findings findings;
        draw_title_block(frame, {{}, {inches(2.3), inches(height)}},
                         {bench.facts, revisions, "General", "G-001"}, bench.layout, *bench.measure,
                         findings);
        CHECK(findings.empty());
        return words_of(frame);
    };
    CHECK(holds(words_in(6), "FIRST"));
    CHECK(holds(words_in(6), "SECOND"));
    CHECK_FALSE(holds(words_in(1.8), "FIRST"));
    CHECK(holds(words_in(1.8), "SECOND"));
}

TEST_CASE("a cell of the title block without anything to say is left out with its heading") {
    Bench bench((Case(Edition::nec2023)));
    bench.facts["designer_name"] = "Larkmoor Solar Works";
    const auto words = [&] {
        Frame frame;
        Findings findings;
        const SheetAreas areas = areas_of(bench.layout, false, *bench.measure);
        draw_title_block(frame, areas.title, {bench.facts, {}, "General", "G-001"}, bench.layout,
                         *bench.measure, findings);
        return words_of(frame);
    };
    CHECK(holds(words(), "DESIGNED BY"));
    bench.facts["designer_name"].clear();
    bench.facts["designer_address"].clear();
    bench.facts["license"].clear();
    CHECK_FALSE(holds(words(), "DESIGNED BY"));
    CHECK(holds(words(), "SIGNATURE"));
}

TEST_CASE("the same job gives the same packet") {
    Bench again((Case(Edition::nec2023)));
    const Packet& first = example_packet();
    const Packet second = again.packet();
    REQUIRE(first.sheets.size() == second.sheets.size());
    for (std::size_t i = 0; i < first.sheets.size(); ++i)
        CHECK(words_of(first.sheets[i].frame) == words_of(second.sheets[i].frame));
}

TEST_CASE("the legend explains the lines of the diagram, in rows of one height") {
    Bench bench((Case(Edition::nec2023)));
    const auto rows = legend_rows({"meter", "battery-unit", "splice"}, inches(5.4), 3, bench.job());
    std::string words;
    for (const Frame& row : rows) {
        CHECK(row.size == rows.front().size);
        words += words_of(row);
    }
    for (const char* line : {"POWER", "CONTROL", "BUS", "NEW ENCLOSURE", "EXISTING",
                             "CONDUCTOR TAG", "GEC TO", "CONNECTION"}) {
        INFO(line);
        CHECK(holds(words, line));
    }
}

TEST_CASE("the title block leaves room for a signature and implies no seal") {
    for (const Sheet& sheet : example_packet().sheets) {
        const std::string words = words_of(sheet.frame);
        CHECK(holds(words, "SIGNATURE, WHERE REQUIRED"));
        CHECK_FALSE(holds(words, "SEAL OR"));
        CHECK_FALSE(holds(words, "LICENSE")); // the example states none
    }
}
