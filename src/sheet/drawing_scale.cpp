#include "sheet/drawing_scale.h"

#include <charconv>

#include "drawing/dimension.h"
#include "sheet/reading.h"

namespace ohmfolio::sheets {

namespace {

constexpr double inches_per_foot = 12;
constexpr std::string_view to_the_foot = "\" = 1'-0\"";

std::optional<double> ratio_to_the_foot(std::string_view words) {
    if (!words.ends_with(to_the_foot))
        return std::nullopt;
    words.remove_suffix(to_the_foot.size());
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
    return (whole + *rest).in_inches() / inches_per_foot;
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

std::string dimension_figure(Feet length, const DrawingScale& scale) {
    return scale.metric ? whole_millimetres(length) : feet_and_inches(length);
}

} // namespace ohmfolio::sheets
