#include "sheet/open_room.h"

#include <algorithm>

namespace ohmfolio::sheets {

bool crosses(Point from, Point to, const Box& box) {
    // Liang and Barsky: the stretch of the line that lies between both pairs of sides.
    double enters = 0, leaves = 1;
    const auto between = [&](Length start, Length along, Length low, Length high) {
        if (along.nm == 0)
            return start >= low && start <= high;
        const auto share = [&](Length side) {
            return static_cast<double>((side - start).nm) / static_cast<double>(along.nm);
        };
        enters = std::max(enters, std::min(share(low), share(high)));
        leaves = std::min(leaves, std::max(share(low), share(high)));
        return enters <= leaves;
    };
    return between(from.x, to.x - from.x, box.low.x, box.high.x) &&
           between(from.y, to.y - from.y, box.low.y, box.high.y);
}

namespace {

/// As large as sheets are; what lies beyond is found as well, if slower.
constexpr Box usual_area{{}, {inches(36), inches(24)}};

} // namespace

OpenRoom::OpenRoom(Length clear)
    : clear_(clear), near_boxes_(usual_area), near_lines_(usual_area) {}

void OpenRoom::take(const Box& box) {
    near_boxes_.add(boxes_.size(), box);
    boxes_.push_back(box);
}

void OpenRoom::take_line(Point from, Point to) {
    near_lines_.add(lines_.size(), {{std::min(from.x, to.x), std::min(from.y, to.y)},
                                    {std::max(from.x, to.x), std::max(from.y, to.y)}});
    lines_.push_back({from, to});
}

void OpenRoom::take_marks(const Frame& frame, std::size_t first, const TextMeasure& measure) {
    for (std::size_t i = first; i < frame.marks.size(); ++i) {
        if (const auto* path = std::get_if<Path>(&frame.marks[i].item))
            take(bounds(*path));
        if (const auto* text = std::get_if<Text>(&frame.marks[i].item))
            take(text_box(*text, measure));
    }
}

void OpenRoom::take_outline(const std::vector<Point>& corners) {
    for (std::size_t i = 0; i < corners.size(); ++i)
        take_line(corners[i], corners[(i + 1) % corners.size()]);
}

bool OpenRoom::is_free(const Box& box) const {
    const Box wide = box.grown(clear_);
    const bool met =
        near_boxes_.any_near(wide, [&](std::size_t i) { return boxes_[i].overlaps(wide); });
    return !met && !near_lines_.any_near(wide, [&](std::size_t i) {
        return crosses(lines_[i].from, lines_[i].to, wide);
    });
}

bool OpenRoom::is_free_line(Point from, Point to) const {
    return std::ranges::none_of(
        boxes_, [&](const Box& taken) { return !taken.contains(to) && crosses(from, to, taken); });
}

std::optional<Box> OpenRoom::nearest(Size size, Point middle, Length reach,
                                     const std::function<bool(const Box&)>& is_allowed) const {
    const Length step = std::max(clear_, millimetres(1));
    const auto rings = static_cast<int>(reach / step);
    const auto tried = [&](int right, int down) -> std::optional<Box> {
        const Point low{middle.x - size.width / 2 + step * right,
                        middle.y - size.height / 2 + step * down};
        const Box box = box_at(low, size);
        return is_free(box) && is_allowed(box) ? std::optional(box) : std::nullopt;
    };
    for (int ring = 0; ring <= rings; ++ring) {
        // On a ring the places right above, below and beside the middle come first.
        for (int aside = 0; aside <= ring; ++aside) {
            for (const int a : {aside, -aside}) {
                for (const auto& [right, down] : {std::pair{a, -ring}, std::pair{a, ring},
                                                  std::pair{ring, a}, std::pair{-ring, a}}) {
                    if (auto box = tried(right, down))
                        return box;
                }
            }
        }
    }
    return std::nullopt;
}

} // namespace ohmfolio::sheets
