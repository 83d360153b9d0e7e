#include "input/id_range.h"

#include <charconv>

#include <fmt/format.h>

namespace ohmfolio {
namespace {

constexpr std::string_view between = " to ";
constexpr int most_alike = 1000; ///< more equipment than one set takes

struct End {
    std::string_view stem, digits;
    int number = 0;
};

std::optional<End> end_of(std::string_view id) {
    const auto last = id.find_last_not_of("0123456789");
    const auto from = last == std::string_view::npos ? 0 : last + 1;
    End end{id.substr(0, from), id.substr(from), 0};
    const auto [stop, fault] =
        std::from_chars(end.digits.data(), end.digits.data() + end.digits.size(), end.number);
    return fault == std::errc{} ? std::optional(end) : std::nullopt;
}

} // namespace

std::string IdRange::id(int n) const {
    const std::string number = std::to_string(first + n);
    const std::size_t zeros = number.size() < digits ? digits - number.size() : 0;
    return stem + std::string(zeros, '0') + number;
}

bool is_id_range(std::string_view text) { return text.find(between) != std::string_view::npos; }

std::optional<IdRange> parse_id_range(std::string_view text) {
    const auto at = text.find(between);
    if (at == std::string_view::npos) {
        return std::nullopt;
    }
    const auto from = end_of(text.substr(0, at));
    const auto to = end_of(text.substr(at + between.size()));
    if (!from || !to || from->stem != to->stem || from->number >= to->number ||
        to->number - from->number >= most_alike) {
        return std::nullopt;
    }
    const bool padded = from->digits.starts_with('0') && from->digits.size() > 1;
    return IdRange{std::string(from->stem), from->number, to->number,
                   padded ? from->digits.size() : 0};
}

std::optional<std::string> id_for(std::string_view text, int n, int count) {
    if (!is_id_range(text)) {
        return std::string(text);
    }
    const auto range = parse_id_range(text);
    if (!range || range->count() > count || count % range->count() != 0) {
        return std::nullopt;
    }
    return range->id(n / (count / range->count()));
}

} // namespace ohmfolio
