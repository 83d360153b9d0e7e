/// The chart of symbols, and a drafter's own symbols in chart and drawing.
#include "catch.h"
#include "packet.h"

using namespace ohmfolio::test;

namespace {

/// A circuit breaker as a plain box: 10 x 5 mm, with the terminals of the shipped one.
const std::string box_breaker =
    "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 10 5\" width=\"10mm\" "
    "height=\"5mm\">\n"
    "  <title>Breaker as the office draws it</title>\n"
    "  <g data-symbol=\"circuit-breaker\" class=\"medium\" stroke=\"black\" fill=\"none\">\n"
    "    <rect x=\"2\" y=\"2.5\" width=\"6\" height=\"2\"/>\n"
    "    <line x1=\"0\" y1=\"3.5\" x2=\"2\" y2=\"3.5\"/>\n"
    "    <line x1=\"8\" y1=\"3.5\" x2=\"10\" y2=\"3.5\"/>\n"
    "    <circle data-port=\"load\" data-side=\"left\" cx=\"0\" cy=\"3.5\" r=\"0.25\" "
    "stroke=\"none\" fill=\"none\"/>\n"
    "    <circle data-port=\"line\" data-side=\"right\" cx=\"10\" cy=\"3.5\" r=\"0.25\" "
    "stroke=\"none\" fill=\"none\"/>\n"
    "  </g>\n</svg>\n";

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
    return text;
}

struct Own {
    TemporaryFolder folder;
    std::filesystem::path symbols = folder.path() / "mine";
    std::filesystem::path out = folder.path() / "out";

    Own() { std::filesystem::create_directory(symbols); }
    void add(const std::string& name, const std::string& text) const {
        write_file(symbols / (name + ".svg"), text);
    }
    Outcome chart(const Command& more = {}) const {
        Command command{"symbols", "--out", out.string(), "--symbols", symbols.string()};
        command.insert(command.end(), more.begin(), more.end());
        return run_ohmfolio(command);
    }
    Outcome draw() const {
        return run_ohmfolio(
            {"draw", ashgrove().string(), "--out", out.string(), "--symbols", symbols.string()});
    }
};

} // namespace

TEST_CASE(
    "the chart holds every symbol of the folder, in a PDF and an SVG a sheet, without faults") {
    const TemporaryFolder folder;
    const std::string out = (folder.path() / "chart").string();
    const Outcome drawn = run_ohmfolio({"symbols", "--out", out});
    CHECK(drawn.exit_code == 0);
    CHECK(drawn.err == "");
    const std::string text = joined(page_texts(folder.path() / "chart" / "symbols.pdf"));
    for (const std::string& file : names_in(OHMFOLIO_DATA "/symbols")) {
        CAPTURE(file);
        CHECK(text.find(flattened(file)) != std::string::npos);
    }
    CHECK(names_in(out).front() == "symbols-G-001.svg");
    // Drawn again on larger paper it has fewer sheets, and none is left over from before.
    const auto before = names_in(out).size();
    REQUIRE(run_ohmfolio({"symbols", "--out", out, "--sheet", "ansi-d"}).exit_code == 0);
    CHECK(names_in(out).size() < before);
}

TEST_CASE("a symbol dropped into a folder of one's own shows in the chart and in the drawing") {
    const Own own;
    own.add("circuit-breaker", box_breaker);
    own.add("heat-pump", replaced(replaced(box_breaker, "circuit-breaker", "heat-pump"),
                                  "Breaker as the office draws it", "Heat pump"));
    const Outcome chart = own.chart();
    CAPTURE(chart.err);
    CHECK(chart.exit_code == 0);
    const std::string text = joined(page_texts(own.out / "symbols.pdf"));
    CHECK(text.find("BREAKER AS THE OFFICE DRAWS IT") != std::string::npos);
    CHECK(text.find("HEAT PUMP") != std::string::npos);
    CHECK(text.find("FURTHER SYMBOLS") != std::string::npos);

    const Outcome drawn = own.draw();
    CAPTURE(drawn.err);
    CHECK(drawn.exit_code == 0);
    // Its title in the legend, its art on the diagram.
    const std::string legend =
        read_file(own.out / "ashgrove-G-001.svg") + read_file(own.out / "ashgrove-G-002.svg");
    CHECK(flattened(legend).find("BREAKER AS THE") != std::string::npos);
    CHECK(read_file(own.out / "ashgrove-E-601.svg") != read_file(example_packet().svg("E-601")));
}

TEST_CASE("broken symbols are told all at once, with file, line, what and what would be right") {
    const Own own;
    own.add("circuit-breaker", replaced(box_breaker, "<rect", "<rekt"));
    own.add("fuse", replaced(box_breaker, "\"circuit-breaker\"", "\"fuze\""));
    own.add("meter", replaced(replaced(box_breaker, "circuit-breaker", "meter"),
                              "data-port=\"line\"", "data-port=\"grid\""));
    for (const Outcome& outcome : {own.chart(), own.draw()}) {
        CHECK(outcome.exit_code == 2);
        for (const char* part :
             {"circuit-breaker.svg:4:6", "<rekt> cannot stand here", "did you mean <rect>?",
              "fuse.svg:3:", "the symbol is not named as its file is", "data-symbol=\"fuse\"",
              "meter.svg:1:", "the diagram needs the port \"line\"", "expected: "}) {
            CAPTURE(part, outcome.err);
            CHECK(outcome.err.find(part) != std::string::npos);
        }
        CHECK_FALSE(std::filesystem::exists(own.out));
    }
    const Outcome nowhere = run_ohmfolio(
        {"symbols", "--out", own.out.string(), "--symbols", (own.folder.path() / "no").string()});
    CHECK(nowhere.exit_code == 2);
    CHECK(nowhere.err.find("cannot read the folder of symbols") != std::string::npos);
}
