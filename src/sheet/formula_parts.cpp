#include "sheet/formula_parts.h"

#include <algorithm>
#include <array>

namespace ohmfolio::sheets {

namespace {

using Kind = FormulaPart::Kind;

std::ptrdiff_t opened_by(std::string_view word) {
    return std::count(word.begin(), word.end(), '(') - std::count(word.begin(), word.end(), ')');
}

/// After such a word something new begins: "V_rise, V_nominal", "I_C: 20 A".
bool ends_phrase(std::string_view word) {
    return word.ends_with(',') || word.ends_with(':') || word.ends_with(';');
}

/// Signs and operands outside brackets; nothing when the brackets do not match.
std::vector<FormulaPart> signs_and_operands(std::string_view formula) {
    std::vector<FormulaPart> parts;
    std::ptrdiff_t depth = 0;
    bool joins = false;
    for (const std::string_view word : words_of(formula)) {
        const bool sign = depth == 0 && is_operator(word);
        if (joins && !sign) {
            parts.back().source += " " + std::string(word);
        } else {
            parts.push_back({sign ? Kind::sign : Kind::operand, std::string(word), {}, {}});
        }
        depth += opened_by(word);
        if (depth < 0)
            return {};
        joins = !sign && !(depth == 0 && ends_phrase(word));
    }
    return depth == 0 ? parts : std::vector<FormulaPart>{};
}

/// "(C × V)" without its brackets, where one pair stands around all of it.
std::string without_brackets(const std::string& text) {
    if (!text.starts_with('(') || !text.ends_with(')'))
        return text;
    std::ptrdiff_t depth = 0;
    for (std::size_t i = 0; i + 1 < text.size(); ++i) {
        depth += text[i] == '(' ? 1 : text[i] == ')' ? -1 : 0;
        if (depth == 0)
            return text;
    }
    return text.substr(1, text.size() - 2);
}

/// Where the product that ends at the back of `parts` begins.
std::size_t start_of_product(const std::vector<FormulaPart>& parts) {
    std::size_t at = parts.size();
    while (at > 0) {
        const FormulaPart& part = parts[at - 1];
        const bool ends = part.kind == Kind::sign ? part.source != "×"
                                                  : at < parts.size() && ends_phrase(part.source);
        // Two operands without a sign between them: the earlier one is words before the formula.
        const bool words =
            part.kind != Kind::sign && at < parts.size() && parts[at].kind != Kind::sign;
        if (ends || words)
            break;
        --at;
    }
    return at;
}

std::string joined_sources(const std::vector<FormulaPart>& parts, std::size_t from) {
    std::string text;
    for (std::size_t i = from; i < parts.size(); ++i)
        text += (i > from ? " " : "") + parts[i].source;
    return text;
}

/// Puts the product at the back of `parts` above `divisor`.
void divide(std::vector<FormulaPart>& parts, const FormulaPart& divisor) {
    const std::size_t start = start_of_product(parts);
    FormulaPart fraction{Kind::fraction, joined_sources(parts, start), {}, {}};
    fraction.above = without_brackets(fraction.source);
    fraction.source += " ÷ " + divisor.source;
    std::string below = divisor.source;
    while (!below.empty() && ends_phrase(below)) {
        fraction.after.insert(0, 1, below.back());
        below.pop_back();
    }
    fraction.below = without_brackets(below);
    parts.resize(start);
    parts.push_back(std::move(fraction));
}

} // namespace

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

bool is_relation(std::string_view word) {
    constexpr std::array<std::string_view, 5> relations = {"=", "≤", "≥", "<", ">"};
    return std::find(relations.begin(), relations.end(), word) != relations.end();
}

bool is_operator(std::string_view word) {
    constexpr std::array<std::string_view, 4> operations = {"×", "÷", "+", "−"};
    return is_relation(word) ||
           std::find(operations.begin(), operations.end(), word) != operations.end();
}

std::vector<FormulaPart> formula_parts(std::string_view formula) {
    const std::vector<FormulaPart> flat = signs_and_operands(formula);
    if (flat.empty())
        return {{Kind::operand, std::string(formula), {}, {}}};
    std::vector<FormulaPart> parts;
    for (std::size_t i = 0; i < flat.size(); ++i) {
        const bool quotient = flat[i].source == "÷" && i + 1 < flat.size() &&
                              flat[i + 1].kind == Kind::operand &&
                              start_of_product(parts) < parts.size();
        if (quotient) {
            divide(parts, flat[++i]);
        } else {
            parts.push_back(flat[i]);
        }
    }
    return parts;
}

} // namespace ohmfolio::sheets
