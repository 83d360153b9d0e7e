#include "base/finding.h"

#include "catch.h"

using namespace ohmfolio;

namespace {

Span span_of(int file, int line, int from, int to) { return {file, {line, from}, {line, to}}; }

} // namespace

TEST_CASE("a finding is printed with its place, the line and a mark under the value") {
    SourceFiles sources;
    const int file = sources.add("site.toml", "[string]\nmoduel = \"x\"\n");
    Finding finding;
    finding.rule = "input.unknown_key";
    finding.span = span_of(file, 2, 1, 7);
    finding.message = "unknown key \"moduel\"";
    finding.expected = "one of module, count";
    finding.section = "NEC 2023 690.8";
    finding.hint = "did you mean \"module\"?";
    finding.remedies = {{"main breaker 175 A", "then the 120 % rule carries 65 A"}, {"a", ""}};
    CHECK(print(finding, sources, false) ==
          "site.toml:2:1: error: unknown key \"moduel\" [input.unknown_key]\n"
          "  moduel = \"x\"\n"
          "  ^~~~~~\n"
          "  expected: one of module, count\n"
          "  section: NEC 2023 690.8\n"
          "  hint: did you mean \"module\"?\n"
          "  remedy: main breaker 175 A, then the 120 % rule carries 65 A\n"
          "  remedy: a\n");
}

TEST_CASE("columns are characters, and tabs stay tabs") {
    SourceFiles sources;
    const int file = sources.add("a", "\tname = \"Peña Ω\", x\r\nnext");
    Finding finding{"r", Severity::warning, span_of(file, 1, 17, 18), "", "", "m", "", "", {}, ""};
    CHECK(print(finding, sources, false) == "a:1:17: warning: m [r]\n"
                                            "  \tname = \"Peña Ω\", x\n"
                                            "  \t               ^\n");
}

TEST_CASE("a value over several lines is marked to the end of its first") {
    SourceFiles sources;
    const int file = sources.add("a", "v = [1,\n2]\n");
    Finding finding;
    finding.rule = "r";
    finding.message = "m";
    finding.span = {file, {1, 5}, {2, 3}};
    CHECK(print(finding, sources, false) == "a:1:5: error: m [r]\n  v = [1,\n      ^~~\n");
}

TEST_CASE("a finding without a place names its subject") {
    Finding finding;
    finding.rule = "bus.sum";
    finding.severity = Severity::violation;
    finding.subject = "panel:MSP";
    finding.message = "too much";
    CHECK(print(finding, {}, false) == "panel:MSP: violation: too much [bus.sum]\n");
}

TEST_CASE("colour only when asked for") {
    SourceFiles sources;
    const int file = sources.add("a", "x = 1\n");
    Finding finding{"r", Severity::error, span_of(file, 1, 1, 2), "", "", "m", "", "", {}, ""};
    CHECK(print(finding, sources, false).find('\x1b') == std::string::npos);
    CHECK(print(finding, sources, true).find("\x1b[31m") != std::string::npos);
}

TEST_CASE("findings are printed in the order of the text") {
    const auto finding = [](std::string rule, Severity severity, Span span) {
        Finding f;
        f.rule = std::move(rule);
        f.severity = severity;
        f.span = span;
        return f;
    };
    Findings findings = {finding("nowhere", Severity::error, {}),
                         finding("late", Severity::error, span_of(0, 9, 1, 2)),
                         finding("b", Severity::warning, span_of(0, 2, 1, 2)),
                         finding("a", Severity::warning, span_of(0, 2, 1, 2)),
                         finding("c", Severity::error, span_of(0, 2, 1, 2)),
                         finding("other_file", Severity::error, span_of(1, 1, 1, 2))};
    sort_for_print(findings);
    std::vector<std::string> order;
    for (const Finding& f : findings)
        order.push_back(f.rule);
    CHECK(order == std::vector<std::string>{"c", "a", "b", "late", "other_file", "nowhere"});
}

TEST_CASE("has") {
    Finding advice;
    advice.severity = Severity::advice;
    CHECK_FALSE(has({}, Severity::advice));
    CHECK(has({advice}, Severity::advice));
    CHECK_FALSE(has({advice}, Severity::warning));
}

TEST_CASE("lines of a source file") {
    SourceFiles sources;
    const int file = sources.add("a", "one\r\n\nthree");
    CHECK(sources.line(file, 1) == "one");
    CHECK(sources.line(file, 2).empty());
    CHECK(sources.line(file, 3) == "three");
    CHECK(sources.line(file, 4).empty());
    CHECK(sources.line(file, 0).empty());
    CHECK(sources.name(file) == "a");
    CHECK_THROWS(sources.name(7));
}
