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

Findings faults_of_layout(const std::string& name, const std::string& from, const std::string& to) {
    const Folder folder(name);
    folder.write("ansi-b.toml", replaced(shipped("layouts/ansi-b.toml"), from, to));
    SourceFiles sources;
    Findings findings;
    CHECK_FALSE(read_layout(folder.path, "ansi-b", sources, findings).has_value());
    REQUIRE_FALSE(findings.empty());
    CHECK(findings.front().span.known());
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
    const auto layout = read_layout(source_folder / "layouts", "ansi-b", sources, findings);
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
}

TEST_CASE("a missing data file is a finding and no packet") {
    Bench bench((example::Case(Edition::nec2023)));
    PacketOptions options = shipped_options();
    options.format = "arch-x";
    Findings findings;
    const Packet packet = make_packet(bench.job_case.system, bench.job_case.study, bench.symbols,
                                      options, *bench.measure, bench.sources, findings);
    CHECK(packet.sheets.empty());
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].rule == "sheet.file_missing");
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
