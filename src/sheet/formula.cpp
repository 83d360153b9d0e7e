#include "sheet/formula.h"

#include <algorithm>

#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

bool is_alphanumeric(char c) {
    return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
}

/// End of the name that starts at `at`: letters and digits, and a point or comma between them, as
/// in V_oc.cold and V_in,max.
std::size_t end_of_name(std::string_view text, std::size_t at) {
    const auto joins = [&](std::size_t i) {
        const bool inside = (text[i] == '.' || text[i] == ',') && i + 1 < text.size() &&
                            is_alphanumeric(text[i + 1]);
        return is_alphanumeric(text[i]) || inside;
    };
    while (at < text.size() && joins(at))
        ++at;
    return at;
}

void push(std::vector<FormulaRun>& runs, std::string_view text, bool lowered) {
    if (!text.empty())
        runs.push_back({std::string(text), lowered});
}

std::vector<std::string_view> words_of(std::string_view text) {
    std::vector<std::string_view> words;
    while (!text.empty()) {
        const auto end = std::min(text.find(' '), text.size());
        if (end > 0)
            words.push_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return words;
}

bool is_operator(std::string_view word) {
    return word == "×" || word == "÷" || word == "+" || word == "−" || word == "≤" || word == "≥" ||
           word == "<" || word == "=";
}

/// Pieces that stay whole: a number with its unit, a name; an operator opens the piece after it.
std::vector<std::string> pieces_of(std::string_view formula) {
    std::vector<std::string> pieces;
    for (const std::string_view word : words_of(formula)) {
        if (pieces.empty() || is_operator(word))
            pieces.emplace_back(word);
        else
            pieces.back() += " " + std::string(word);
    }
    return pieces;
}

} // namespace

Length subscript_drop(const TextStyle& style) { return scaled(style.size, 0.17); }

std::vector<FormulaRun> formula_runs(std::string_view formula) {
    std::vector<FormulaRun> runs;
    while (true) {
        const auto mark = formula.find('_');
        const bool named = mark != std::string_view::npos && mark > 0 &&
                           mark + 1 < formula.size() && is_alphanumeric(formula[mark + 1]);
        if (!named) {
            push(runs, formula, false);
            return runs;
        }
        push(runs, formula.substr(0, mark), false);
        const std::size_t end = end_of_name(formula, mark + 1);
        push(runs, formula.substr(mark + 1, end - mark - 1), true);
        formula.remove_prefix(end);
    }
}

Length formula_width(std::string_view formula, const TextStyle& style, const TextMeasure& measure) {
    Length width{};
    for (const FormulaRun& run : formula_runs(formula))
        width += measure.width(run.text, style);
    return width;
}

std::vector<std::string> formula_lines(std::string_view formula, const TextStyle& style,
                                       Length width, const TextMeasure& measure) {
    std::vector<std::string> lines;
    for (const std::string& piece : pieces_of(formula)) {
        const std::string longer = lines.empty() ? piece : lines.back() + " " + piece;
        if (!lines.empty() && formula_width(longer, style, measure) <= width) {
            lines.back() = longer;
            continue;
        }
        for (std::string& part : wrapped(piece, style, width, measure))
            lines.push_back(std::move(part));
    }
    return lines;
}

void write_formula(Frame& frame, Point at, std::string_view line, const TextStyle& style,
                   const std::string& shows, const TextMeasure& measure) {
    for (const FormulaRun& run : formula_runs(line)) {
        const Point top{at.x, at.y + (run.lowered ? subscript_drop(style) : Length{})};
        write_line(frame, top, run.text, {style, Align::left, black, shows}, measure);
        at.x += measure.width(run.text, style);
    }
}

} // namespace ohmfolio::sheets
