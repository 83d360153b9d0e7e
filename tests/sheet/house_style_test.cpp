/// The style of an office over a sheet format: what it changes, and what it may not.
#include "catch.h"
#include "fixture.h"
#include "sheet/framing.h"
#include "sheet/house_style.h"
#include "sheet/logo.h"

using namespace ohmfolio;
using namespace ohmfolio::sheets;
using example::Case;

namespace {

Findings applied(const House& house, Bench& bench) {
    Findings findings;
    apply_house(house, *bench.measure, bench.layout, bench.texts, findings);
    return findings;
}

std::vector<std::string> contents(const SheetLayout& layout) {
    std::vector<std::string> names;
    for (const SheetEntry& entry : layout.sheets)
        names.push_back(entry.content);
    return names;
}

HouseSheet numbered(const std::string& content, const std::string& first,
                    const std::string& title = {}) {
    return {{content, {}}, {first, {}}, title};
}

const Note* find_note(const SheetTexts& texts, const std::string& id) {
    const auto found = std::ranges::find(texts.notes, id, &Note::id);
    return found == texts.notes.end() ? nullptr : &*found;
}

Logo drawn_logo(const std::string& inner, Findings& findings) {
    static SourceFiles sources;
    House house;
    const std::string text =
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 40 10\" width=\"40mm\" "
        "height=\"10mm\" data-kind=\"mark\"><title>Office</title><g data-symbol=\"logo\" "
        "class=\"medium\" stroke=\"black\" fill=\"none\">" +
        inner + "</g></svg>";
    house.logo =
        HouseLogo{HouseLogo::Kind::drawing, "logo", sources.add("logo.svg", text), 0, 0, {}};
    return read_logo(house, sources, findings);
}

} // namespace

TEST_CASE("the office's lettering takes the place of the format's, bold body and tables alike") {
    Bench bench((Case(Edition::nec2023)));
    House house;
    house.lettering["body"] = {points(12), {}};
    house.lettering["banner"] = {points(30), {}};
    CHECK(applied(house, bench).empty());
    CHECK(bench.layout.lettering.body.size == points(12));
    CHECK(bench.layout.lettering.strong == TextStyle{points(12), true});
    CHECK(bench.layout.table.body.size == points(12));
    CHECK(bench.layout.lettering.banner == TextStyle{points(30), true});
}

TEST_CASE("lettering with capitals under 0.10 in is refused at its place") {
    // The fixed measure has capitals of 0.7 em: 0.10 in are 7.2 pt, so 10.29 pt is the least.
    for (const auto& [size, passes] : {std::pair{10.3, true}, std::pair{10.2, false}}) {
        Bench bench((Case(Edition::nec2023)));
        const TextStyle before = bench.layout.lettering.heading;
        House house;
        house.lettering["heading"] = {points(size), Span{3, {7, 1}, {7, 8}}};
        const Findings findings = applied(house, bench);
        CHECK(findings.empty() == passes);
        if (passes)
            continue;
        REQUIRE(findings.size() == 1);
        CHECK(findings[0].rule == "house.lettering_small");
        CHECK(findings[0].severity == Severity::error);
        CHECK(findings[0].span.begin.line == 7);
        CHECK(bench.layout.lettering.heading == before);
    }
}

TEST_CASE("pens are those that a copier keeps") {
    Bench bench((Case(Edition::nec2023)));
    House house;
    house.pens["border"] = {millimetres(1), {}};
    CHECK(applied(house, bench).empty());
    CHECK(bench.layout.border.border_pen == millimetres(1));
    house.pens["border"] = {millimetres(0.05), {}};
    REQUIRE(applied(house, bench).size() == 1);
    CHECK(bench.layout.border.border_pen == millimetres(1));
}

TEST_CASE("sheets come in the office's order and number, the others after them") {
    Bench bench((Case(Edition::nec2023)));
    House house;
    house.sheets = {numbered("general", "T-001", "Title sheet"), numbered("placards", "E-711"),
                    numbered("diagram", "")};
    CHECK(applied(house, bench).empty());
    const auto& sheets = bench.layout.sheets;
    CHECK(sheets[0].title == "Title sheet");
    CHECK(sheet_number(sheets[0], 1) == "T-001");
    CHECK(sheet_number(sheets[1], 1) == "E-711");
    CHECK(sheet_number(sheets[1], 2) == "E-712");
    const auto names = contents(bench.layout);
    REQUIRE(names.size() >= 5);
    CHECK(names[1] == "placards");
    CHECK(names[2] == "diagram");
    CHECK(std::ranges::count(names, "schedules") == 1);
}

TEST_CASE("faults of the numbering are findings") {
    const std::vector<std::vector<HouseSheet>> faults = {
        {numbered("shedules", "")},
        {numbered("schedules", ""), numbered("schedules", "")},
        {numbered("schedules", "E601")},
        {numbered("schedules", "E-600")},
        {numbered("diagram", "E-601"), numbered("schedules", "E-611")},
        {numbered("general", "G-001"), numbered("diagram", "G-001")}};
    for (const auto& sheets : faults) {
        Bench bench((Case(Edition::nec2023)));
        House house;
        house.sheets = sheets;
        const Findings findings = applied(house, bench);
        CAPTURE(sheets.front().content.value, sheets.front().first.value);
        REQUIRE(findings.size() == 1);
        CHECK(findings[0].rule == "house.numbering");
        CHECK_FALSE(findings[0].expected.empty());
    }
}

TEST_CASE("a note of the office stands in place of ours, takes it away, or follows") {
    Bench bench((Case(Edition::nec2023)));
    const auto before = bench.texts.notes.size();
    House house;
    HouseNote instead, gone, more;
    instead.id = "terminals";
    instead.text = "Torque as the office does.";
    gone.id = "listed";
    more.text = "Call the office first.";
    more.editions = {Edition::nec2017};
    house.notes = {instead, gone, more};
    CHECK(applied(house, bench).empty());
    CHECK(bench.texts.notes.size() == before);
    REQUIRE(find_note(bench.texts, "terminals"));
    CHECK(find_note(bench.texts, "terminals")->text == "Torque as the office does.");
    CHECK(find_note(bench.texts, "listed") == nullptr);
    CHECK(bench.texts.notes.back().text == "Call the office first.");
    CHECK(bench.texts.notes.back().use.editions == std::set<Edition>{Edition::nec2017});
}

TEST_CASE("a note with a condition or an id that nobody knows is a finding") {
    Bench bench((Case(Edition::nec2023)));
    House house;
    HouseNote strange, lost;
    strange.text = "When it rains.";
    strange.needs = {{"batteris", {}}};
    lost.id = "terminal";
    house.notes = {strange, lost};
    const Findings findings = applied(house, bench);
    REQUIRE(findings.size() == 2);
    CHECK(findings[0].message == "no condition is called \"batteris\"");
    CHECK(findings[1].hint == "did you mean \"terminals\"?");
}

TEST_CASE("a logo keeps its proportions and fits the cell") {
    Findings findings;
    const Logo logo = drawn_logo("<rect x=\"1\" y=\"1\" width=\"38\" height=\"8\"/>", findings);
    CHECK(findings.empty());
    REQUIRE_FALSE(logo.empty());
    // 40 x 10 mm: in 2 in by 1 in the width decides, in 8 in by 1 in the height.
    CHECK(logo_frame(logo, {inches(2), inches(1)}).size == Size{inches(2), inches(0.5)});
    CHECK(logo_frame(logo, {inches(8), inches(1)}).size == Size{inches(4), inches(1)});
    const Frame frame = logo_frame(logo, {inches(2), inches(1)});
    REQUIRE(frame.marks.size() == 1);
    CHECK(frame.marks[0].shows == "company:logo");
    const Box box = bounds(std::get<Path>(frame.marks[0].item));
    CHECK(box.low == Point{inches(0.05), inches(0.05)});
    CHECK(box.high == Point{inches(1.95), inches(0.45)});
}

TEST_CASE("a logo that reaches outside itself is refused") {
    for (const std::string inner :
         {"<image href=\"https://larkmoor.example/logo.png\"/>", "<script>alert(1)</script>",
          "<use href=\"other.svg#a\"/>", "<text x=\"1\" y=\"8\" font-size=\"4\">Office</text>",
          "<rect x=\"1\" y=\"1\" width=\"60\" height=\"8\"/>"}) {
        Findings findings;
        CAPTURE(inner);
        CHECK(drawn_logo(inner, findings).empty());
        CHECK(has(findings, Severity::error));
        CHECK(findings.front().span.known());
    }
}

TEST_CASE("a logo with a document type, and so with entities, is refused") {
    SourceFiles sources;
    House house;
    house.logo = HouseLogo{};
    house.logo->name = "logo";
    house.logo->file =
        sources.add("logo.svg", "<!DOCTYPE svg [<!ENTITY a SYSTEM \"file:///etc/hostname\">]>\n"
                                "<svg xmlns=\"http://www.w3.org/2000/svg\">&a;</svg>");
    Findings findings;
    CHECK(read_logo(house, sources, findings).empty());
    CHECK(has(findings, Severity::error));
}
