#include <algorithm>
#include <string_view>

#include "drawing/sheet.h"

namespace ohmfolio {

namespace {

/// I and O are left out, as ASME Y14.1 and ISO 5457 ask: they are read as figures.
constexpr std::string_view row_letters = "ABCDEFGHJKLMNPQRSTUVWXYZ";

} // namespace

std::string zone_row(const Zones& zones, int from_bottom) {
    const int row = zones.from_upper_left ? zones.rows - 1 - from_bottom : from_bottom;
    return std::string(1, row_letters[static_cast<std::size_t>(row)]);
}

std::string zone_column(const Zones& zones, int from_right) {
    return std::to_string((zones.from_upper_left ? zones.columns - 1 - from_right : from_right) +
                          1);
}

std::string zone_at(const Zones& zones, Point point) {
    const auto index = [](Length from, Length whole, int count) {
        const auto at = static_cast<int>(from * count / whole);
        return std::clamp(at, 0, count - 1);
    };
    const Box& outer = zones.outer;
    return zone_row(zones, index(outer.high.y - point.y, outer.height(), zones.rows)) +
           zone_column(zones, index(outer.high.x - point.x, outer.width(), zones.columns));
}

} // namespace ohmfolio
