// The conductors beside the single-line diagram. That a diagram with bare tags is sent back is
// common practice, no source.
#include <filesystem>
#include <fstream>
#include <numeric>

#include "catch.h"

#include "fixture.h"
#include "sheet/conductor_words.h"

using namespace ohmfolio;
using namespace ohmfolio::sheets;
using example::Case;

namespace {

namespace fs = std::filesystem;

std::string diagram_words(Bench& bench) {
    const auto follows = [](std::size_t pages) { return "E-60" + std::to_string(pages + 1); };
    const Job job = bench.job();
    const PageNames names{[](std::size_t) { return std::string("E-601"); },
                          [](Point) { return std::string("A1"); }};
    std::string words;
    for (const Frame& page : diagram_pages(job, {}, names, follows).pages)
        words += words_of(page);
    return words;
}

} // namespace

TEST_CASE("beside the diagram stands nothing that says nothing") {
    const Bench bench{Case()};
    const System& system = bench.job_case.system;
    std::vector<int> all(system.circuits.size());
    std::iota(all.begin(), all.end(), 0);
    const Table key = conductor_key(system, bench.job_case.study, all);
    std::set<std::string> tags;
    for (const Row& row : key.rows)
        tags.insert(row.cells.front().text);
    CHECK(tags.contains("C16 (E)"));
    CHECK_FALSE(tags.contains("C17 (E)")); // by the utility
    CHECK_FALSE(tags.contains("G1"));      // its size is written at its line
}

TEST_CASE("the diagram of the revision has room for its conductors") {
    Bench bench(Case("examples/tolliver-bend/ashgrove-revision-1.toml"));
    const std::string words = diagram_words(bench);
    CHECK(holds(words, "CONDUCTORS TAG CONDUCTORS EGC RACEWAY OCPD"));
    CHECK(holds(words, "G1 4 AWG CU GEC"));
    CHECK(bench.findings.empty());
}

TEST_CASE("where the conductors find no room, the sheet that has them is named") {
    Bench bench{Case()};
    bench.layout.table.body.size = points(30);
    CHECK(holds(diagram_words(bench), "CONDUCTORS: SEE E-602"));
    REQUIRE(bench.findings.size() == 1);
    CHECK(bench.findings.front().rule == "sheet.no_room");
    CHECK(bench.findings.front().severity == Severity::advice);
}

TEST_CASE("the sheet that a diagram names for its conductors has them") {
    // A format whose tables find no room beside any diagram.
    const fs::path folder = fs::temp_directory_path() / "ohmfolio-sheet-airy";
    fs::create_directories(folder);
    std::ofstream(folder / "airy.toml") << "base = \"ansi-b.toml\"\n"
                                           "[paper]\nwidth = \"17 in\"\nheight = \"11 in\"\n"
                                           "[table]\npad_y = \"0.3 in\"\n";
    Bench bench{Case()};
    PacketOptions options = shipped_options();
    options.own_layouts = folder;
    options.format = {"airy", {}};
    const Packet packet = make_packet(bench.job_case.system, bench.job_case.study, bench.symbols,
                                      options, *bench.measure, bench.sources, bench.findings);
    fs::remove_all(folder);
    const auto numbered = [&](std::string_view number) -> const Frame& {
        return std::ranges::find(packet.sheets, number, &Sheet::number)->frame;
    };
    REQUIRE_FALSE(packet.sheets.empty());
    // In the lettering of these tests the diagram goes on on a second sheet.
    REQUIRE(holds(words_of(numbered("E-601")), "CONDUCTORS: SEE E-603"));
    CHECK(holds(words_of(numbered("E-603")), "CONDUCTOR SCHEDULE"));
}
