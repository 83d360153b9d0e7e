#include "drawing/frame.h"

#include <string_view>
#include <utility>

#include "base/text.h"

namespace ohmfolio {

namespace {

/// Stands between names of terminals; no name holds it.
constexpr char between_terminals = '\x1f';

/// Distance of the handles of a quarter circle from its ends, as a part of the radius; the usual
/// best fit, wrong by less than 0.03 % of the radius.
constexpr double quarter_circle_handle = 0.5522847498;

std::vector<Segment> circle_outline(Point centre, Length radius) {
    const Length handle = scaled(radius, quarter_circle_handle);
    const auto at = [&](Length x, Length y) { return centre + Point{x, y}; };
    using enum Segment::Kind;
    return {{move, at(radius, {}), {}, {}},
            {curve, at({}, radius), at(radius, handle), at(handle, radius)},
            {curve, at(-radius, {}), at(-handle, radius), at(-radius, handle)},
            {curve, at({}, -radius), at(-radius, -handle), at(-handle, -radius)},
            {curve, at(radius, {}), at(handle, -radius), at(radius, -handle)},
            {close, {}, {}, {}}};
}

std::vector<Segment> box_outline(const Box& box) {
    using enum Segment::Kind;
    return {{move, box.low, {}, {}},
            {line, {box.high.x, box.low.y}, {}, {}},
            {line, box.high, {}, {}},
            {line, {box.low.x, box.high.y}, {}, {}},
            {close, {}, {}, {}}};
}

Path stroked(std::vector<Segment> outline, Stroke stroke) {
    return {std::move(outline), true, stroke, false, black};
}

Path filled(std::vector<Segment> outline, Color fill) {
    return {std::move(outline), false, {}, true, fill};
}

struct MoveBy {
    Point by;
    void operator()(Path& path) const { path = moved(std::move(path), by); }
    void operator()(Text& text) const { text.at = text.at + by; }
    void operator()(Link& link) const { link.area = link.area.moved(by); }
    void operator()(Anchor& anchor) const { anchor.at = anchor.at + by; }
    void operator()(Port& port) const { port.at = port.at + by; }
    void operator()(Picture& picture) const { picture.at = picture.at.moved(by); }
    void operator()(Insert& insert) const { insert.area = insert.area.moved(by); }
    void operator()(Part&) const {}
    void operator()(View& view) const { view.zero = view.zero + by; }
};

} // namespace

void Frame::add(const Frame& other, Point by) {
    marks.reserve(marks.size() + other.marks.size());
    for (const Mark& mark : other.marks)
        marks.push_back({moved(mark.item, by), mark.role, mark.shows});
}

Path polyline(const std::vector<Point>& points, Stroke stroke) {
    std::vector<Segment> outline;
    outline.reserve(points.size());
    for (const Point point : points) {
        const auto kind = outline.empty() ? Segment::Kind::move : Segment::Kind::line;
        outline.push_back({kind, point, {}, {}});
    }
    return stroked(std::move(outline), stroke);
}

Path rectangle(const Box& box, Stroke stroke) { return stroked(box_outline(box), stroke); }

Path filled_rectangle(const Box& box, Color fill) { return filled(box_outline(box), fill); }

Path circle(Point centre, Length radius, Stroke stroke) {
    return stroked(circle_outline(centre, radius), stroke);
}

Path disc(Point centre, Length radius, Color fill) {
    return filled(circle_outline(centre, radius), fill);
}

Path moved(Path path, Point by) {
    for (Segment& segment : path.segments) {
        if (segment.kind == Segment::Kind::close)
            continue;
        segment.to = segment.to + by;
        if (segment.kind == Segment::Kind::curve) {
            segment.control1 = segment.control1 + by;
            segment.control2 = segment.control2 + by;
        }
    }
    return path;
}

Item moved(Item item, Point by) {
    std::visit(MoveBy{by}, item);
    return item;
}

Box bounds(const Path& path) {
    Box box;
    bool empty = true;
    const auto include = [&](Point point) {
        box = empty ? Box{point, point} : united(box, {point, point});
        empty = false;
    };
    for (const Segment& segment : path.segments) {
        if (segment.kind == Segment::Kind::close)
            continue;
        include(segment.to);
        if (segment.kind == Segment::Kind::curve) {
            include(segment.control1);
            include(segment.control2);
        }
    }
    return box;
}

std::string port_of_all(const std::vector<std::string>& names) {
    return join(names, std::string_view(&between_terminals, 1));
}

std::vector<std::string> terminals_of(const std::string& port_name) {
    std::vector<std::string> names;
    std::size_t begin = 0;
    for (std::size_t end = port_name.find(between_terminals); end != std::string::npos;
         end = port_name.find(between_terminals, begin)) {
        names.push_back(port_name.substr(begin, end - begin));
        begin = end + 1;
    }
    names.push_back(port_name.substr(begin));
    return names;
}

} // namespace ohmfolio
