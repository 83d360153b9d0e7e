#include "symbol/source_places.h"

#include <algorithm>

namespace ohmfolio {

namespace {

constexpr std::string_view blanks = " \t\r\n";
constexpr std::string_view ends_name = " \t\r\n=/>";

} // namespace

Position SourcePlaces::position(std::size_t offset) const {
    const auto before = text_.substr(0, std::min(offset, text_.size()));
    const auto newline = before.rfind('\n');
    const auto line = newline == std::string_view::npos ? before : before.substr(newline + 1);
    const auto is_first_byte = [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    };
    return {1 + static_cast<int>(std::count(before.begin(), before.end(), '\n')),
            1 + static_cast<int>(std::count_if(line.begin(), line.end(), is_first_byte))};
}

Span SourcePlaces::span(std::size_t begin, std::size_t end) const {
    return {file_, position(begin), position(std::max(begin, end))};
}

Span SourcePlaces::element(std::size_t offset) const {
    return span(offset, std::min(text_.find_first_of(ends_name, offset), text_.size()));
}

std::vector<WrittenAttribute> SourcePlaces::attributes(std::size_t offset) const {
    std::vector<WrittenAttribute> found;
    auto at = text_.find_first_of(ends_name, offset);
    while (true) {
        at = text_.find_first_not_of(blanks, at);
        if (at == std::string_view::npos || text_[at] == '/' || text_[at] == '>')
            return found;
        const auto name_end = text_.find_first_of(ends_name, at);
        const auto quote = text_.find_first_of("\"'", at);
        if (name_end == std::string_view::npos || quote == std::string_view::npos)
            return found;
        const auto close = text_.find(text_[quote], quote + 1);
        if (close == std::string_view::npos)
            return found;
        found.push_back({text_.substr(at, name_end - at), at, quote + 1, close});
        at = close + 1;
    }
}

} // namespace ohmfolio
