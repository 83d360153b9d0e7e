#include "catch.h"

#include <string>
#include <vector>

#include "symbol/symbol.h"

using namespace ohmfolio;

namespace {

constexpr std::string_view whole =
    R"(<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 5" width="10mm" height="5mm">
  <title>Circuit breaker</title>
  <g data-symbol="breaker" class="medium" stroke="black" stroke-width="0.35" fill="none">
    <line x1="0" y1="3" x2="10" y2="3"/>
    <circle data-port="load" data-side="left" cx="0" cy="3" r="0.25" stroke="none" fill="none"/>
    <circle data-port="line" data-side="right" cx="10" cy="3" r="0.25" stroke="none" fill="none"/>
  </g>
</svg>
)";

struct Read {
    std::optional<Symbol> symbol;
    Findings findings;
};

Read read(std::string text) {
    SourceFiles sources;
    Read result;
    const int file = sources.add("breaker.svg", std::move(text));
    result.symbol = parse_symbol("breaker", file, sources, result.findings);
    return result;
}

std::string replaced(std::string_view from, std::string_view to) {
    std::string text(whole);
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

/// One change to the sound symbol, and the one message that it must give.
struct Fault {
    std::string_view from, to;
    std::string_view rule, message;
    int line, column;
};

} // namespace

TEST_CASE("a sound symbol gives its title, size, art and ports without findings") {
    const auto [symbol, findings] = read(std::string(whole));
    CHECK(findings.empty());
    REQUIRE(symbol);
    CHECK(symbol->title == "CIRCUIT BREAKER");
    CHECK(symbol->size == Size{millimetres(10), millimetres(5)});
    CHECK_FALSE(symbol->is_mark);
    REQUIRE(symbol->art.marks.size() == 1);
    const auto& mark = symbol->art.marks.front();
    CHECK(mark.role == Role::symbol);
    const auto& path = std::get<Path>(mark.item);
    CHECK(path.stroke.width == medium_pen);
    CHECK_FALSE(path.filled);
    REQUIRE(symbol->ports.size() == 2);
    REQUIRE(symbol->port("line"));
    CHECK(symbol->port("line")->side == Side::right);
    CHECK(symbol->port("line")->at == Point{millimetres(10), millimetres(3)});
    CHECK(symbol->port("earth") == nullptr);
}

TEST_CASE("each fault of a symbol is told once, with its line and column") {
    const auto fault = GENERATE(values<Fault>({
        {"</svg>", "", "symbol.xml", "not well-formed XML: Start-end tags mismatch", 8, 1},
        {"viewBox=\"0 0 10 5\" ", "", "symbol.size", "the symbol has no viewBox", 1, 2},
        {"0 0 10 5", "0 0 10", "symbol.size", "the viewBox is not a box at 0 0", 1, 50},
        {"0 0 10 5", "1 0 10 5", "symbol.size", "the viewBox is not a box at 0 0", 1, 50},
        {"width=\"10mm\"", "width=\"10\"", "symbol.size", "width differs from the viewBox", 1, 67},
        {" height=\"5mm\"", "", "symbol.size", "the symbol has no height", 1, 2},
        {"www.w3.org", "example.org", "symbol.root", "viewers need the namespace of SVG", 1, 13},
        {"  <title>Circuit breaker</title>", "", "symbol.title", "the symbol has no title", 1, 2},
        {"data-symbol=\"breaker\"", "data-symbol=\"fuse\"", "symbol.name",
         "the symbol is not named as its file is", 3, 19},
        {"<line ", "<lime ", "symbol.element", "<lime> cannot stand here", 4, 6},
        {"<line ", "stray<line ", "symbol.element", "text stands where an element should", 4, 5},
        {"x2=\"10\"", "x2=\"10\" rx=\"2\"", "symbol.attribute",
         "<line> has unknown attribute \"rx\"", 4, 33},
        {"x2=\"10\"", "x2=\"10\" x2=\"9\"", "symbol.attribute", "attribute \"x2\" is written twice",
         4, 33},
        {"x2=\"10\"", "x2=\"ten\"", "symbol.value", "\"ten\" is not a length", 4, 29},
        {"x2=\"10\"", "x2=\"1e9\"", "symbol.value", "\"1e9\" is not a length", 4, 29},
        {"x2=\"10\"", "x2=\"nan\"", "symbol.value", "\"nan\" is not a length", 4, 29},
        {"x2=\"10\"", "x2=\"1,5\"", "symbol.value", "\"1,5\" is not a length", 4, 29},
        {" x2=\"10\"", "", "symbol.value", "<line> needs \"x2\"", 4, 6},
        {"x2=\"10\"", "x2=\"10\" stroke=\"red\"", "symbol.value", "stroke \"red\" is not known", 4,
         41},
        {"class=\"medium\" ", "", "symbol.pen", "a stroked outline needs a class", 4, 6},
        {"x2=\"10\"", "x2=\"10\" class=\"fat\"", "symbol.pen", "class \"fat\" is not a pen", 4, 40},
        {"x2=\"10\"", "x2=\"10\" class=\"wide\"", "symbol.pen",
         "stroke-width \"0.35\" is not the width of class \"wide\"", 4, 40},
        {"stroke=\"black\"", "stroke=\"none\"", "symbol.invisible", "<line> draws nothing", 4, 6},
        {"r=\"0.25\" stroke=\"none\" fill=\"none\"", "r=\"0.25\" stroke=\"none\" fill=\"black\"",
         "symbol.port", "a port has to be invisible in a viewer", 5, 90},
        {"data-port=\"line\"", "data-port=\"load\"", "symbol.port_name",
         "port \"load\" is named twice", 6, 24},
        {"data-port=\"line\"", "data-port=\"\"", "symbol.port_name", "a port needs a name", 6, 24},
        {"cx=\"10\"", "cx=\"11\"", "symbol.port_outside", "port \"line\" is outside the viewBox", 6,
         52},
        {"cx=\"10\" cy=\"3\"", "cx=\"10\" cy=\"-1\"", "symbol.port_outside",
         "port \"line\" is outside the viewBox", 6, 60},
        {"data-side=\"right\"", "data-side=\"top\"", "symbol.port_side",
         "port \"line\" does not lie on that edge of the viewBox", 6, 41},
        {"data-side=\"right\"", "data-side=\"east\"", "symbol.value",
         "data-side \"east\" is not known", 6, 41},
    }));
    CAPTURE(fault.to);
    const auto [symbol, findings] = read(replaced(fault.from, fault.to));
    CHECK_FALSE(symbol);
    REQUIRE_FALSE(findings.empty());
    const auto& finding = findings.front();
    CHECK(finding.rule == fault.rule);
    CHECK(finding.message == fault.message);
    CHECK(finding.severity == Severity::error);
    CHECK(finding.subject == "symbol:breaker");
    CHECK(finding.span.begin.line == fault.line);
    CHECK(finding.span.begin.column == fault.column);
    CHECK(findings.size() == 1);
}

TEST_CASE("a slip of spelling is answered with the likely word") {
    CHECK(read(replaced("<line ", "<lime ")).findings.at(0).hint == "did you mean <line>?");
    CHECK(read(replaced("x2=", "X2=")).findings.at(0).hint == "did you mean \"x2\"?");
}

TEST_CASE("all faults of a file are told at once") {
    auto text = replaced("  <title>Circuit breaker</title>", "");
    text.replace(text.find("x1=\"0\""), 6, "x1=\"o\"");
    text.replace(text.find("data-side=\"right\""), 17, "data-side=\"wrong\"");
    const auto findings = read(text).findings;
    std::vector<std::string> rules;
    for (const auto& finding : findings)
        rules.push_back(finding.rule);
    CHECK(rules == std::vector<std::string>{"symbol.value", "symbol.value", "symbol.title"});
}

TEST_CASE("a symbol without ports is refused, a mark is not") {
    std::string text(whole);
    for (const char* port : {"    <circle data-port=\"load\"", "    <circle data-port=\"line\""}) {
        const auto at = text.find(port);
        text.erase(at, text.find('\n', at) + 1 - at);
    }
    CHECK(read(text).findings.at(0).rule == "symbol.no_ports");
    text.replace(text.find(" viewBox"), 1, " data-kind=\"mark\" ");
    const auto [symbol, findings] = read(text);
    CHECK(findings.empty());
    REQUIRE(symbol);
    CHECK(symbol->is_mark);
}

TEST_CASE("columns count characters, not bytes") {
    const auto [symbol, findings] =
        read(replaced("<title>Circuit breaker</title>\n", "<title>Überström</title> <oops/>\n"));
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].span.begin == Position{2, 29});
    CHECK(findings[0].span.end == Position{2, 33});
}

TEST_CASE("lettering is read with place and weight, and refused when cities would") {
    const std::string port = "    <circle data-port=\"load\"";
    const auto lettered = [&](const std::string& element) {
        return read(replaced(port, "    " + element + "\n" + port));
    };
    const auto [symbol, findings] =
        lettered(R"(<text x="5" y="4" font-size="3.6" font-weight="bold" text-anchor="middle")"
                 R"( stroke="none" fill="black">kWh</text>)");
    CHECK(findings.empty());
    REQUIRE(symbol);
    const auto& mark = symbol->art.marks.at(1);
    CHECK(mark.role == Role::lettering);
    const auto& text = std::get<Text>(mark.item);
    CHECK(text.text == "kWh");
    CHECK(text.at == Point{millimetres(5), millimetres(4)});
    CHECK(text.style == TextStyle{millimetres(3.6), true});
    CHECK(text.align == Align::centre);

    // 10 point type is 3.53 mm, but its capitals are under 0.10 in: see the San Francisco and
    // Tucson plan-check rules on lettering.
    const auto small =
        lettered(R"(<text x="5" y="4" font-size="3.5" stroke="none" fill="black">M</text>)");
    REQUIRE(small.findings.size() == 1);
    CHECK(small.findings[0].rule == "symbol.lettering");
    CHECK(small.findings[0].span.begin.column == 34);

    const auto stroked = lettered(R"(<text x="5" y="4" font-size="4" fill="black">M</text>)");
    REQUIRE(stroked.findings.size() == 1);
    CHECK(stroked.findings[0].rule == "symbol.lettering");
}

TEST_CASE("text with a slot name is a place for the diagram to letter, not a mark") {
    const std::string port = "    <circle data-port=\"load\"";
    const auto [symbol, findings] = read(replaced(
        port,
        R"(<text data-slot="rating" x="5" y="4" font-size="4" text-anchor="end" stroke="none")"
        R"( fill="black">20 A</text>)" +
            port));
    CHECK(findings.empty());
    REQUIRE(symbol);
    CHECK(symbol->art.marks.size() == 1);
    REQUIRE(symbol->slot("rating"));
    CHECK(symbol->slot("rating")->at == Point{millimetres(5), millimetres(4)});
    CHECK(symbol->slot("rating")->align == Align::right);
    CHECK(symbol->slot("name") == nullptr);
}

TEST_CASE("a text that is not one svg is refused wherever it fails") {
    for (const char* text : {"", " ", "breaker", "<html/>", "<svg", "<svg/><svg/>",
                             "<!DOCTYPE svg><svg/>", "<svg xmlns=\"\xff\xfe\">", "<svg a=\"1/>"}) {
        CAPTURE(text);
        const auto [symbol, findings] = read(text);
        CHECK_FALSE(symbol);
        REQUIRE_FALSE(findings.empty());
        CHECK(findings[0].span.known());
    }
}

TEST_CASE("a symbol cut off at any byte is a finding, never a fall") {
    for (std::size_t length = 0; length + 8 < whole.size(); ++length) {
        const auto [symbol, findings] = read(std::string(whole.substr(0, length)));
        REQUIRE_FALSE(symbol);
        REQUIRE_FALSE(findings.empty());
    }
}

TEST_CASE("a folder that cannot be read is a finding") {
    SourceFiles sources;
    Findings findings;
    const auto set = SymbolSet::load("no/such/folder", sources, findings);
    CHECK(set.all().empty());
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].rule == "symbol.file");
}
