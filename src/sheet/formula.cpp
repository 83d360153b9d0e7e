#include "sheet/formula.h"

#include "sheet/formula_parts.h"
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

/// Pieces that stay whole: a number with its unit, a name, what stands in brackets, a fraction; an
/// operator opens the piece after it.
std::vector<std::string> pieces_of(std::string_view formula, bool break_in_brackets) {
    std::vector<std::string> pieces;
    const auto add = [&](std::string_view text, bool opens) {
        if (pieces.empty() || opens) {
            pieces.emplace_back(text);
        } else {
            pieces.back() += " " + std::string(text);
        }
    };
    if (break_in_brackets) {
        for (const std::string_view word : words_of(formula))
            add(word, is_operator(word));
        return pieces;
    }
    for (const FormulaPart& part : formula_parts(formula))
        add(part.source, part.kind == FormulaPart::Kind::sign);
    return pieces;
}

} // namespace

Length subscript_drop(const TextStyle& style) { return scaled(style.size, 0.27); }

TextStyle bearing_style(const TextStyle& style) { return {scaled(style.size, 1.2), style.bold}; }

bool is_subscript_of(const Text& letter, const Text& next) {
    return letter.style == bearing_style(next.style) &&
           next.at.y - letter.at.y == subscript_drop(next.style);
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

} // namespace ohmfolio::sheets
