/// One description on every paper: the format is chosen in the file or on the command line.
#include <algorithm>
#include <regex>

#include "app/stages.h"
#include "catch.h"
#include "code/code_book.h"
#include "drawing/lint.h"
#include "packet.h"
#include "render/render.h"
#include "sheet/layout.h"
#include "sheet/packet.h"

using namespace ohmfolio;
using namespace ohmfolio::test;

namespace {

const std::filesystem::path layouts = OHMFOLIO_DATA "/layouts";

const Lettering& house_lettering() {
    static const Lettering lettering(layouts / "lettering");
    return lettering;
}

/// Every sheet but the diagram, which has tests of its own.
void check_sheets(const Packet& packet) {
    CHECK(packet.sheets.size() >= 5);
    for (const Sheet& sheet : packet.sheets) {
        if (sheet.title.starts_with("SINGLE-LINE DIAGRAM"))
            continue;
        for (const Finding& fault : lint(sheet, house_lettering().measure()))
            FAIL_CHECK(fault.rule << " " << fault.message);
    }
}

/// The paper that an SVG states: "34in".
std::string paper_width(const std::filesystem::path& svg) {
    std::smatch found;
    const std::string text = test::read_file(svg);
    REQUIRE(std::regex_search(text, found, std::regex("<svg[^>]* width=\"([^\"]*)\"")));
    return found[1];
}

std::string general_sheet(const Command& options, const std::string& sheet_key = {}) {
    const TemporaryFolder folder;
    const auto system = copied(ashgrove(), folder.path());
    if (!sheet_key.empty())
        write_file(system, "sheet = \"" + sheet_key + "\"\n" + test::read_file(system));
    const std::string out = (folder.path() / "out").string();
    Command command{"draw", system.string(), "--out", out};
    command.insert(command.end(), options.begin(), options.end());
    const Outcome drawn = run_ohmfolio(command);
    CAPTURE(drawn.err);
    REQUIRE(drawn.exit_code == 0);
    return paper_width(folder.path() / "out" / "ashgrove-G-001.svg");
}

} // namespace

TEST_CASE("all sheets of the house but the diagram are free of drafting faults in every format (at "
          "length)") {
    SourceFiles sources;
    Findings findings;
    auto studied = read_and_study(ashgrove(), {OHMFOLIO_DATA}, sources, findings);
    REQUIRE(studied);
    const SymbolSet symbols = SymbolSet::load(OHMFOLIO_DATA "/symbols", sources, findings);
    const auto check = [&](const std::string& format, Edition edition, bool draft) {
        CAPTURE(format, name(edition), draft);
        PacketOptions options;
        options.layouts = layouts;
        options.format = {format, {}};
        options.draft = draft;
        System system = studied->system;
        system.edition = edition;
        const CodeBook book(edition);
        Findings drawn;
        const Packet packet = make_packet(system, make_study(system, book), symbols, options,
                                          house_lettering().measure(), sources, drawn);
        for (const Finding& finding : drawn) {
            if (finding.rule.starts_with("sheet.") && finding.severity > Severity::advice)
                FAIL_CHECK(finding.rule << " " << finding.message);
        }
        check_sheets(packet);
    };
    for (const std::string& format : sheets::sheet_formats(layouts)) {
        for (const Edition edition : all_editions)
            check(format, edition, false);
        // A draft bears a band and a further cell in the title block.
        check(format, Edition::nec2023, true);
    }
}

TEST_CASE("the format is the one of the description, and the command line wins") {
    // ANSI B is 17 in wide, ANSI D 34 in, ARCH D 36 in.
    const std::string usual = general_sheet({});
    const std::string described = general_sheet({}, "ansi-d");
    const std::string asked = general_sheet({"--sheet", "arch-d"}, "ansi-d");
    CHECK(usual.starts_with("17"));
    CHECK(described.starts_with("34"));
    CHECK(asked.starts_with("36"));
}

TEST_CASE("a format that nobody knows is answered at its place with those that exist") {
    const TemporaryFolder folder;
    const auto system = copied(ashgrove(), folder.path());
    write_file(system, "sheet = \"ansi-q\"\n" + test::read_file(system));
    const std::string out = (folder.path() / "out").string();
    const Outcome described = run_ohmfolio({"draw", system.string(), "--out", out});
    CHECK(described.exit_code == 2);
    CHECK(described.err.find("ashgrove.toml:1:9") != std::string::npos);
    for (const char* part : {"no sheet format is called \"ansi-q\"", "ansi-a", "arch-d", "a1",
                             "did you mean \"ansi-"}) {
        CAPTURE(part);
        CHECK(described.err.find(part) != std::string::npos);
    }
    const Outcome asked =
        run_ohmfolio({"draw", ashgrove().string(), "--out", out, "--sheet", "b5"});
    CHECK(asked.exit_code == 2);
    CHECK(asked.err.find("no sheet format is called \"b5\"") != std::string::npos);
    CHECK_FALSE(std::filesystem::exists(out));
}
