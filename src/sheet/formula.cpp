#include "sheet/formula.h"

#include <algorithm>

#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

bool is_alphanumeric(char c) {
    return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
}

/// End of the name that starts at `at`: letters and digits, and a point, comma or hyphen between
/// them, as in V_oc.cold, V_in,max and I_sc,MID-1. (The sign of a difference is another character.)
std::size_t end_of_name(std::string_view text, std::size_t at) {
    const auto joins = [&](std::size_t i) {
        const bool inside = (text[i] == '.' || text[i] == ',' || text[i] == '-') &&
                            i + 1 < text.size() && is_alphanumeric(text[i + 1]);
        return is_alphanumeric(text[i]) || inside;
    };
    while (at < text.size() && joins(at))
        ++at;
    return at;
}

/// Start of the name that ends where a subscript begins: the letters before it.
std::size_t start_of_name(std::string_view text) {
    std::size_t at = text.size();
    // Greek letters are two bytes, neither of them a blank or bracket.
    while (at > 0 && text[at - 1] != ' ' && text[at - 1] != '(' && text[at - 1] != ',')
        --at;
    return at;
}

void push(std::vector<FormulaRun>& runs, std::string_view text, bool lowered, bool bears = false) {
    if (!text.empty())
        runs.push_back({std::string(text), lowered, bears});
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
           word == "<" || word == ">" || word == "=";
}

/// Pieces that stay whole: a number with its unit, a name, what stands in brackets; an operator
/// opens the piece after it.
std::vector<std::string> pieces_of(std::string_view formula, bool break_in_brackets) {
    std::vector<std::string> pieces;
    std::ptrdiff_t depth = 0;
    for (const std::string_view word : words_of(formula)) {
        const bool may_break = is_operator(word) && (depth == 0 || break_in_brackets);
        if (pieces.empty() || may_break) {
            pieces.emplace_back(word);
        } else {
            pieces.back() += " " + std::string(word);
        }
        depth +=
            std::count(word.begin(), word.end(), '(') - std::count(word.begin(), word.end(), ')');
    }
    return pieces;
}

} // namespace

Length subscript_drop(const TextStyle& style) { return scaled(style.size, 0.27); }

TextStyle bearing_style(const TextStyle& style) { return {scaled(style.size, 1.2), style.bold}; }

Length formula_depth(std::string_view line, const TextStyle& style) {
    // The larger letter of the next line reaches above its capitals, hence more than the drop.
    return formula_runs(line).size() > 1 ? scaled(style.size, 0.25) : Length{};
}

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
        const std::size_t start = start_of_name(formula.substr(0, mark));
        push(runs, formula.substr(0, start), false);
        push(runs, formula.substr(start, mark - start), false, true);
        const std::size_t end = end_of_name(formula, mark + 1);
        push(runs, formula.substr(mark + 1, end - mark - 1), true);
        formula.remove_prefix(end);
    }
}

Length formula_width(std::string_view formula, const TextStyle& style, const TextMeasure& measure) {
    Length width{};
    for (const FormulaRun& run : formula_runs(formula))
        width += measure.width(run.text, run.bears_subscript ? bearing_style(style) : style);
    return width;
}

std::vector<std::string> formula_lines(std::string_view formula, const TextStyle& style,
                                       Length width, const TextMeasure& measure, Length indent) {
    std::vector<std::string> lines;
    const auto room = [&] { return lines.size() > 1 ? width - indent : width; };
    const auto add = [&](const std::string& piece) {
        const std::string longer = lines.empty() ? piece : lines.back() + " " + piece;
        if (!lines.empty() && formula_width(longer, style, measure) <= room()) {
            lines.back() = longer;
        } else {
            lines.push_back(piece);
        }
    };
    for (const std::string& piece : pieces_of(formula, false)) {
        if (formula_width(piece, style, measure) <= width - indent) {
            add(piece);
            continue;
        }
        for (const std::string& part : pieces_of(piece, true)) {
            if (formula_width(part, style, measure) <= width - indent) {
                add(part);
            } else {
                for (const std::string& line : wrapped(part, style, width - indent, measure))
                    add(line);
            }
        }
    }
    return lines;
}

void write_formula(Frame& frame, Point at, std::string_view line, const TextStyle& style,
                   const std::string& shows, const TextMeasure& measure) {
    const TextStyle bearing = bearing_style(style);
    const Length above = measure.cap_height(bearing) - measure.cap_height(style);
    for (const FormulaRun& run : formula_runs(line)) {
        Point top = at;
        if (run.lowered)
            top.y += subscript_drop(style);
        if (run.bears_subscript)
            top.y -= above;
        const TextStyle& look = run.bears_subscript ? bearing : style;
        write_line(frame, top, run.text, {look, Align::left, black, shows}, measure);
        at.x += measure.width(run.text, look);
    }
}

} // namespace ohmfolio::sheets
