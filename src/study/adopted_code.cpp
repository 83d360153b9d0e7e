#include "study/adopted_code.h"

#include <algorithm>
#include <cctype>

namespace ohmfolio::workings {

namespace {

bool is_digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

/// How far apart two stretches of a text are; they do not overlap.
std::size_t gap(std::size_t a, std::size_t a_size, std::size_t b, std::size_t b_size) {
    return a < b ? b - (a + a_size) : a - (b + b_size);
}

/// The year that stands nearest to a name, of those that the text holds: an ordinance has a year
/// of its own. Empty without any.
std::string year_beside(const std::string& text, std::size_t name, std::size_t name_size) {
    constexpr std::size_t digits = 4;
    std::string year;
    std::size_t nearest = text.size();
    for (std::size_t from = 0; from < text.size();) {
        std::size_t to = from;
        while (to < text.size() && is_digit(text[to]))
            ++to;
        if (to - from == digits && gap(from, digits, name, name_size) < nearest) {
            nearest = gap(from, digits, name, name_size);
            year = text.substr(from, digits);
        }
        from = std::max(to, from + 1);
    }
    return year;
}

std::string in_words(const std::string& letters) {
    return letters == "IRC"   ? "International Residential Code"
           : letters == "IFC" ? "International Fire Code"
                              : "";
}

/// "IRC 2021" is also written "2021 IRC" and "2021 International Residential Code".
bool names(const std::string& stated, const std::string& known) {
    const auto blank = known.find(' ');
    const std::string letters = known.substr(0, blank), year = known.substr(blank + 1);
    if (in_words(letters).empty())
        return stated.find(known) != std::string::npos;
    for (const std::string& name : {letters, in_words(letters)}) {
        const auto at = stated.find(name);
        if (at != std::string::npos && year_beside(stated, at, name.size()) == year)
            return true;
    }
    return false;
}

} // namespace

AdoptedCode adopted_code(const System& system, const std::vector<std::string>& known,
                         const std::string& usual) {
    for (const std::string& code : known) {
        for (const std::string& stated : system.project.other_codes) {
            if (names(stated, code))
                return {code, true};
        }
    }
    return {usual, false};
}

} // namespace ohmfolio::workings
