#include "catch.h"

#include <algorithm>
#include <filesystem>

#include "symbol/lint_symbol.h"
#include "symbol/symbol.h"

using namespace ohmfolio;

namespace {

const std::filesystem::path folder = std::filesystem::path(OHMFOLIO_SOURCE) / "symbols";

SymbolSet shipped() {
    SourceFiles sources;
    Findings findings;
    auto set = SymbolSet::load(folder, sources, findings);
    std::string messages;
    for (const auto& finding : findings)
        messages += print(finding, sources, false) + "\n";
    INFO(messages);
    REQUIRE(findings.empty());
    return set;
}

bool on_grid(Length length) { return length.nm % 500'000 == 0; }

} // namespace

TEST_CASE("every shipped symbol loads without findings") {
    const auto set = shipped();
    std::size_t files = 0;
    for (const auto& entry : std::filesystem::directory_iterator(folder))
        files += entry.path().extension() == ".svg" ? 1U : 0U;
    CHECK(set.all().size() == files);
    CHECK(files >= 75);
}

TEST_CASE("shipped symbols have distinct titles in capitals, for the legend") {
    std::vector<std::string> titles;
    const auto set = shipped();
    for (const auto& [name, symbol] : set.all())
        titles.push_back(symbol.title);
    std::sort(titles.begin(), titles.end());
    CHECK(std::adjacent_find(titles.begin(), titles.end()) == titles.end());
    for (const auto& title : titles)
        CHECK(
            std::none_of(title.begin(), title.end(), [](char c) { return c >= 'a' && c <= 'z'; }));
}

TEST_CASE("every shipped symbol passes the lint that a drafter's own must pass") {
    // Terminals on the drafting grid and on the outline, left and right at one height; a symbol
    // that reaches out of its box is not loaded at all.
    const auto set = shipped();
    Findings findings;
    for (const auto& [name, symbol] : set.all())
        lint_symbol(symbol, findings);
    for (const Finding& finding : findings)
        FAIL_CHECK(finding.subject << ": " << finding.message);
}

TEST_CASE("ports of shipped symbols lie on the drafting grid of 0.5 mm") {
    // A splice is a dot of its own size, met at its edge.
    const auto set = shipped();
    for (const auto& [name, symbol] : set.all())
        for (const SymbolPort& port : symbol.ports) {
            CAPTURE(name, port.name);
            CHECK((name == "splice" || (on_grid(port.at.x) && on_grid(port.at.y))));
        }
}

TEST_CASE("shipped symbols are drawn with the pens of the house in black and white") {
    const auto set = shipped();
    for (const auto& [name, symbol] : set.all()) {
        CAPTURE(name);
        for (const Mark& mark : symbol.art.marks) {
            const auto* path = std::get_if<Path>(&mark.item);
            if (!path || !path->stroked)
                continue;
            const Length pen = path->stroke.width;
            CHECK((pen == thin_pen || pen == medium_pen || pen == wide_pen));
            CHECK(path->stroke.color == black);
        }
    }
}

TEST_CASE("symbols of a kind have the same terminals, so that one can stand for another") {
    const auto set = shipped();
    for (const char* name : {"circuit-breaker",
                             "circuit-breaker-2p",
                             "circuit-breaker-3p",
                             "main-breaker",
                             "fuse",
                             "switch-open",
                             "switch-2p",
                             "switch-3p",
                             "dc-switch",
                             "fused-switch",
                             "fused-switch-2p",
                             "fused-switch-3p",
                             "transfer-contact",
                             "contactor",
                             "meter",
                             "production-meter",
                             "meter-socket-adapter",
                             "transformer",
                             "transformer-delta-wye",
                             "transformer-wye-wye"}) {
        CAPTURE(name);
        const Symbol* symbol = set.find(name);
        REQUIRE(symbol);
        REQUIRE(symbol->port("load"));
        REQUIRE(symbol->port("line"));
        CHECK(symbol->port("load")->side == Side::left);
        CHECK(symbol->port("line")->side == Side::right);
    }
    for (const char* name : {"ground", "ground-rod", "concrete-electrode", "water-pipe",
                             "ground-ring", "ground-plate", "metal-frame"}) {
        CAPTURE(name);
        REQUIRE(set.find(name));
        REQUIRE(set.find(name)->port("earth"));
        CHECK(set.find(name)->port("earth")->side == Side::top);
    }
}
