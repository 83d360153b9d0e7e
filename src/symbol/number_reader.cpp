#include "symbol/number_reader.h"

#include <charconv>
#include <cmath>

namespace ohmfolio {

namespace {

constexpr double largest = 1000.0;

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

} // namespace

void NumberReader::skip_blanks() {
    while (at_ < text_.size() && std::string_view(" \t\r\n").find(text_[at_]) != text_.npos)
        ++at_;
}

void NumberReader::skip_separator() {
    skip_blanks();
    if (at_ < text_.size() && text_[at_] == ',')
        ++at_;
    skip_blanks();
}

std::optional<double> NumberReader::number() {
    const auto start = at_;
    skip_separator();
    const bool plus = at_ < text_.size() && text_[at_] == '+';
    const auto digits = text_.substr(at_ + (plus ? 1 : 0));
    double value = 0.0;
    const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    const bool signed_twice = plus && digits.starts_with('-');
    if (read.ec != std::errc{} || signed_twice || !(std::abs(value) <= largest)) {
        at_ = start;
        return std::nullopt;
    }
    at_ = static_cast<std::size_t>(read.ptr - text_.data());
    return value;
}

std::optional<bool> NumberReader::flag() {
    const auto start = at_;
    skip_separator();
    if (at_ < text_.size() && (text_[at_] == '0' || text_[at_] == '1'))
        return text_[at_++] == '1';
    at_ = start;
    return std::nullopt;
}

std::optional<char> NumberReader::letter() {
    skip_blanks();
    if (at_ < text_.size() && is_letter(text_[at_]))
        return text_[at_++];
    return std::nullopt;
}

bool NumberReader::at_end() {
    skip_blanks();
    return at_ == text_.size();
}

std::optional<double> whole_number(std::string_view text) {
    NumberReader reader(text);
    const auto value = reader.number();
    return reader.at_end() ? value : std::nullopt;
}

} // namespace ohmfolio
