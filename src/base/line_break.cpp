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

/// Of a count of sheets, "1 of 2".
bool is_of(std::string_view word) { return word == "of" || word == "OF"; }

/// One of several alike is told by it, "disconnect 2".
bool is_ordinal(std::string_view word) {
    constexpr std::size_t most_digits = 2;
    return word.size() <= most_digits && std::ranges::all_of(word, is_digit);
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
    if (last == "NEC")
        return is_digit(word.front());
    return is_digit(last.back()) && (is_unit(word) || is_of(word));
}

std::vector<std::string_view> line_pieces(std::string_view paragraph) {
    std::vector<std::string_view> pieces;
    std::string_view last; // the word before, where a single blank parts it from the next one
    std::size_t start = 0;
    const std::size_t last_word = paragraph.find_last_of(' ') + 1; // 0: the only one
    for (std::size_t at = 0; at < paragraph.size();) {
        const std::size_t end = std::min(paragraph.find(' ', at), paragraph.size());
        const std::string_view word = paragraph.substr(at, end - at);
        if (!word.empty()) {
            const bool counts = is_of(last) && pieces.back() != last && is_digit(word.front());
            const bool ends_it = !last.empty() && at == last_word && is_ordinal(word);
            if (counts || ends_it || belongs_to(word, last)) {
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
