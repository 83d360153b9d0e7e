// Layouts and texts: what is shipped reads clean, and what is broken says where.
#include <fstream>

#include "catch.h"

#include "fixture.h"
#include "sheet/conditions.h"
#include "sheet/diagram_style.h"
#include "sheet/reading.h"

using namespace ohmfolio;
using namespace ohmfolio::sheets;

namespace {

std::string shipped(const std::string& name) {
    std::ifstream in(source_folder / name);
    return {std::istreambuf_iterator<char>(in), {}};
}

/// A folder of its own with one file in it, removed afterwards.
struct Folder {
    std::filesystem::path path;

    explicit Folder(const std::string& name)
        : path(std::filesystem::temp_directory_path() / ("ohmfolio-sheet-" + name)) {
        std::filesystem::create_directories(path);
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    ~Folder() {
        std::error_code ignored;
        std::filesystem::remove_all(path, ignored);
    }
    void write(const std::string& file, const std::string& text) const {
        std::ofstream(path / file) << text;
    }
};

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

/// What is said of the usual format when this is changed in it or in what formats share.
Findings faults_of_layout(const std::string& name, const std::string& from, const std::string& to) {
    const Folder folder(name);
    for (const std::string file : {"ansi-b.toml", "common.toml"}) {
        const std::string text = shipped("layouts/" + file);
        folder.write(file, holds(text, from) ? replaced(text, from, to) : text);
    }
    SourceFiles sources;
    Findings findings;
    CHECK_FALSE(read_layout(folder.path, {"ansi-b", {}}, sources, findings).has_value());
    REQUIRE_FALSE(findings.empty());
    CHECK(findings.front().span.known());
    return findings;
}

/// The findings of a format `a` in a folder with these files.
Findings findings_of(const std::string& name,
                     const std::vector<std::pair<std::string, std::string>>& files) {
    const Folder folder(name);
    for (const auto& [file, text] : files)
        folder.write(file, text);
    SourceFiles sources;
    Findings findings;
    CHECK_FALSE(read_layout(folder.path, {"a", {}}, sources, findings).has_value());
    return findings;
}

} // namespace

TEST_CASE("lengths and colours") {
    CHECK(parse_length("3/8 in") == inches(0.375));
    CHECK(parse_length("10.2 pt") == points(10.2));
    CHECK(parse_length("0.35 mm") == millimetres(0.35));
    CHECK_FALSE(parse_length("10"));
    CHECK_FALSE(parse_length("1/0 in"));
    CHECK_FALSE(parse_length("ten pt"));
    CHECK(parse_color("#C8102E") == Color{0xC8, 0x10, 0x2E});
    CHECK_FALSE(parse_color("red"));
    CHECK_FALSE(parse_color("#C8102"));
}

TEST_CASE("the shipped layout is ANSI B with lettering that cities accept") {
    SourceFiles sources;
    Findings findings;
    const auto layout = read_layout(source_folder / "layouts", {"ansi-b", {}}, sources, findings);
    REQUIRE(layout.has_value());
    CHECK(findings.empty());
    // ANSI B is 11 x 17 in; 10 point is the floor that plan checkers state.
    CHECK(layout->paper == Size{inches(17), inches(11)});
    CHECK(layout->lettering.body.size >= points(10));
    CHECK(read_diagram_style(source_folder / "layouts", layout->lettering, sources, findings)
              .has_value());
    CHECK(findings.empty());
}

TEST_CASE("faults of a layout are reported at their place") {
    CHECK(faults_of_layout("missing", "zone_rows = 4\n", "").front().rule == "sheet.key_missing");
    CHECK(faults_of_layout("length", "width = \"17 in\"", "width = \"17\"").front().rule ==
          "sheet.value");
    CHECK(faults_of_layout("content", "content = \"placards\"", "content = \"plackards\"")
              .front()
              .rule == "sheet.value");
    const Findings unknown = faults_of_layout("unknown", "zone_pen =", "zone_pin =");
    const bool suggests = std::any_of(unknown.begin(), unknown.end(), [](const Finding& finding) {
        return finding.rule == "sheet.key_unknown" && holds(finding.hint, "zone_pen");
    });
    CHECK(suggests);
    CHECK(faults_of_layout("syntax", "[paper]", "[paper").front().rule == "toml.syntax");
    CHECK(holds(faults_of_layout("cell", "\"designer\", ", "\"desinger\", ").front().message,
                "desinger"));
    CHECK(faults_of_layout("edge", "edge = \"right\"", "edge = \"top\"").front().expected ==
          "right or bottom");
    CHECK(holds(faults_of_layout("origin", "\"lower right\"", "\"lower left\"").front().expected,
                "upper left"));
    // 26 letters without I and O.
    CHECK(
        holds(faults_of_layout("rows", "zone_rows = 4", "zone_rows = 25").front().message, "row"));
}

TEST_CASE("a format joins its base key by key and puts its own in the place of the rest") {
    SourceFiles sources;
    Findings findings;
    const Folder folder("joined");
    folder.write("common.toml", shipped("layouts/common.toml"));
    folder.write("mine.toml", "base = \"common.toml\"\n[paper]\nwidth = \"20 in\"\n"
                              "height = \"12 in\"\n[border]\nzone_rows = 3\n"
                              "[[title_block.column]]\ncells = [\"project\", \"sheet\"]\n");
    const auto mine = read_layout(folder.path, {"mine", {}}, sources, findings);
    const auto usual = read_layout(source_folder / "layouts", {"ansi-b", {}}, sources, findings);
    REQUIRE(mine.has_value());
    REQUIRE(usual.has_value());
    CHECK(mine->paper == Size{inches(20), inches(12)});
    CHECK(mine->border.zone_rows == 3);
    CHECK(mine->border.left == usual->border.left);
    CHECK(mine->sheets.size() == usual->sheets.size());
    REQUIRE(mine->title_block.columns.size() == 1);
    CHECK(mine->title_block.columns[0].cells.size() == 2);
    CHECK(mine->title_block.depth == usual->title_block.depth);
    CHECK(sheet_formats(folder.path) == std::vector<std::string>{"mine"});
}

TEST_CASE("a base that cannot be had is a finding where it is named") {
    const auto circle = findings_of(
        "circle", {{"a.toml", "base = \"b.toml\"\n"}, {"b.toml", "x = 1\nbase = \"a.toml\"\n"}});
    REQUIRE(circle.size() == 1);
    CHECK(circle[0].rule == "sheet.base");
    CHECK(circle[0].span.begin.line == 2);
    CHECK(holds(circle[0].message, "a.toml"));
    const auto absent = findings_of("absent", {{"a.toml", "base = \"no.toml\"\n"}});
    REQUIRE(absent.size() == 1);
    CHECK(holds(absent[0].message, "no.toml"));
    CHECK(absent[0].span.begin.column == 8);
    for (const char* base : {"7", "\"\"", "\"../a.toml\""}) {
        const auto odd = findings_of("odd", {{"a.toml", std::string("base = ") + base + "\n"}});
        REQUIRE(odd.size() == 1);
        CHECK(odd[0].message == "the base is not the name of a file");
    }
    const auto broken = findings_of("broken", {{"a.toml", "base = \"b.toml\"\n"}, {"b.toml", "["}});
    REQUIRE_FALSE(broken.empty());
    CHECK(broken[0].rule == "toml.syntax");
}

TEST_CASE("a format that is not there is answered with those that are") {
    SourceFiles sources;
    Findings findings;
    const Span place{0, {3, 9}, {3, 17}};
    CHECK_FALSE(read_layout(source_folder / "layouts", {"ansi-e", place}, sources, findings));
    CHECK_FALSE(
        read_layout(source_folder / "layouts", {"../layouts/ansi-b", {}}, sources, findings));
    CHECK_FALSE(read_layout(source_folder / "layouts", {"common", {}}, sources, findings));
    REQUIRE(findings.size() >= 3);
    CHECK(findings[0].rule == "sheet.format");
    CHECK(findings[0].span == place);
    for (const char* format : {"a1", "a3", "ansi-a", "ansi-b", "ansi-d", "arch-d"})
        CHECK(holds(findings[0].expected, format));
    CHECK_FALSE(holds(findings[0].expected, "callouts"));
    CHECK_FALSE(holds(findings[0].expected, "common"));
    CHECK(holds(findings[0].hint, "ansi-"));
    CHECK(findings[1].rule == "sheet.format");
}

TEST_CASE("the formats have the papers of their standards and lettering that cities accept") {
    // ASME Y14.1 (A, B, D), the architectural series (ARCH D) and ISO 216 (A3, A1), all landscape.
    const std::vector<std::pair<std::string, Size>> papers = {
        {"ansi-a", {inches(11), inches(8.5)}},        {"ansi-b", {inches(17), inches(11)}},
        {"ansi-d", {inches(34), inches(22)}},         {"arch-d", {inches(36), inches(24)}},
        {"a3", {millimetres(420), millimetres(297)}}, {"a1", {millimetres(841), millimetres(594)}}};
    CHECK(sheet_formats(source_folder / "layouts").size() == papers.size());
    for (const auto& [format, paper] : papers) {
        CAPTURE(format);
        SourceFiles sources;
        Findings findings;
        const auto layout = read_layout(source_folder / "layouts", {format, {}}, sources, findings);
        REQUIRE(layout.has_value());
        CHECK(layout->paper == paper);
        const LetteringLayout& lettering = layout->lettering;
        for (const TextStyle& style :
             {lettering.body, lettering.strong, lettering.heading, lettering.title,
              lettering.banner, lettering.sheet_number, lettering.draft, lettering.zone}) {
            CHECK(style.size >= points(10));
            // The capitals of Roboto Condensed are 0.711 em high (1456 of 2048 units).
            CHECK(scaled(style.size, 1456.0 / 2048) >= inches(0.10));
        }
    }
}

TEST_CASE("a missing data file is a finding and no packet") {
    Bench bench((example::Case(Edition::nec2023)));
    PacketOptions options = shipped_options();
    options.layouts = source_folder / "src/sheet"; // a folder without formats
    Findings findings;
    const Packet packet = make_packet(bench.job_case.system, bench.job_case.study, bench.symbols,
                                      options, *bench.measure, bench.sources, findings);
    CHECK(packet.sheets.empty());
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].rule == "sheet.format");
}

TEST_CASE("texts that name an unknown condition, place or signal are refused") {
    const Folder folder("texts");
    for (const char* name : {"notes.toml", "abbreviations.toml", "placards.toml"})
        folder.write(name, shipped(std::string("src/sheet/texts/") + name));
    const std::string placards = shipped("src/sheet/texts/placards.toml");
    const auto rule = [&](const std::string& from, const std::string& to) {
        folder.write("placards.toml", replaced(placards, from, to));
        SourceFiles sources;
        Findings findings;
        CHECK_FALSE(read_texts(folder.path, sources, findings).has_value());
        REQUIRE_FALSE(findings.empty());
        CHECK(findings.front().span.known());
        return findings.front().message;
    };
    CHECK(holds(rule("needs = [\"roof_pv\"]", "needs = [\"roof_tv\"]"), "roof_tv"));
    CHECK(holds(rule("at = \"pv_disconnects\"", "at = \"garden\""), "garden"));
    CHECK(holds(rule("signal = \"warning\"", "signal = \"alarm\""), "alarm"));
    CHECK(holds(rule("id = \"pv-disconnect\"", "id = \"pv-line-load\""), "pv-line-load"));
}

TEST_CASE("conditions have names of their own") {
    std::set<std::string_view> names;
    for (const Condition& condition : conditions())
        CHECK(names.insert(condition.name).second);
    CHECK(find_condition("storage") != nullptr);
    CHECK(find_condition("Storage") == nullptr);
}
