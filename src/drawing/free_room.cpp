#include "drawing/free_room.h"

#include <algorithm>

namespace ohmfolio {

std::vector<Box> taken_boxes(const Frame& frame, const TextMeasure& measure) {
    std::vector<Box> out;
    for (const Mark& mark : frame.marks) {
        if (const auto* text = std::get_if<Text>(&mark.item)) {
            out.push_back(text_box(*text, measure));
            continue;
        }
        const auto* path = std::get_if<Path>(&mark.item);
        if (path == nullptr) {
            continue;
        }
        if (mark.role != Role::wire && mark.role != Role::control) {
            out.push_back(bounds(*path));
            continue;
        }
        for (std::size_t i = 1; i < path->segments.size(); ++i) {
            const Point a = path->segments[i - 1].to, b = path->segments[i].to;
            out.push_back({{std::min(a.x, b.x), std::min(a.y, b.y)},
                           {std::max(a.x, b.x), std::max(a.y, b.y)}});
        }
    }
    return out;
}

std::optional<Point> free_room(const Frame& frame, Size block, Length clear,
                               const TextMeasure& measure) {
    const Box whole = box_at({}, frame.size);
    std::vector<Box> taken = taken_boxes(frame, measure);
    // A free block can be pushed up and right until it meets a mark or the edge, so only such
    // places need to be tried.
    std::vector<Length> tops{whole.low.y};
    std::vector<Length> rights{whole.high.x};
    for (Box& box : taken) {
        box = box.grown(clear);
        tops.push_back(box.high.y);
        rights.push_back(box.low.x);
    }
    std::optional<Point> best;
    const auto distance = [&whole, &block](Point p) {
        return (whole.high.x - p.x - block.width) + (p.y - whole.low.y);
    };
    for (const Length top : tops) {
        for (const Length right : rights) {
            const Box place = box_at({right - block.width, top}, block);
            const bool nearer = !best || distance(place.low) < distance(*best);
            if (nearer && whole.contains(place) &&
                std::none_of(taken.begin(), taken.end(),
                             [&place](const Box& box) { return box.overlaps(place); })) {
                best = place.low;
            }
        }
    }
    return best;
}

} // namespace ohmfolio
