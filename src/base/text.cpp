#include "base/text.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <fmt/format.h>

namespace ohmfolio {

namespace {

/// What a double holds for certain; more would show binary noise.
constexpr int significant_digits = 15;

/// The digits of a number and where its point stands: 0.DIGITS times ten to the `point`.
struct Digits {
    std::string digits;
    int point = 0;
};

Digits significant(double magnitude) {
    // "d.dddde[+-]xx": to_chars never looks at the locale.
    std::array<char, 64> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), magnitude,
                                   std::chars_format::scientific, significant_digits - 1);
    const std::string_view text(buffer.data(), static_cast<std::size_t>(end.ptr - buffer.data()));
    const auto e = text.find('e');
    auto exponent_text = text.substr(e + 1);
    if (exponent_text.starts_with('+'))
        exponent_text.remove_prefix(1);
    int exponent = 0;
    std::from_chars(exponent_text.data(), exponent_text.data() + exponent_text.size(), exponent);
    Digits result{std::string(text.substr(0, e)), exponent + 1};
    std::erase(result.digits, '.');
    return result;
}

/// Keeps `keep` digits; the first dropped digit decides, half away from zero.
void round_to(Digits& number, int keep) {
    const auto count = static_cast<int>(number.digits.size());
    if (keep >= count)
        return;
    const bool up = keep >= 0 && number.digits[static_cast<std::size_t>(keep)] >= '5';
    number.digits.resize(static_cast<std::size_t>(std::max(keep, 0)));
    if (!up)
        return;
    auto place = number.digits.rbegin();
    while (place != number.digits.rend() && *place == '9')
        *place++ = '0';
    if (place != number.digits.rend()) {
        ++*place;
        return;
    }
    number.digits.insert(number.digits.begin(), '1');
    ++number.point;
}

std::string lower_ascii(std::string_view text) {
    std::string result(text);
    for (char& c : result) {
        if (c >= 'A' && c <= 'Z')
            c = static_cast<char>(c - 'A' + 'a');
    }
    return result;
}

/// Insertions, deletions, replacements and swaps of neighbours that turn `a` into `b`.
int edit_distance(const std::string& a, const std::string& b) {
    const std::size_t width = b.size() + 1;
    std::vector<int> cost((a.size() + 1) * width);
    const auto at = [&](std::size_t i, std::size_t j) -> int& { return cost[i * width + j]; };
    for (std::size_t i = 0; i <= a.size(); ++i)
        at(i, 0) = static_cast<int>(i);
    for (std::size_t j = 0; j <= b.size(); ++j)
        at(0, j) = static_cast<int>(j);
    for (std::size_t i = 1; i <= a.size(); ++i) {
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const int replaced = at(i - 1, j - 1) + (a[i - 1] == b[j - 1] ? 0 : 1);
            at(i, j) = std::min({at(i - 1, j) + 1, at(i, j - 1) + 1, replaced});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                at(i, j) = std::min(at(i, j), at(i - 2, j - 2) + 1);
        }
    }
    return at(a.size(), b.size());
}

std::size_t character_length(std::string_view rest) {
    const auto first = static_cast<unsigned char>(rest.front());
    std::size_t length = 1;
    if (first >= 0xF0) {
        length = 4;
    } else if (first >= 0xE0) {
        length = 3;
    } else if (first >= 0xC0) {
        length = 2;
    }
    length = std::min(length, rest.size());
    for (std::size_t i = 1; i < length; ++i) {
        if ((static_cast<unsigned char>(rest[i]) & 0xC0U) != 0x80U)
            return 1;
    }
    return length;
}

} // namespace

std::string decimal(double value, int decimals) {
    if (!std::isfinite(value))
        return fmt::format("{}", value);
    Digits number = significant(std::abs(value));
    round_to(number, number.point + decimals);
    const auto digit = [&](int place) {
        const bool known = place >= 0 && place < static_cast<int>(number.digits.size());
        return known ? number.digits[static_cast<std::size_t>(place)] : '0';
    };
    std::string result;
    if (number.point <= 0) {
        result += '0';
    }
    for (int place = 0; place < number.point; ++place) {
        result += digit(place);
    }
    if (decimals > 0)
        result += '.';
    for (int i = 0; i < decimals; ++i)
        result += digit(number.point + i);
    const bool zero = result.find_first_of("123456789") == std::string::npos;
    return value < 0 && !zero ? fmt::format("-{}", result) : result;
}

std::string trimmed(double value, int max_decimals) {
    std::string result = decimal(value, max_decimals);
    if (result.find('.') == std::string::npos)
        return result;
    result.erase(result.find_last_not_of('0') + 1);
    if (result.ends_with('.'))
        result.pop_back();
    return result;
}

std::string upper(std::string_view text) {
    std::string result;
    result.reserve(text.size());
    for (const std::string_view character : characters(text)) {
        std::string capital(character);
        if (capital.size() == 1 && capital[0] >= 'a' && capital[0] <= 'z')
            capital[0] = static_cast<char>(capital[0] - 'a' + 'A');
        // U+00E0 to U+00FE stand 0x20 above their capitals, save the division sign.
        if (capital.size() == 2 && capital[0] == '\xC3') {
            const auto second = static_cast<unsigned char>(capital[1]);
            if (second >= 0xA0 && second <= 0xBE && second != 0xB7)
                capital[1] = static_cast<char>(second - 0x20);
        }
        result += capital;
    }
    return result;
}

std::string join(const std::vector<std::string>& parts, std::string_view between) {
    return fmt::format("{}", fmt::join(parts, between));
}

std::vector<std::string> wrapped(std::string_view text, int width) {
    std::vector<std::string> lines;
    std::string line;
    int length = 0; // of `line`, in characters
    const auto finish = [&] {
        lines.push_back(line);
        line.clear();
        length = 0;
    };
    while (!text.empty()) {
        const std::string_view word = text.substr(0, text.find(' '));
        text.remove_prefix(std::min(text.size(), word.size() + 1));
        if (word.empty())
            continue;
        const int needed = character_count(word) + (length > 0 ? 1 : 0);
        if (length > 0 && length + needed > width)
            finish();
        if (length > 0) {
            line += ' ';
            ++length;
        }
        for (const std::string_view character : characters(word)) {
            if (length == width)
                finish();
            line += character;
            ++length;
        }
    }
    if (length > 0)
        lines.push_back(line);
    return lines;
}

std::string nearest(std::string_view word, const std::vector<std::string>& candidates) {
    const std::string wanted = lower_ascii(word);
    std::string best;
    int best_distance = std::max(1, static_cast<int>(wanted.size()) / 3) + 1;
    for (const std::string& candidate : candidates) {
        const int distance = edit_distance(wanted, lower_ascii(candidate));
        // A word of one or two letters has nothing left in common after one change per letter.
        if (distance < best_distance && distance < static_cast<int>(wanted.size())) {
            best = candidate;
            best_distance = distance;
        }
    }
    return best;
}

std::string did_you_mean(std::string_view word, const std::vector<std::string>& candidates) {
    const std::string near = nearest(word, candidates);
    return near.empty() ? "" : fmt::format("did you mean \"{}\"?", near);
}

std::vector<std::string_view> characters(std::string_view utf8) {
    std::vector<std::string_view> result;
    result.reserve(utf8.size());
    while (!utf8.empty()) {
        const std::size_t length = character_length(utf8);
        result.push_back(utf8.substr(0, length));
        utf8.remove_prefix(length);
    }
    return result;
}

int character_count(std::string_view utf8) { return static_cast<int>(characters(utf8).size()); }

std::string_view without_byte_order_mark(std::string_view utf8) {
    constexpr std::string_view mark = "\xEF\xBB\xBF";
    return utf8.starts_with(mark) ? utf8.substr(mark.size()) : utf8;
}

} // namespace ohmfolio
