#include "revision/delta_places.h"

#include <algorithm>
#include <cstdint>

#include "drawing/strokes.h"

namespace ohmfolio::revision {

namespace {

/// Between a delta and what stands beside it.
constexpr Length clear = points(1);
/// Beside the cloud, without a leader.
constexpr Length beside = points(1.5);
constexpr Length step = points(4);
constexpr Length furthest = inches(1.6);
/// Covering a line weighs as much as standing so much further away.
constexpr Length weight_of_line = points(14);

/// Lines of wires, symbols, enclosures and tables, leg by leg.
std::vector<Box> lines_of(const Frame& frame) {
    std::vector<Box> lines;
    for (const Role role : {Role::wire, Role::control, Role::symbol, Role::overlay, Role::enclosure,
                            Role::rule, Role::leader}) {
        for (const Outline& outline : outlines_of(frame, role)) {
            for (std::size_t i = 0; i < outline.stretches(); ++i)
                lines.push_back(bounds(outline.stretch(i)));
        }
    }
    return lines;
}

/// The nearest of `box` to `point`, and the other way round.
Point nearest_on(const Box& box, Point point) {
    return {std::clamp(point.x, box.low.x, box.high.x), std::clamp(point.y, box.low.y, box.high.y)};
}

/// Places around a cloud, `away` from it: along its sides, from the upper right corner on.
std::vector<Box> places_around(const Box& cloud, Size delta, Length away) {
    std::vector<Box> places;
    const Length left = cloud.low.x - away - delta.width, right = cloud.high.x + away;
    const Length above = cloud.low.y - away - delta.height, below = cloud.high.y + away;
    for (Length y = cloud.low.y - away - delta.height; y <= below; y += step) {
        places.push_back(box_at({right, y}, delta));
        places.push_back(box_at({left, y}, delta));
    }
    for (Length x = right; x >= left; x -= step) {
        places.push_back(box_at({x, above}, delta));
        places.push_back(box_at({x, below}, delta));
    }
    return places;
}

} // namespace

DeltaPlaces::DeltaPlaces(const Sheet& sheet, const std::vector<Box>& clouds,
                         const TextMeasure& measure)
    : lettering_(boxes_of_lettering(sheet.frame, measure, text_box)), lines_(lines_of(sheet.frame)),
      taken_(clouds), lettering_grid_(grid_of(lettering_, sheet.border)),
      lines_grid_(grid_of(lines_, sheet.border)), taken_grid_(grid_of(taken_, sheet.border)),
      within_(sheet.border) {}

std::optional<int> DeltaPlaces::covers(const Box& box) const {
    const Box reach = box.grown(clear);
    if (!within_.contains(reach))
        return std::nullopt;
    const auto any = [&](const BoxGrid& grid, const std::vector<Box>& boxes) {
        return grid.any_near(reach, [&](std::size_t id) { return boxes[id].overlaps(reach); });
    };
    if (any(lettering_grid_, lettering_) || any(taken_grid_, taken_))
        return std::nullopt;
    int covered = 0;
    for (const std::size_t id : lines_grid_.near(box)) {
        if (lines_[id].grown(points(0.1)).overlaps(box))
            ++covered;
    }
    return covered;
}

/// A leader runs straight; what it may cross are lines.
bool DeltaPlaces::leader_is_free(Point from, Point to) const {
    const Stretch leader{from, to};
    const auto crossed = [&](const std::vector<Box>& boxes) {
        return [&](std::size_t id) { return passes_through(leader, boxes[id]); };
    };
    return !lettering_grid_.any_near(bounds(leader), crossed(lettering_)) &&
           !taken_grid_.any_near(bounds(leader), crossed(taken_));
}

std::optional<DeltaPlace> DeltaPlaces::best_at(const Box& cloud, Size delta, Length away) const {
    std::optional<DeltaPlace> best;
    Length best_cost{};
    for (const Box& box : places_around(cloud, delta, away)) {
        const auto covered = covers(box);
        if (!covered)
            continue;
        const Length cost = weight_of_line * *covered;
        if (best && cost >= best_cost)
            continue;
        DeltaPlace place{box, {}, {}};
        if (away > beside) {
            place.leader_from = nearest_on(box, cloud.centre());
            place.leader_to = nearest_on(cloud, place.leader_from);
            if (!leader_is_free(place.leader_from, place.leader_to))
                continue;
        }
        best = place;
        best_cost = cost;
        if (cost == Length{})
            break;
    }
    return best;
}

void DeltaPlaces::take(const Box& box) {
    taken_grid_.add(taken_.size(), box);
    taken_.push_back(box);
}

/// Bit by bit: the box around a slanting line is mostly free.
void DeltaPlaces::take_leader(Point from, Point to) {
    const Point way = to - from;
    const std::int64_t bits = (length({from, to}) / step) + 1;
    for (std::int64_t i = 1; i < bits; ++i) {
        const Point at = from + Point{way.x * i / bits, way.y * i / bits};
        take(Box{at, at}.grown(step / 2));
    }
}

std::optional<DeltaPlace> DeltaPlaces::place(const Box& cloud, Size delta) {
    std::optional<DeltaPlace> best;
    for (Length away = beside; away <= furthest && !best; away += points(6))
        best = best_at(cloud, delta, away);
    if (best) {
        take(best->box);
        take_leader(best->leader_from, best->leader_to);
    }
    return best;
}

} // namespace ohmfolio::revision
