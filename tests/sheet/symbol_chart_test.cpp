// The chart of symbols: every one of the folder, in order, none overlooked.
#include "catch.h"

#include "fixture.h"
#include "sheet/symbol_chart.h"

using namespace ohmfolio;
using namespace ohmfolio::sheets;

namespace {

struct ChartBench {
    SourceFiles sources;
    Findings findings;
    std::unique_ptr<TextMeasure> measure = fixed_measure();
    SymbolSet symbols = SymbolSet::load(source_folder / "symbols", sources, findings);

    Packet chart(const std::string& format = "ansi-b") {
        PacketOptions options = shipped_options();
        options.format = {format, {}};
        return make_symbol_chart(symbols, options, *measure, sources, findings);
    }
    std::string words(const std::string& format = "ansi-b") {
        std::string all;
        for (const Sheet& sheet : chart(format).sheets)
            all += words_of(sheet.frame);
        return all;
    }
};

int rings(const Packet& packet) {
    int count = 0;
    for (const Sheet& sheet : packet.sheets)
        for (const Mark& mark : sheet.frame.marks)
            count += mark.role == Role::overlay ? 1 : 0;
    return count;
}

} // namespace

TEST_CASE("the chart names every symbol and rings every terminal, in every format") {
    for (const std::string& format : sheet_formats(source_folder / "layouts")) {
        CAPTURE(format);
        ChartBench bench;
        const Packet chart = bench.chart(format);
        REQUIRE(bench.findings.empty());
        std::string words;
        for (const Sheet& sheet : chart.sheets)
            words += words_of(sheet.frame);
        int ports = 0;
        for (const auto& [name, symbol] : bench.symbols.all()) {
            CAPTURE(name);
            CHECK(holds(words, " " + name + ".svg "));
            ports += static_cast<int>(symbol.ports.size());
        }
        // One more on each sheet, in the key.
        CHECK(rings(chart) == ports + static_cast<int>(chart.sheets.size()));
        CHECK_FALSE(holds(words, "FURTHER SYMBOLS")); // all shipped ones have their group
    }
}

TEST_CASE("a symbol that no group names follows at the end, with its size, pens, ports, slots") {
    ChartBench bench;
    Symbol own = *bench.symbols.find("match-mark");
    own.name = "heat-pump";
    own.title = "HEAT PUMP";
    bench.symbols.add(own);
    const std::string words = bench.words();
    const auto further = words.find("FURTHER SYMBOLS");
    REQUIRE(further != std::string::npos);
    const std::string rest = words.substr(further);
    for (const char* part :
         {"HEAT PUMP", "heat-pump.svg", "20 × 7 mm, PEN 0.35", "port end", "slot reference"}) {
        CAPTURE(part);
        CHECK(holds(rest, part));
    }
}

TEST_CASE("a symbol too large for its place is shown smaller, and the chart says so") {
    ChartBench bench;
    Symbol own = *bench.symbols.find("switch-open"); // 10 mm wide
    own.name = "wide-one";
    own.size.width = millimetres(56);
    bench.symbols.add(own);
    CHECK(holds(bench.words(), "SHOWN AT 50 %"));
}

TEST_CASE("sheets of the chart are numbered as general ones, under a title block of their own") {
    ChartBench bench;
    const Packet chart = bench.chart();
    REQUIRE(chart.sheets.size() > 1);
    CHECK(chart.sheets[0].number == "G-001");
    CHECK(chart.sheets[1].number == "G-002");
    const std::string words = words_of(chart.sheets[0].frame);
    CHECK(holds(words, "GRAPHIC SYMBOLS"));
    CHECK(holds(words, "1 OF " + std::to_string(chart.sheets.size())));
    // It belongs to no system: what a job would say is not there.
    for (const char* absent : {"DESIGNED BY", "JURISDICTION AND UTILITY", "SYSTEM SIZE", "NEC 20"})
        CHECK_FALSE(holds(words, absent));
}
