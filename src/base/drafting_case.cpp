#include "base/drafting_case.h"

#include <algorithm>
#include <array>

#include "base/text.h"

namespace ohmfolio {

namespace {

constexpr std::array<std::string_view, 15> cased_words = {"kW",    "kWh", "kVA", "kA", "kAIC",
                                                          "kcmil", "Wh",  "mm",  "ft", "Voc",
                                                          "Vmp",   "Isc", "Imp", "°C", "in²"};
constexpr std::string_view number_letters = "0123456789.,-+/";

bool is_digit(char c) { return c >= '0' && c <= '9'; }

bool is_word_end(char c) {
    return c == ' ' || c == ',' || c == ';' || c == ':' || c == '/' || c == '(' || c == ')' ||
           c == '\n';
}

bool is_number(std::string_view word) {
    return !word.empty() && is_digit(word.front()) &&
           word.find_first_not_of(number_letters) == std::string_view::npos;
}

/// "kW" of "11.34kW": what stands behind the number of a value written without a blank.
std::string_view without_number(std::string_view word) {
    if (word.empty() || !is_digit(word.front()))
        return word;
    const std::size_t letter = word.find_first_not_of(number_letters);
    return letter == std::string_view::npos ? std::string_view{} : word.substr(letter);
}

/// A letter in brackets of its own, right behind a number or a further bracket.
bool is_paragraph_letter(std::string_view text, std::size_t from, std::size_t to) {
    if (to - from != 1 || from < 2 || to >= text.size() || text[from - 1] != '(' || text[to] != ')')
        return false;
    return text[from - 2] == ')' || is_digit(text[from - 2]);
}

} // namespace

std::string drafting_case(std::string_view text) {
    std::string out;
    std::string_view before; // the word before, where only a blank parts it from this one
    std::size_t from = 0;
    while (from < text.size()) {
        std::size_t to = from;
        while (to < text.size() && !is_word_end(text[to]))
            ++to;
        const std::string_view word = text.substr(from, to - from);
        const bool cased =
            std::ranges::find(cased_words, without_number(word)) != cased_words.end() ||
            ((word == "in" || word == "s") && is_number(before)) ||
            is_paragraph_letter(text, from, to);
        out += cased ? std::string(word) : upper(word);
        if (to < text.size())
            out += text[to];
        before = to < text.size() && text[to] == ' ' ? word : std::string_view{};
        from = to + 1;
    }
    return out;
}

} // namespace ohmfolio
