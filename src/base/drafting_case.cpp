#include "base/drafting_case.h"

#include <algorithm>
#include <array>
#include <cctype>

#include "base/text.h"

namespace ohmfolio {

namespace {

constexpr std::array<std::string_view, 12> cased_units = {
    "kW", "kWh", "kVA", "kA", "kAIC", "kcmil", "Wh", "mm", "ft", "Voc", "Vmp", "°C"};

bool is_word_end(char c) {
    return c == ' ' || c == ',' || c == ';' || c == '/' || c == '(' || c == ')' || c == '\n';
}

bool starts_with_digit(std::string_view word) {
    return !word.empty() && std::isdigit(static_cast<unsigned char>(word.front())) != 0;
}

/// "11.34" of "11.34kW": what stands before the unit of a value written without a blank.
std::string_view without_number(std::string_view word) {
    const std::size_t letter = word.find_first_not_of("0123456789.,-+");
    return letter == std::string_view::npos ? std::string_view{} : word.substr(letter);
}

bool keeps_case(std::string_view word) {
    const std::string_view unit = starts_with_digit(word) ? without_number(word) : word;
    return std::find(cased_units.begin(), cased_units.end(), unit) != cased_units.end();
}

} // namespace

std::string drafting_case(std::string_view text) {
    std::string out;
    std::size_t at = 0;
    while (at < text.size()) {
        std::size_t end = at;
        while (end < text.size() && !is_word_end(text[end])) {
            ++end;
        }
        const std::string_view word = text.substr(at, end - at);
        out += keeps_case(word) ? std::string(word) : upper(word);
        if (end < text.size()) {
            out += text[end];
        }
        at = end + 1;
    }
    return out;
}

} // namespace ohmfolio
