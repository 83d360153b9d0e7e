#include "base/line_break.h"

#include <algorithm>
#include <array>

namespace ohmfolio {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::string_view without_ends(std::string_view word, std::string_view before,
                              std::string_view after) {
    word.remove_prefix(std::min(word.find_first_not_of(before), word.size()));
    while (!word.empty() && after.find(word.back()) != std::string_view::npos)
        word.remove_suffix(1);
    return word;
}

} // namespace

bool is_unit(std::string_view word) {
    static constexpr std::array<std::string_view, 26> units = {
        "A",  "kA", "V",   "W",    "kW", "VA", "kVA",   "Wh",  "kWh",   "h",  "ft", "°F",   "mm",
        "in", "%",  "in²", "cmil", "Ω",  "°C", "Ω/kft", "AWG", "kcmil", "CU", "AL", "%/°C", "V/°C"};
    return std::ranges::find(units, without_ends(word, "", ".,;:)")) != units.end();
}

bool belongs_to(std::string_view word, std::string_view before) {
    const std::string_view last = without_ends(before, "(", "");
    if (last.empty() || word.empty())
        return false;
    return last == "NEC" ? is_digit(word.front()) : is_digit(last.back()) && is_unit(word);
}

std::vector<std::string_view> line_pieces(std::string_view paragraph) {
    std::vector<std::string_view> pieces;
    std::string_view last; // the word before, where a single blank parts it from the next one
    std::size_t start = 0;
    for (std::size_t at = 0; at < paragraph.size();) {
        const std::size_t end = std::min(paragraph.find(' ', at), paragraph.size());
        const std::string_view word = paragraph.substr(at, end - at);
        if (!word.empty()) {
            if (belongs_to(word, last)) {
                pieces.back() = paragraph.substr(start, end - start);
            } else {
                pieces.push_back(word);
                start = at;
            }
        }
        last = word;
        at = end + 1;
    }
    return pieces;
}

} // namespace ohmfolio
