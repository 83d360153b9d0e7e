#include "sheet/drawing_scale.h"

#include <charconv>

#include "drawing/dimension.h"
#include "sheet/reading.h"

namespace ohmfolio::sheets {

namespace {

constexpr double inches_per_foot = 12;
constexpr std::string_view equals = "\" = ";
constexpr std::string_view no_inches = "'-0\"";

/// The feet after the sign: "1'-0\"" of an architect's scale, "20'-0\"" of an engineer's.
std::optional<int> whole_feet(std::string_view words) {
    int feet = 0;
    const auto end = std::from_chars(words.data(), words.data() + words.size(), feet);
    const auto rest = words.substr(static_cast<std::size_t>(end.ptr - words.data()));
    if (end.ec != std::errc{} || feet < 1 || rest != no_inches)
        return std::nullopt;
    return feet;
}

std::optional<double> ratio_to_the_foot(std::string_view words) {
    const auto sign = words.find(equals);
    const auto feet = sign == std::string_view::npos
                          ? std::nullopt
                          : whole_feet(words.substr(sign + equals.size()));
    if (!feet)
        return std::nullopt;
    words = words.substr(0, sign);
    // "1-1/2" is a whole number and a fraction.
    Length whole{};
    if (const auto hyphen = words.find('-'); hyphen != std::string_view::npos) {
        const auto before = parse_length(std::string(words.substr(0, hyphen)) + " in");
        if (!before)
            return std::nullopt;
        whole = *before;
        words.remove_prefix(hyphen + 1);
    }
    const auto rest = parse_length(std::string(words) + " in");
    if (!rest)
        return std::nullopt;
    return (whole + *rest).in_inches() / inches_per_foot / *feet;
}

std::optional<double> ratio_one_to(std::string_view words) {
    if (!words.starts_with("1:"))
        return std::nullopt;
    words.remove_prefix(2);
    int number = 0;
    const auto end = std::from_chars(words.data(), words.data() + words.size(), number);
    if (end.ec != std::errc{} || end.ptr != words.data() + words.size() || number < 1)
        return std::nullopt;
    return 1.0 / number;
}

} // namespace

Length DrawingScale::on_paper(Feet length) const {
    return inches(length.value * inches_per_foot * ratio);
}

std::optional<DrawingScale> parse_scale(std::string_view words) {
    const auto metric = ratio_one_to(words);
    const auto ratio = metric ? metric : ratio_to_the_foot(words);
    if (!ratio || *ratio <= 0)
        return std::nullopt;
    return DrawingScale{std::string(words), *ratio, metric.has_value()};
}

std::string dimension_figure(Feet length, const DrawingScale& scale, Nearest nearest) {
    return scale.metric ? whole_millimetres(length) : feet_and_inches(length, nearest);
}

} // namespace ohmfolio::sheets
