// A drafter's own symbols, laid over those of the program.
#include <fstream>
#include <unistd.h>

#include "catch.h"

#include "symbol/lint_symbol.h"
#include "symbol/symbol.h"

using namespace ohmfolio;

namespace {

/// A folder of its own, removed afterwards.
struct Folder {
    std::filesystem::path path;

    explicit Folder(const std::string& name)
        : path(std::filesystem::temp_directory_path() /
               ("ohmfolio-symbol-" + std::to_string(::getpid()) + "-" + name)) {
        std::filesystem::remove_all(path);
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

std::string port(const std::string& name, const std::string& side, const std::string& at) {
    return "    <circle data-port=\"" + name + "\" data-side=\"" + side + "\" " + at +
           " r=\"0.25\" stroke=\"none\" fill=\"none\"/>\n";
}

const std::string load = port("load", "left", "cx=\"0\" cy=\"3\"");
const std::string line = port("line", "right", "cx=\"10\" cy=\"3\"");
const std::string through = "    <line x1=\"0\" y1=\"3\" x2=\"10\" y2=\"3\"/>\n";

/// 10 x 6 mm with this inside.
std::string symbol_text(const std::string& name, const std::string& inside,
                        const std::string& root = "") {
    return "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 10 6\" width=\"10mm\" "
           "height=\"6mm\"" +
           root + ">\n  <title>Drawn by hand</title>\n  <g data-symbol=\"" + name +
           "\" class=\"medium\" stroke=\"black\" fill=\"none\">\n" + inside + "  </g>\n</svg>\n";
}

struct Laid {
    SymbolSet set;
    SourceFiles sources;
    Findings findings;
};

/// The shipped symbols with one file laid over them.
Laid laid_over(const std::string& name, const std::string& text) {
    const Folder folder(name);
    folder.write(name + ".svg", text);
    Laid laid;
    laid.set = SymbolSet::load(std::filesystem::path(OHMFOLIO_SOURCE) / "symbols", laid.sources,
                               laid.findings);
    REQUIRE(laid.findings.empty());
    laid.set.lay_over(folder.path, laid.sources, laid.findings);
    return laid;
}

std::vector<std::string> rules(const Findings& findings) {
    std::vector<std::string> list;
    for (const Finding& finding : findings)
        list.push_back(finding.rule);
    return list;
}

} // namespace

TEST_CASE("a symbol of the drafter's takes the place of the shipped one, another is added") {
    const Laid replaced = laid_over("fuse", symbol_text("fuse", through + load + line));
    CHECK(replaced.findings.empty());
    REQUIRE(replaced.set.find("fuse"));
    CHECK(replaced.set.find("fuse")->title == "DRAWN BY HAND");
    CHECK(replaced.set.find("meter")->title == "UTILITY METER");
    const Laid added = laid_over("heat-pump", symbol_text("heat-pump", through + load));
    CHECK(added.findings.empty());
    CHECK(added.set.find("heat-pump") != nullptr);
    CHECK(added.set.find("fuse")->title == "FUSE");
}

TEST_CASE("what takes a symbol's place has what the diagram asks of it") {
    const auto fault = [](const std::string& name, const std::string& inside,
                          const std::string& root = "") {
        const Laid laid = laid_over(name, symbol_text(name, inside, root));
        REQUIRE(laid.findings.size() == 1);
        const Finding& finding = laid.findings.front();
        CHECK(finding.rule == "symbol.replaces");
        CHECK(finding.severity == Severity::error);
        CHECK(finding.span.known());
        CHECK_FALSE(finding.expected.empty());
        return finding;
    };
    const Finding missing = fault("fuse", through + load);
    CHECK(missing.message == "the diagram needs the port \"line\" of this symbol");
    CHECK(missing.span.begin.line == 1);
    const Finding side =
        fault("fuse", through + load + "    <line x1=\"5\" y1=\"0\" x2=\"5\" y2=\"3\"/>\n" +
                          port("line", "top", "cx=\"5\" cy=\"0\""));
    CHECK(side.message == "port \"line\" is top, where the diagram does not look for it");
    CHECK(side.span.begin.line == 7);
    const Finding slot = fault("match-mark", through + port("end", "left", "cx=\"0\" cy=\"3\""));
    CHECK(slot.message == "the diagram letters the slot \"reference\" of this symbol");
    const Finding kind =
        fault("current-transformer", through + port("centre", "left", "cx=\"0\" cy=\"3\"") +
                                         "    <line x1=\"5\" y1=\"0\" x2=\"5\" y2=\"3\"/>\n" +
                                         port("secondary", "top", "cx=\"5\" cy=\"0\""));
    CHECK(kind.expected == "data-kind=\"mark\" on <svg>");
}

TEST_CASE("terminals that a run would not meet well are warned of, at their place") {
    const auto warned = [](const std::string& inside, int line_of_port = 5) {
        const Laid laid = laid_over("heat-pump", symbol_text("heat-pump", inside));
        REQUIRE(laid.findings.size() == 1);
        CHECK(laid.findings[0].severity == Severity::warning);
        CHECK(laid.findings[0].span.begin.line == line_of_port);
        CHECK(laid.set.find("heat-pump") != nullptr);
        return laid.findings[0].rule;
    };
    CHECK(warned("    <line x1=\"0\" y1=\"2.8\" x2=\"4\" y2=\"2.8\"/>\n" +
                 port("supply", "left", "cx=\"0\" cy=\"2.8\"")) == "symbol.port_grid");
    CHECK(warned("    <line x1=\"1\" y1=\"3\" x2=\"4\" y2=\"3\"/>\n" +
                 port("supply", "left", "cx=\"0\" cy=\"3\"")) == "symbol.port_loose");
    CHECK(warned("    <polyline points=\"0,2 10,4\"/>\n" +
                     port("line", "right", "cx=\"10\" cy=\"4\"") +
                     port("load", "left", "cx=\"0\" cy=\"2\""),
                 6) == "symbol.port_height");
}

TEST_CASE("ink beyond the box is refused, at the element") {
    const Laid laid = laid_over(
        "heat-pump",
        symbol_text("heat-pump", through + "    <circle cx=\"8\" cy=\"3\" r=\"2.5\"/>\n" + load));
    REQUIRE(laid.findings.size() == 1);
    CHECK(laid.findings[0].rule == "symbol.outside");
    CHECK(laid.findings[0].span.begin.line == 5);
    CHECK(laid.set.find("heat-pump") == nullptr);
    // A quarter circle whose handles alone leave the box is inside it.
    const Laid arc = laid_over(
        "heat-pump",
        symbol_text("heat-pump", through + "    <path d=\"M5,6 A3,3 0 0 1 5,0\"/>\n" + load));
    CHECK(arc.findings.empty());
}

TEST_CASE("all faults of all files come out at once") {
    const Folder folder("many");
    folder.write("a.svg", "<svg");
    folder.write("b.svg", symbol_text("c", through + load));
    folder.write("fuse.svg", symbol_text("fuse", through + line));
    folder.write("notes.txt", "not a symbol");
    SourceFiles sources;
    Findings findings;
    auto set =
        SymbolSet::load(std::filesystem::path(OHMFOLIO_SOURCE) / "symbols", sources, findings);
    set.lay_over(folder.path, sources, findings);
    CHECK(rules(findings) ==
          std::vector<std::string>{"symbol.xml", "symbol.name", "symbol.replaces"});
    for (const Finding& finding : findings)
        CHECK(finding.span.known());
}

TEST_CASE("a folder of one's own that is not there is a finding that says so") {
    SourceFiles sources;
    Findings findings;
    SymbolSet set;
    set.lay_over("no/such/folder", sources, findings);
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].message.find("no/such/folder") != std::string::npos);
    CHECK_FALSE(findings[0].expected.empty());
}
