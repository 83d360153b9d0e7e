#include "base/finding.h"

#include <algorithm>
#include <fmt/format.h>
#include <tuple>

#include "base/text.h"

namespace ohmfolio {

namespace {

// Terminal colours (ECMA-48, "select graphic rendition").
constexpr std::string_view bold = "\x1b[1m";
constexpr std::string_view plain = "\x1b[0m";

std::string_view colour_of(Severity severity) {
    switch (severity) {
    case Severity::advice:
        return "\x1b[36m";
    case Severity::warning:
        return "\x1b[33m";
    case Severity::violation:
        return "\x1b[35m";
    case Severity::error:
        return "\x1b[31m";
    }
    return {};
}

std::string painted(std::string_view text, std::string_view code, bool colour) {
    return colour ? fmt::format("{}{}{}", code, text, plain) : std::string(text);
}

/// The blank part of the mark's line: tabs stay tabs, so that the mark stands under its value
/// however wide the terminal makes them.
std::string indent_under(const std::vector<std::string_view>& line, int columns) {
    std::string indent;
    for (int i = 0; i < columns; ++i) {
        const auto place = static_cast<std::size_t>(i);
        indent += place < line.size() && line[place] == "\t" ? '\t' : ' ';
    }
    return indent;
}

std::string excerpt(const Finding& finding, const SourceFiles& sources, bool colour) {
    const Span& span = finding.span;
    const std::string_view line = sources.line(span.file, span.begin.line);
    if (line.empty() || span.begin.column < 1)
        return {};
    const auto letters = characters(line);
    const int line_end = static_cast<int>(letters.size()) + 1;
    const int begin = std::min(span.begin.column, line_end);
    // A value over several lines is marked to the end of its first.
    const int stop = span.end.line > span.begin.line ? line_end : span.end.column;
    const int marks = std::max(1, std::min(stop, line_end) - begin);
    std::string mark(static_cast<std::size_t>(marks), '~');
    mark.front() = '^';
    return fmt::format("  {}\n  {}{}\n", line, indent_under(letters, begin - 1),
                       painted(mark, colour_of(finding.severity), colour));
}

std::string place(const Finding& finding, const SourceFiles& sources) {
    const Span& span = finding.span;
    if (!span.known())
        return finding.subject.empty() ? std::string{} : finding.subject + ": ";
    if (span.begin.column < 1)
        return fmt::format("{}:{}: ", sources.name(span.file), span.begin.line);
    return fmt::format("{}:{}:{}: ", sources.name(span.file), span.begin.line, span.begin.column);
}

void add_detail(std::string& out, std::string_view label, std::string_view text) {
    if (!text.empty())
        out += fmt::format("  {}: {}\n", label, text);
}

} // namespace

bool has(const Findings& findings, Severity at_least) {
    return std::ranges::any_of(findings, [&](const Finding& f) { return f.severity >= at_least; });
}

void sort_for_print(Findings& findings) {
    // What has no place in the text comes last.
    std::ranges::stable_sort(findings, [](const Finding& a, const Finding& b) {
        const auto order = [](const Finding& f) {
            const bool known = f.span.known();
            return std::tuple(!known, known ? f.span.file : 0, known ? f.span.begin : Position{},
                              -static_cast<int>(f.severity), std::string_view(f.rule));
        };
        return order(a) < order(b);
    });
}

std::string print(const Finding& finding, const SourceFiles& sources, bool colour) {
    const std::string severity =
        painted(fmt::format("{}:", name(finding.severity)), colour_of(finding.severity), colour);
    std::string out = painted(place(finding, sources), bold, colour);
    out += fmt::format("{} {} [{}]\n", severity, finding.message, finding.rule);
    if (finding.span.known())
        out += excerpt(finding, sources, colour);
    add_detail(out, "expected", finding.expected);
    add_detail(out, "section", finding.section);
    add_detail(out, "hint", finding.hint);
    for (const Remedy& remedy : finding.remedies) {
        add_detail(out, "remedy",
                   remedy.consequence.empty() ? remedy.change
                                              : remedy.change + ", " + remedy.consequence);
    }
    return out;
}

std::string_view name(Severity severity) {
    switch (severity) {
    case Severity::advice:
        return "advice";
    case Severity::warning:
        return "warning";
    case Severity::violation:
        return "violation";
    case Severity::error:
        return "error";
    }
    return {};
}

} // namespace ohmfolio
