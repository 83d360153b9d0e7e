#include "base/finding.h"

#include <algorithm>
#include <array>
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

/// Of a line as long as a book the part around the mark is shown.
constexpr int shown_before = 120;
constexpr int shown_in_all = 240;
constexpr std::size_t longest_shown = 1200; ///< bytes of a message
constexpr std::string_view left_out = "...";

/// The line from a column on, and which column that is.
struct Stretch {
    std::vector<std::string_view> letters;
    int first = 1;
    bool goes_on = false;
};

/// A character of UTF-8 has up to four bytes, so that what is split into characters stays short
/// however long the line is.
Stretch stretch_around(std::string_view line, int column) {
    Stretch result;
    while (result.first < column - shown_before && !line.empty()) {
        line.remove_prefix(characters(line.substr(0, 4)).front().size());
        ++result.first;
    }
    const auto room = static_cast<std::size_t>(shown_in_all);
    result.letters = characters(line.substr(0, 4 * room));
    result.goes_on = result.letters.size() > room;
    result.letters.resize(std::min(result.letters.size(), room));
    return result;
}

/// Letters of Unicode that end a line or turn the direction of what is written around them.
bool turns_text(std::string_view letter) {
    constexpr std::array<std::string_view, 14> marks{
        "\u0085", "\u200E", "\u200F", "\u2028", "\u2029", "\u202A", "\u202B",
        "\u202C", "\u202D", "\u202E", "\u2066", "\u2067", "\u2068", "\u2069"};
    return std::ranges::find(marks, letter) != marks.end();
}

/// What would move the cursor or end the text of a terminal is shown as a blank, and a byte that is
/// no character as the sign for that.
std::string visible(std::string_view letter) {
    const auto byte = static_cast<unsigned char>(letter.front());
    if (letter.size() == 1 && byte >= 0x80)
        return "\uFFFD";
    const bool moves = (byte < 0x20 && byte != '\t') || byte == 0x7f || turns_text(letter);
    return moves ? " " : std::string(letter);
}

std::string all_visible(std::string_view text) {
    std::string out;
    for (const std::string_view letter : characters(text))
        out += visible(letter);
    return out;
}

std::string excerpt(const Finding& finding, const SourceFiles& sources, bool colour) {
    const Span& span = finding.span;
    const std::string_view line = sources.line(span.file, span.begin.line);
    if (line.empty() || span.begin.column < 1)
        return {};
    const Stretch part = stretch_around(line, span.begin.column);
    std::string text = part.first > 1 ? std::string(left_out) : std::string{};
    const std::string before(text.size(), ' ');
    for (const std::string_view letter : part.letters)
        text += visible(letter);
    text += part.goes_on ? left_out : "";
    const int end = static_cast<int>(part.letters.size()) + 1;
    const int begin = std::min(span.begin.column - part.first + 1, end);
    // A value over several lines is marked to the end of its first.
    const int stop = span.end.line > span.begin.line ? end : span.end.column - part.first + 1;
    const int marks = std::max(1, std::min(stop, end) - begin);
    std::string mark(static_cast<std::size_t>(marks), '~');
    mark.front() = '^';
    return fmt::format("  {}\n  {}{}{}\n", text, before, indent_under(part.letters, begin - 1),
                       painted(mark, colour_of(finding.severity), colour));
}

/// Messages quote what was written. Of a quotation that fills screens both ends are enough.
std::string shortened(std::string_view text) {
    if (text.size() <= longest_shown)
        return all_visible(text);
    const auto whole = [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; };
    std::size_t head = longest_shown / 2;
    std::size_t tail = text.size() - longest_shown / 2;
    while (head > 0 && !whole(text[head]))
        --head;
    while (tail < text.size() && !whole(text[tail]))
        ++tail;
    return fmt::format("{} {} {}", all_visible(text.substr(0, head)), left_out,
                       all_visible(text.substr(tail)));
}

std::string place(const Finding& finding, const SourceFiles& sources) {
    const Span& span = finding.span;
    if (!span.known())
        return finding.subject.empty() ? std::string{} : shortened(finding.subject) + ": ";
    if (span.begin.column < 1)
        return fmt::format("{}:{}: ", sources.name(span.file), span.begin.line);
    return fmt::format("{}:{}:{}: ", sources.name(span.file), span.begin.line, span.begin.column);
}

void add_detail(std::string& out, std::string_view label, std::string_view text) {
    if (!text.empty())
        out += fmt::format("  {}: {}\n", label, shortened(text));
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
    out += fmt::format("{} {} [{}]\n", severity, shortened(finding.message), finding.rule);
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
