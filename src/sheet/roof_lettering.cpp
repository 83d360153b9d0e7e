#include "sheet/roof_lettering.h"

#include <algorithm>

#include <fmt/format.h>

#include "sheet/no_room.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

/// A longer leader is worse than one across modules.
constexpr Length longest_leader = inches(1.5);

/// Where a leader leaves its lettering: from the side that faces what it names.
Point leader_end(const Box& box, Point to) {
    const Length away = points(2);
    if (to.x < box.low.x)
        return {box.low.x - away, box.centre().y};
    if (to.x > box.high.x)
        return {box.high.x + away, box.centre().y};
    return {box.centre().x, to.y < box.low.y ? box.low.y - away : box.high.y + away};
}

} // namespace

RoofLettering::RoofLettering(Frame& frame, OpenRoom& room, const Job& job, Length far)
    : frame_(frame), room_(room), job_(job), far_(far), style_(job.layout.lettering.body) {}

Size RoofLettering::size_of(const std::vector<std::string>& lines) const {
    Size size{{},
              lettering_height(static_cast<int>(lines.size()), style_, job_.measure) +
                  job_.measure.descent(style_)};
    for (const std::string& line : lines)
        size.width = std::max(size.width, job_.measure.width(line, style_));
    return size;
}

void RoofLettering::write_lines(const Box& box, const std::vector<std::string>& lines,
                                const std::string& shows) {
    Length y = box.low.y;
    for (const std::string& line : lines) {
        write_line(frame_, {box.centre().x, y}, line, {style_, Align::centre, black, shows},
                   job_.measure);
        y += line_pitch(style_);
    }
    room_.take(box);
}

std::optional<Box>
RoofLettering::place_beside(Size size, Point to,
                            const std::function<bool(const Box&)>& is_allowed) const {
    const auto look = [&](bool clear_leader) {
        const Length reach = clear_leader ? longest_leader : 2 * far_;
        return room_.nearest(size, to, reach, [&](const Box& place) {
            return is_allowed(place) &&
                   (!clear_leader || room_.is_free_line(leader_end(place, to), to));
        });
    };
    const auto box = look(true);
    return box ? box : look(false);
}

void RoofLettering::write_with_leader(Point to, const std::vector<std::string>& lines,
                                      const std::string& shows, LeaderEnd ends) {
    const auto box = place_beside(size_of(lines), to, [](const Box&) { return true; });
    if (!box) {
        tell_no_place(lines.front());
        return;
    }
    write_lines(*box, lines, shows);
    draw_leader(*box, to, shows, ends);
}

void RoofLettering::tell_no_place(const std::string& words) const {
    tell_no_room(job_, Severity::warning, job_.system.site.plan.span,
                 fmt::format("\"{}\" finds no room on the roof plan", words),
                 "a larger sheet format");
}

void RoofLettering::draw_leader(const Box& from, Point to, const std::string& shows,
                                LeaderEnd ends) {
    const Point end = leader_end(from, to);
    frame_.add(polyline({end, to}, {fine_pen}), Role::leader, shows);
    room_.take_line(end, to);
    if (ends == LeaderEnd::dot)
        frame_.add(disc(to, leader_dot, black), Role::leader, shows);
}

void RoofLettering::write_beside(const Box& box, const std::string& words,
                                 const std::string& shows) {
    const Size size = size_of({words});
    const Length half = box.width() / 2 + size.width / 2 + clear_of_lettering + points(2);
    const Length over = box.height() / 2 + size.height / 2 + clear_of_lettering + points(2);
    const Point middle = box.centre();
    for (const Point& at : {Point{middle.x + half, middle.y}, Point{middle.x - half, middle.y},
                            Point{middle.x, middle.y - over}, Point{middle.x, middle.y + over}}) {
        const Box place{{at.x - size.width / 2, at.y - size.height / 2},
                        {at.x + size.width / 2, at.y + size.height / 2}};
        if (room_.is_free(place)) {
            write_lines(place, {words}, shows);
            return;
        }
    }
    write_with_leader(middle, {words}, shows);
}

} // namespace ohmfolio::sheets
