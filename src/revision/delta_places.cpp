#include "revision/delta_places.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <utility>

#include "drawing/revision_marks.h"
#include "drawing/strokes.h"
#include "revision/table_rows.h"

namespace ohmfolio::revision {

namespace {

/// Between a delta and what stands beside it.
constexpr Length clear = points(1);
/// From a cloud to a delta that hangs on a leader, at least.
constexpr Length nearest_leader = points(7.5);
constexpr Length step = points(4);
constexpr Length furthest = inches(1.6);
/// A delta is a little higher than a row of one line.
constexpr Length beyond_its_row = points(1.6);
/// Arcs reach into the rows beside that of their cloud: what overlaps by less is not in it.
constexpr Length in_a_row = points(5);

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

/// From the drawing to the heavy line around it, which is as far away on all sides.
Length margin_beside(const Box& drawing, const std::vector<Box>& lines) {
    Length margin = drawing.low.x;
    for (const Box& line : lines) {
        const bool upright = line.low.x == line.high.x && line.low.y <= drawing.low.y &&
                             line.high.y >= drawing.high.y;
        if (upright && line.low.x <= drawing.low.x)
            margin = std::min(margin, drawing.low.x - line.low.x);
    }
    return margin;
}

/// The nearest of `box` to `point`, and the other way round.
Point nearest_on(const Box& box, Point point) {
    return {std::clamp(point.x, box.low.x, box.high.x), std::clamp(point.y, box.low.y, box.high.y)};
}

Length common_height(const Box& a, const Box& b) {
    return std::min(a.high.y, b.high.y) - std::max(a.low.y, b.low.y);
}

/// The triangle stands on its base: its upper half is half as wide.
std::array<Box, 2> body_of(const Box& delta) {
    const Length quarter = delta.width() / 4, middle = delta.centre().y;
    return {Box{{delta.low.x, middle}, delta.high},
            Box{{delta.low.x + quarter, delta.low.y}, {delta.high.x - quarter, middle}}};
}

/// Whether the arcs of a cloud would run through the number in the delta.
bool number_on_line_of(const Box& cloud, const Box& delta) {
    const CloudStyle style;
    const Box inner = cloud.grown(-(style.bulge + style.stroke.width));
    const Length quarter = delta.width() / 4;
    const Box number{{delta.low.x + quarter, delta.low.y + delta.height() / 3},
                     {delta.high.x - quarter, delta.high.y}};
    return number.overlaps(cloud) && !inner.contains(number);
}

/// Of the triangle.
Point nearest_corner(const Box& delta, Point to) {
    const std::array<Point, 3> corners{Point{delta.centre().x, delta.low.y},
                                       Point{delta.low.x, delta.high.y}, delta.high};
    return *std::ranges::min_element(corners, {}, [&](Point each) { return distance(each, to); });
}

/// Places around a cloud, `away` from it: along its sides, beside its middle first, then from the
/// upper right corner on.
std::vector<Box> places_around(const Box& cloud, Size delta, Length away) {
    std::vector<Box> places;
    const Length left = cloud.low.x - away - delta.width, right = cloud.high.x + away;
    const Length above = cloud.low.y - away - delta.height, below = cloud.high.y + away;
    const auto beside = [&](Length y) {
        places.push_back(box_at({right, y}, delta));
        places.push_back(box_at({left, y}, delta));
    };
    beside(cloud.centre().y - delta.height / 2);
    for (Length y = above; y <= below; y += step)
        beside(y);
    for (Length x = right; x >= left; x -= step) {
        places.push_back(box_at({x, above}, delta));
        places.push_back(box_at({x, below}, delta));
    }
    return places;
}

/// Upward and downward from the middle of the rows, as far as a delta may stand in them.
std::vector<Length> heights_in(const Box& rows, Length middle, Length delta) {
    const Length least = rows.low.y - beyond_its_row, most = rows.high.y + beyond_its_row - delta;
    std::vector<Length> tops;
    for (Length off{}; off <= rows.height(); off += points(1)) {
        for (const Length top : {middle - delta / 2 - off, middle - delta / 2 + off}) {
            if (top >= least && top <= most)
                tops.push_back(top);
        }
    }
    return tops;
}

} // namespace

DeltaPlaces::DeltaPlaces(const Sheet& sheet, std::vector<Box> clouds, const TextMeasure& measure)
    : clouds_(std::move(clouds)), rows_(table_rows(sheet.frame, measure)),
      paragraphs_(paragraphs(sheet.frame, measure)),
      lettering_(boxes_of_lettering(sheet.frame, measure, text_box)), lines_(lines_of(sheet.frame)),
      taken_(clouds_), lettering_grid_(grid_of(lettering_, sheet.border)),
      lines_grid_(grid_of(lines_, sheet.border)), taken_grid_(grid_of(taken_, sheet.border)) {
    const Length margin = margin_beside(sheet.drawing_area, lines_);
    drawing_ = sheet.drawing_area.grown(std::max(margin - wide_pen, Length{}));
    border_ = sheet.border;
}

DeltaPlaces::Room DeltaPlaces::room_of(std::size_t cloud) const {
    const Box& box = clouds_[cloud];
    Room room{cloud, {}, {}, drawing_.contains(box.centre()) ? drawing_ : border_};
    for (const Box& row : rows_) {
        if (row.low.x < box.high.x && box.low.x < row.high.x && common_height(row, box) > in_a_row)
            room.rows = room.rows ? united(*room.rows, row) : row;
    }
    room.line = room.rows;
    const auto around = std::ranges::find_if(
        paragraphs_, [&](const Box& each) { return each.contains(box.centre()); });
    if (!room.line && around != paragraphs_.end())
        room.line = Box{{around->low.x, box.low.y}, {around->high.x, box.high.y}};
    return room;
}

bool DeltaPlaces::stands_in_rows_of(const Room& room, const Box& delta) const {
    return room.rows && delta.low.y >= room.rows->low.y - beyond_its_row &&
           delta.high.y <= room.rows->high.y + beyond_its_row;
}

std::optional<int> DeltaPlaces::covers(const Box& delta, const Room& room) const {
    if (!room.within.contains(delta))
        return std::nullopt;
    if (room.within == border_ && drawing_.overlaps(delta))
        return std::nullopt;
    const bool over_border = lines_grid_.any_near(delta, [&](std::size_t id) {
        return !drawing_.contains(lines_[id]) && lines_[id].grown(wide_pen).overlaps(delta);
    });
    if (over_border)
        return std::nullopt;
    const bool in_another_row =
        !stands_in_rows_of(room, delta) &&
        std::ranges::any_of(rows_, [&](const Box& row) { return row.overlaps(delta); });
    if (in_another_row)
        return std::nullopt;
    if (number_on_line_of(clouds_[room.cloud], delta))
        return std::nullopt;
    for (const Box& part : body_of(delta)) {
        const Box reach = part.grown(clear);
        const bool over_lettering = lettering_grid_.any_near(
            reach, [&](std::size_t id) { return lettering_[id].overlaps(reach); });
        const bool over_taken = taken_grid_.any_near(
            reach, [&](std::size_t id) { return id != room.cloud && taken_[id].overlaps(reach); });
        if (over_lettering || over_taken)
            return std::nullopt;
    }
    int covered = 0;
    for (const std::size_t id : lines_grid_.near(delta)) {
        if (lines_[id].grown(points(0.1)).overlaps(delta))
            ++covered;
    }
    return covered;
}

/// A leader runs straight; what it may cross are lines.
bool DeltaPlaces::leader_is_free(Point from, Point to) const {
    const Stretch leader{from, to};
    const auto crossed = [&](const std::vector<Box>& boxes, Length beside) {
        return
            [&, beside](std::size_t id) { return passes_through(leader, boxes[id].grown(beside)); };
    };
    return !lettering_grid_.any_near(bounds(leader).grown(clear), crossed(lettering_, clear)) &&
           !taken_grid_.any_near(bounds(leader), crossed(taken_, {}));
}

/// The first of those that cover the fewest lines.
std::optional<DeltaPlace> DeltaPlaces::best_of(const std::vector<Box>& places, const Room& room,
                                               bool with_leader) const {
    std::optional<DeltaPlace> best;
    int least = 0;
    for (const Box& box : places) {
        const auto covered = covers(box, room);
        if (!covered || (best && *covered >= least))
            continue;
        DeltaPlace place{box, {}, {}};
        if (with_leader) {
            const Box& cloud = clouds_[room.cloud];
            place.leader_from = nearest_corner(box, cloud.centre());
            place.leader_to = nearest_on(cloud, place.leader_from);
            if (!leader_is_free(place.leader_from, place.leader_to))
                continue;
        }
        best = place;
        least = *covered;
        if (least == 0)
            break;
    }
    return best;
}

/// Places beside a cloud in a table, `inset` over its line.
std::vector<Box> DeltaPlaces::places_in_rows(const Room& room, Size delta, Length inset) const {
    const Box& cloud = clouds_[room.cloud];
    std::vector<Box> places;
    for (const Length top : heights_in(*room.rows, cloud.centre().y, delta.height)) {
        // Where it does not stand beside the cloud it would not touch it.
        if (std::min(top + delta.height, cloud.high.y) - std::max(top, cloud.low.y) < clear)
            continue;
        places.push_back(box_at({cloud.high.x - inset, top}, delta));
        places.push_back(box_at({cloud.low.x - delta.width + inset, top}, delta));
    }
    return places;
}

/// Beside the cloud; else over its line, where the lettering in it leaves room.
std::optional<DeltaPlace> DeltaPlaces::touching(const Room& room, Size delta) const {
    for (Length inset{}; inset <= delta.width; inset += points(3)) {
        const auto places = room.rows ? places_in_rows(room, delta, inset)
                                      : places_around(clouds_[room.cloud], delta, -inset);
        if (const auto place = best_of(places, room, false))
            return place;
    }
    return std::nullopt;
}

/// Beside the table or paragraph, else in the last or first cells, else over their frame.
std::optional<DeltaPlace> DeltaPlaces::at_end_of_line(const Room& room, Size delta) const {
    const Box& line = *room.line;
    const Length inward = delta.width + clear;
    const std::array<Length, 6> ends{line.high.x + clear,
                                     line.low.x - inward,
                                     line.high.x - inward,
                                     line.low.x + clear,
                                     room.within.high.x - delta.width,
                                     room.within.low.x};
    for (const Length x : ends) {
        std::vector<Box> places;
        for (const Length top : heights_in(line, clouds_[room.cloud].centre().y, delta.height))
            places.push_back(box_at({x, top}, delta));
        if (const auto place = best_of(places, room, false))
            return place;
    }
    return std::nullopt;
}

std::optional<DeltaPlace> DeltaPlaces::anywhere_in_row(const Room& room, Size delta) const {
    std::vector<Box> places;
    for (Length x = room.rows->high.x - delta.width; x >= room.rows->low.x; x -= points(1)) {
        for (const Length top :
             heights_in(*room.rows, clouds_[room.cloud].centre().y, delta.height))
            places.push_back(box_at({x, top}, delta));
    }
    return best_of(places, room, false);
}

std::optional<DeltaPlace> DeltaPlaces::with_leader(const Room& room, Size delta) const {
    for (Length away = nearest_leader; away <= furthest; away += points(6)) {
        if (auto place = best_of(places_around(clouds_[room.cloud], delta, away), room, true))
            return place;
    }
    return std::nullopt;
}

/// One delta in a line serves all of its clouds.
bool DeltaPlaces::marked_by_a_neighbour(const Room& room, const std::vector<DeltaPlace>& places,
                                        Length width) const {
    if (!room.line)
        return false;
    Box line = *room.line;
    line.low.x -= width; // it may stand beside its end
    line.high.x += width;
    return std::ranges::any_of(
        places, [&](const DeltaPlace& place) { return line.contains(place.box.centre()); });
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

void DeltaPlaces::take(const DeltaPlace& place) {
    for (const Box& part : body_of(place.box))
        take(part);
    take_leader(place.leader_from, place.leader_to);
}

DeltasOfSheet DeltaPlaces::place_all(Size delta) {
    DeltasOfSheet deltas;
    std::vector<Room> waiting;
    const auto settle = [&](const std::optional<DeltaPlace>& place) {
        if (place) {
            take(*place);
            deltas.places.push_back(*place);
        }
        return place.has_value();
    };
    for (std::size_t cloud = 0; cloud < clouds_.size(); ++cloud) {
        const Room room = room_of(cloud);
        if (!settle(touching(room, delta)))
            waiting.push_back(room);
    }
    for (const Room& room : waiting) {
        if (marked_by_a_neighbour(room, deltas.places, delta.width))
            continue;
        const bool settled = (room.line && settle(at_end_of_line(room, delta))) ||
                             settle(with_leader(room, delta)) ||
                             (room.rows && settle(anywhere_in_row(room, delta)));
        if (!settled)
            deltas.without.push_back(room.cloud);
    }
    return deltas;
}

} // namespace ohmfolio::revision
