/// Points and boxes on paper. The origin is the upper left corner of the sheet; y grows downward.
#pragma once

#include <algorithm>

#include "base/length.h"

namespace ohmfolio {

struct Point {
    Length x, y;
    friend constexpr auto operator<=>(Point, Point) = default;
    friend constexpr Point operator+(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }
    friend constexpr Point operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
};

struct Size {
    Length width, height;
    friend constexpr auto operator<=>(Size, Size) = default;
};

struct Box {
    Point low;  ///< upper left
    Point high; ///< lower right
    friend constexpr auto operator<=>(Box, Box) = default;

    constexpr Length width() const { return high.x - low.x; }
    constexpr Length height() const { return high.y - low.y; }
    constexpr Point centre() const { return {(low.x + high.x) / 2, (low.y + high.y) / 2}; }
    constexpr bool contains(Point p) const {
        return p.x >= low.x && p.x <= high.x && p.y >= low.y && p.y <= high.y;
    }
    constexpr bool contains(const Box& b) const { return contains(b.low) && contains(b.high); }
    /// True when the interiors share area; touching edges do not count.
    constexpr bool overlaps(const Box& b) const {
        return low.x < b.high.x && b.low.x < high.x && low.y < b.high.y && b.low.y < high.y;
    }
    constexpr Box grown(Length by) const {
        return {{low.x - by, low.y - by}, {high.x + by, high.y + by}};
    }
    constexpr Box moved(Point by) const { return {low + by, high + by}; }
};

constexpr Box box_at(Point low, Size size) {
    return {low, {low.x + size.width, low.y + size.height}};
}
constexpr Box united(const Box& a, const Box& b) {
    return {{std::min(a.low.x, b.low.x), std::min(a.low.y, b.low.y)},
            {std::max(a.high.x, b.high.x), std::max(a.high.y, b.high.y)}};
}

} // namespace ohmfolio
