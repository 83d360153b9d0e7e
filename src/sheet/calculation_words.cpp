#include "sheet/calculation_words.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"

namespace ohmfolio::sheets {

namespace {

/// How the study names what the drafter wrote.
constexpr std::string_view stated = "as stated in the description";

/// How a formula says that it takes one of two values, and the sign for it.
constexpr std::array<std::pair<std::string_view, std::string_view>, 2> choices = {
    {{"lesser of ", "MIN"}, {"larger of ", "MAX"}}};
constexpr std::string_view between_choices = " and ";

bool is_number(std::string_view text) {
    return !text.empty() && std::all_of(text.begin(), text.end(),
                                        [](char c) { return (c >= '0' && c <= '9') || c == '.'; });
}

bool is_share(const Derivation& line) {
    if (!is_number(line.result))
        return false;
    return line.name.find("share") != std::string::npos || line.name.starts_with("fill") ||
           (line.subject.starts_with("voltage:") && line.name == "limit");
}

/// "0.5 V" with as many decimals as its neighbours have.
std::string padded(std::string_view number, int decimals) {
    std::string text(number);
    if (text.find('.') == std::string::npos)
        text += '.';
    const auto have = static_cast<int>(text.size() - text.find('.') - 1);
    return text + std::string(static_cast<std::size_t>(std::max(0, decimals - have)), '0');
}

std::string percent(double fraction) {
    const std::string text = decimal(fraction * 100, 2);
    return (text.ends_with(".00") ? text.substr(0, text.size() - 3) : text) + " %";
}

void replace_all(std::string& text, std::string_view from, std::string_view to) {
    const auto ends_value = [&](std::size_t end) {
        return end == text.size() || text[end] == ' ' || text[end] == ')' || text[end] == ';' ||
               text[end] == ',';
    };
    const auto starts_value = [&](std::size_t at) {
        return at == 0 || text[at - 1] == ' ' || text[at - 1] == '(';
    };
    for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at)) {
        // "0.4" is not the "0.4" of "0.4 V".
        const std::size_t end = at + from.size();
        const bool unit_follows = is_number(from) && end + 1 < text.size() && text[end] == ' ' &&
                                  std::isalpha(static_cast<unsigned char>(text[end + 1])) != 0;
        if (starts_value(at) && ends_value(end) && !unit_follows) {
            text.replace(at, from.size(), to);
            at += to.size();
        } else {
            at = end;
        }
    }
}

std::string with_shown_operands(std::string text, const Derivation& line, const Study& study) {
    std::set<std::string> done;
    for (const std::string& id : line.from) {
        const Derivation* operand = study.worksheet.find(id);
        if (operand == nullptr || operand->result.empty() || !done.insert(operand->result).second)
            continue;
        const std::string shown = shown_result(*operand);
        if (shown != operand->result)
            replace_all(text, operand->result, shown);
    }
    return text;
}

/// Pieces between operators and brackets.
std::vector<std::string> atoms(std::string_view text) {
    static constexpr std::array<std::string_view, 13> parts{
        "×", "÷", "+", "−", "≤", "≥", "<", ">", "=", "√", "lesser", "of", "and"};
    std::vector<std::string> result;
    std::string current;
    const auto close = [&] {
        if (!current.empty())
            result.push_back(current);
        current.clear();
    };
    while (!text.empty()) {
        const auto end = std::min(text.find(' '), text.size());
        std::string_view word = text.substr(0, end);
        text.remove_prefix(std::min(end + 1, text.size()));
        while (word.starts_with('(') || word.starts_with("√"))
            word.remove_prefix(word.starts_with('(') ? 1 : std::string_view("√").size());
        bool closes = false;
        while (word.ends_with(')') || word.ends_with(',')) {
            word.remove_suffix(1);
            closes = true;
        }
        if (std::find(parts.begin(), parts.end(), word) != parts.end()) {
            close();
            continue;
        }
        if (!word.empty())
            current += (current.empty() ? "" : " ") + std::string(word);
        if (closes)
            close();
    }
    close();
    return result;
}

/// "NEXT STANDARD RATING ≥ I_z": names keep their case, words take that of the sheet.
std::string words_in_capitals(std::string_view formula) {
    std::string text(formula);
    const auto is_letter = [](char c) { return c >= 'a' && c <= 'z'; };
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find(' ', at), text.size());
        const bool word = end - at >= 3 &&
                          std::all_of(text.begin() + static_cast<std::ptrdiff_t>(at),
                                      text.begin() + static_cast<std::ptrdiff_t>(end), is_letter);
        if (word)
            text.replace(at, end - at, upper(text.substr(at, end - at)));
        at = end + 1;
    }
    return text;
}

const ConnectionOption* chosen_instead(const Derivation& line, const Study& study) {
    for (const ConnectionStudy& connection : study.connections) {
        const bool here = std::any_of(connection.options.begin(), connection.options.end(),
                                      [&](const ConnectionOption& option) {
                                          return !option.chosen &&
                                                 std::find(option.steps.begin(), option.steps.end(),
                                                           line.id) != option.steps.end();
                                      });
        if (!here)
            continue;
        const auto chosen = std::find_if(connection.options.begin(), connection.options.end(),
                                         [](const ConnectionOption& o) { return o.chosen; });
        if (chosen != connection.options.end())
            return &*chosen;
    }
    return nullptr;
}

} // namespace

TriedSteps steps_not_chosen(const Study& study) {
    TriedSteps tried;
    for (const ConnectionStudy& connection : study.connections) {
        for (const ConnectionOption& option : connection.options) {
            if (!option.chosen)
                tried.insert(option.steps.begin(), option.steps.end());
        }
    }
    return tried;
}

std::string_view verdict_word(const Derivation& line, const TriedSteps& tried) {
    if (!line.verdict)
        return {};
    if (*line.verdict == Verdict::pass)
        return "PASS";
    return tried.contains(line.id) ? "NOT MET" : "FAIL";
}

std::string full_verdict(const Derivation& line, const Study& study, const TriedSteps& tried) {
    std::string word(verdict_word(line, tried));
    if (word != "NOT MET")
        return word;
    const ConnectionOption* chosen = chosen_instead(line, study);
    return chosen == nullptr ? word : fmt::format("{}, SEE {}", word, paragraph(chosen->cite));
}

std::string paragraph(const Citation& citation) {
    const std::string& section = citation.section;
    if (citation.edition.empty() && section.find("nameplate") != std::string::npos)
        return std::string(nameplate);
    return drafting_case(section);
}

std::string place_of(const Derivation& line) {
    return line.cite.section.empty() && line.source == stated ? "STATED" : paragraph(line.cite);
}

std::string shown_result(const Derivation& line) {
    const auto blank = line.result.find(' ');
    const std::string number = line.result.substr(0, blank);
    const std::string unit = blank == std::string::npos ? "" : line.result.substr(blank + 1);
    if (is_share(line))
        return percent(line.value);
    if (unit.empty() && line.name.ends_with("factor") && is_number(number))
        return padded(number, 2);
    if (unit == "V" && !line.formula.empty() && is_number(number))
        return padded(number, 2) + " V";
    // A choice is a word of the trade; a value keeps the case of its unit.
    return line.symbol.empty() ? drafting_case(line.result) : line.result;
}

std::string shown_figures(const Derivation& line, const Study& study) {
    return shown_formula(with_shown_operands(line.figures, line, study));
}

std::string shown_comparison(const Derivation& line, const Study& study) {
    const std::string text = with_shown_operands(line.comparison, line, study);
    return line.formula.empty() ? drafting_case(text) : text;
}

std::string shown_formula(std::string_view formula) {
    for (const auto& [words, sign] : choices) {
        const auto middle = formula.find(between_choices);
        const bool simple = formula.starts_with(words) &&
                            formula.find(words, 1) == std::string_view::npos &&
                            middle != std::string_view::npos &&
                            formula.find(between_choices, middle + 1) == std::string_view::npos;
        if (simple) {
            return fmt::format("{}({}, {})", sign,
                               formula.substr(words.size(), middle - words.size()),
                               formula.substr(middle + between_choices.size()));
        }
    }
    return words_in_capitals(formula);
}

std::string without_units(std::string_view comparison) {
    for (const std::string_view relation : {" ≤ ", " ≥ ", " < ", " > "}) {
        const auto at = comparison.find(relation);
        if (at == std::string_view::npos)
            continue;
        const std::string_view left = comparison.substr(0, at);
        const std::string_view right = comparison.substr(at + relation.size());
        const auto blank = left.find(' ');
        if (blank == std::string_view::npos || right.size() < left.size() - blank)
            break;
        const std::string_view unit = left.substr(blank);
        const std::string_view number = right.substr(0, right.size() - unit.size());
        if (right.ends_with(unit) && is_number(left.substr(0, blank)) && is_number(number))
            return fmt::format("{}{}{}", left.substr(0, blank), relation, number);
        break;
    }
    return std::string(comparison);
}

std::vector<Operand> operands(std::string_view formula, std::string_view figures) {
    const auto names = atoms(formula);
    const auto values = atoms(figures);
    std::vector<Operand> result;
    if (names.size() != values.size())
        return result;
    for (std::size_t i = 0; i < names.size(); ++i) {
        const Operand operand{names[i], values[i]};
        if (names[i] != values[i] &&
            std::find(result.begin(), result.end(), operand) == result.end())
            result.push_back(operand);
    }
    return result;
}

bool is_single_name(std::string_view formula) {
    return formula.find(' ') == std::string_view::npos && !formula.empty();
}

std::pair<std::string, std::string> parts_of_rounding(const Derivation& line) {
    const auto comma = line.rounding.find(", ");
    if (line.formula.empty() || comma == std::string::npos)
        return {{}, line.rounding};
    return {line.rounding.substr(0, comma), line.rounding.substr(comma + 2)};
}

} // namespace ohmfolio::sheets
