#include "sheet/view_lettering.h"

#include <algorithm>
#include <cstddef>

#include <fmt/format.h>

#include "sheet/legend.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

constexpr Length clear = points(4);
/// Between lettering and a line beside it.
constexpr Length near = points(2.5);
/// From one place that is tried to the next.
constexpr Length step = points(6);

bool none_overlaps(const std::vector<Box>& boxes, const Box& area) {
    return std::ranges::none_of(boxes, [&](const Box& each) { return each.overlaps(area); });
}

Box box_of(const Frame& label, Point low) { return box_at(low, label.size); }

} // namespace

bool ViewLettering::is_free(const Box& words) const {
    return view_.contains(words) && none_overlaps(taken_, words) &&
           none_overlaps(lines_, words.grown(near / 2));
}

Frame ViewLettering::label_of(const std::vector<std::string>& lines,
                              const std::string& shows) const {
    Frame label;
    for (const std::string& line : lines)
        label.size.width = std::max(label.size.width, measure_.width(line, style_));
    Length y{};
    for (const std::string& line : lines) {
        write_line(label, {label.size.width / 2, y}, line, {style_, Align::centre, black, shows},
                   measure_);
        y += line_pitch(style_);
    }
    label.size.height = lettering_height(static_cast<int>(lines.size()), style_, measure_) +
                        measure_.descent(style_);
    return label;
}

/// The same words have the same number.
Frame ViewLettering::number_for(const std::string& words, const std::string& shows) {
    auto found = std::ranges::find(keyed_, words);
    if (found == keyed_.end())
        found = keyed_.insert(keyed_.end(), words);
    Frame circle = keyed_circle(fmt::format("{}", found - keyed_.begin() + 1), style_, measure_);
    for (Mark& mark : circle.marks)
        mark.shows = shows;
    return circle;
}

/// Reads upward, for what is high and narrow.
Frame ViewLettering::turned_label(const std::string& words, const std::string& shows) const {
    Frame label;
    const Length capitals = measure_.cap_height(style_);
    label.size = {capitals + measure_.descent(style_), measure_.width(words, style_)};
    label.add(Text{{capitals, label.size.height}, words, style_, Align::left, black, true},
              Role::lettering, shows);
    return label;
}

template <class Place>
void ViewLettering::write(const std::vector<Frame>& ways, const std::string& words,
                          const std::string& shows, Place place) {
    if (std::ranges::any_of(ways, place))
        return;
    const std::size_t before = keyed_.size();
    if (place(number_for(words, shows)))
        return;
    keyed_.resize(before);
    unplaced_.push_back(words);
}

bool ViewLettering::put(const Frame& label, Point low) {
    const Box box = box_of(label, low);
    frame_.add(label, low);
    taken_.push_back(box.grown(near / 2));
    return true;
}

/// In its middle; where a line runs through that, higher or lower.
bool ViewLettering::in_outline(const Box& outline, const Frame& label) {
    if (label.size.width + 2 * near > outline.width() ||
        label.size.height + 2 * near > outline.height())
        return false;
    const Length spare = outline.height() - label.size.height;
    for (const int eighths : {4, 3, 5, 2, 6, 1, 7}) {
        const Point low{outline.centre().x - label.size.width / 2,
                        outline.low.y + spare * eighths / 8};
        if (none_overlaps(lines_, box_of(label, low).grown(near / 2)))
            return put(label, low);
    }
    return false;
}

bool ViewLettering::beside_at(const Box& outline, const Frame& label, Length low_x, int line,
                              bool over, const std::string& shows) {
    const Length away = line_pitch(style_) * line + clear;
    const Point low{low_x, over ? outline.low.y - away - label.size.height : outline.high.y + away};
    const Box words = box_of(label, low);
    const Length middle = outline.centre().x;
    const Length from = over ? words.high.y : outline.high.y;
    const Length to = over ? outline.low.y : words.low.y;
    const Box leader{{middle - points(1), from + points(0.5)},
                     {middle + points(1), to - points(0.5)}};
    if (!is_free(words.grown(near / 2)) || (line > 0 && !none_overlaps(taken_, leader)))
        return false;
    if (line > 0) {
        frame_.add(polyline({{middle, from}, {middle, to}}, {fine_pen}), Role::leader, shows);
        take(leader);
    }
    return put(label, low);
}

/// Close to it, in its middle.
bool ViewLettering::next_to_outline(const Box& outline, const Frame& label,
                                    const std::string& shows) {
    const Length low_x = outline.centre().x - label.size.width / 2;
    return beside_at(outline, label, low_x, 0, true, shows) ||
           beside_at(outline, label, low_x, 0, false, shows);
}

/// Over or under it with a leader, in its middle or to one side.
bool ViewLettering::beside_outline(const Box& outline, const Frame& label,
                                   const std::string& shows) {
    constexpr int most_lines = 16;
    for (int line = 1; line < most_lines; ++line) {
        for (const bool over : {true, false}) {
            for (const int eighths : {4, 3, 5, 2, 6, 1, 7}) {
                const Length low_x = outline.centre().x - label.size.width * eighths / 8;
                if (beside_at(outline, label, low_x, line, over, shows))
                    return true;
            }
        }
    }
    return false;
}

/// To its right or left at the height of its middle, from the second step on with a leader.
bool ViewLettering::at_side(const Box& outline, const Frame& label, const std::string& shows) {
    constexpr int most_steps = 40;
    const Length middle = outline.centre().y;
    const Length top = middle - label.size.height / 2;
    for (int i = 0; i < most_steps; ++i) {
        for (const bool right : {true, false}) {
            const Length away = clear + step * i;
            const Point low{right ? outline.high.x + away : outline.low.x - away - label.size.width,
                            top};
            const Box words = box_of(label, low);
            const Length from = right ? outline.high.x : words.high.x;
            const Length to = right ? words.low.x : outline.low.x;
            const Box leader{{from + points(0.5), middle - points(1)},
                             {to - points(0.5), middle + points(1)}};
            if (!is_free(words.grown(near / 2)) || (i > 0 && !none_overlaps(taken_, leader)))
                continue;
            if (i > 0) {
                const Length gap = points(1); // between the leader and its words
                frame_.add(
                    polyline({{right ? from : from + gap, middle}, {right ? to - gap : to, middle}},
                             {fine_pen}),
                    Role::leader, shows);
                take(leader);
            }
            return put(label, low);
        }
    }
    return false;
}

void ViewLettering::name_outline(const Box& outline, const std::string& words,
                                 const std::string& shows) {
    const auto lines = wrapped(words, style_, outline.width() - 2 * near, measure_);
    std::vector<Frame> ways = {label_of({words}, shows)};
    if (lines.size() > 1)
        ways.push_back(label_of(lines, shows));
    const auto inside = [&](const Frame& label) { return in_outline(outline, label); };
    const auto next_to = [&](const Frame& label) { return next_to_outline(outline, label, shows); };
    if (std::ranges::any_of(ways, inside) || std::ranges::any_of(ways, next_to) ||
        in_outline(outline, turned_label(words, shows)))
        return;
    write(ways, words, shows, [&](const Frame& label) {
        return inside(label) || next_to(label) || beside_outline(outline, label, shows) ||
               at_side(outline, label, shows);
    });
}

bool ViewLettering::along(Length from, Length to, Length top, const Frame& label) {
    for (Length x = from; x + label.size.width <= to; x += step) {
        if (is_free(box_of(label, {x, top}).grown(near / 2)))
            return put(label, {x, top});
    }
    return false;
}

/// What fills most of the width stands in the middle of it.
bool ViewLettering::in_area(const Box& area, const Frame& label) {
    const Length spare = area.width() - label.size.width;
    const Length inset = spare < label.size.width ? std::max(spare / 2, clear) : clear;
    for (Length top = area.low.y + clear; top + label.size.height + clear <= area.high.y;
         top += step) {
        if (along(area.low.x + inset, area.high.x - clear, top, label) ||
            along(area.low.x + clear, area.high.x - clear, top, label))
            return true;
    }
    return false;
}

void ViewLettering::name_area(const Box& area, const std::string& words, const std::string& shows) {
    const Length one_line = measure_.width(words, style_);
    const Length room = area.width() - 2 * (clear + near);
    const Length width = balanced_width(words, style_, std::min(room, one_line * 2 / 3), measure_);
    std::vector<Frame> ways = {label_of({words}, shows),
                               label_of(wrapped(words, style_, width, measure_), shows)};
    if (one_line > room)
        std::swap(ways[0], ways[1]);
    write(ways, words, shows, [&](const Frame& label) {
        // Wider than the area, the words over it still end before the view does.
        const Length left = std::min(area.low.x + clear, view_.high.x - label.size.width - near);
        const Length right = std::max(area.high.x, left + label.size.width);
        return in_area(area, label) ||
               along(left, right, area.low.y - clear - label.size.height, label);
    });
}

void ViewLettering::name_line(const Point& from, const Point& to, const std::string& words,
                              const std::string& shows) {
    write({label_of({words}, shows)}, words, shows, [&](const Frame& label) {
        return along(from.x + clear, to.x - clear, from.y - near - label.size.height, label) ||
               along(from.x + clear, to.x - clear, from.y + near, label);
    });
}

Frame ViewLettering::keys(Length width) const {
    Frame list;
    const Length gap = points(12);
    Point low{};
    for (std::size_t i = 0; i < keyed_.size(); ++i) {
        const Frame mark = keyed_circle(fmt::format("{}", i + 1), style_, measure_);
        const Length left = mark.size.width + points(4);
        const Length all = left + measure_.width(keyed_[i], style_);
        if (low.x > Length{} && low.x + all > width)
            low = {{}, low.y + mark.size.height + near};
        list.add(mark, low);
        write_line(list,
                   {low.x + left, low.y + mark.size.height / 2 - measure_.cap_height(style_) / 2},
                   keyed_[i], {style_}, measure_);
        list.size = {std::max(list.size.width, low.x + all), low.y + mark.size.height};
        low.x += all + gap;
    }
    return list;
}

} // namespace ohmfolio::sheets
