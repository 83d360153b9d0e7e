#include "drawing/revision_marks.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace ohmfolio {

namespace {

/// A cubic curve whose handles stand this part of a bulge's height out passes through the bulge.
constexpr double handle_reach = 4.0 / 3.0;
/// Handles lean inward a little, which makes the arcs round and their meeting sharp.
constexpr double handle_lean = 0.12;

/// As many as are wanted around a small cloud.
constexpr std::int64_t arcs_around = 10;

/// Arcs from `from` to `to`, which lie on one side of the box; they bulge by `out`.
void add_side(Path& path, Point from, Point to, Point out, Length chord) {
    const Point way = to - from;
    const Length length =
        std::max(way.x < Length{} ? -way.x : way.x, way.y < Length{} ? -way.y : way.y);
    const auto arcs =
        std::max<std::int64_t>(1, std::llround(length.in_points() / chord.in_points()));
    for (std::int64_t i = 0; i < arcs; ++i) {
        const Point a = from + Point{way.x * i / arcs, way.y * i / arcs};
        const Point b = from + Point{way.x * (i + 1) / arcs, way.y * (i + 1) / arcs};
        const Point lean{scaled(b.x - a.x, handle_lean), scaled(b.y - a.y, handle_lean)};
        path.segments.push_back({Segment::Kind::curve, b, a + lean + out, b - lean + out});
    }
}

/// How wide a triangle is for each of its height: an equilateral one.
const double width_for_height = 2.0 / std::sqrt(3.0);

} // namespace

Path cloud(const Box& box, const CloudStyle& style) {
    const Length chord = std::clamp((box.width() + box.height()) / (arcs_around / 2),
                                    style.shortest_chord, style.longest_chord);
    Path path;
    path.stroke = style.stroke;
    const Length out = scaled(style.bulge, handle_reach);
    const Point upper_right{box.high.x, box.low.y}, lower_left{box.low.x, box.high.y};
    path.segments.push_back({Segment::Kind::move, box.low, {}, {}});
    add_side(path, box.low, upper_right, {{}, -out}, chord);
    add_side(path, upper_right, box.high, {out, {}}, chord);
    add_side(path, box.high, lower_left, {{}, out}, chord);
    add_side(path, lower_left, box.low, {-out, {}}, chord);
    path.segments.push_back({Segment::Kind::close, {}, {}, {}});
    return path;
}

Size delta_size(const std::string& number, const TextStyle& style, const TextMeasure& measure) {
    // The lettering stands on a margin above the base; where it ends the triangle is as wide as it.
    const Length top = points(2.2) + measure.cap_height(style);
    const Length width = measure.width(number, style) + points(2) + scaled(top, width_for_height);
    return {width, scaled(width, 1 / width_for_height)};
}

Frame delta(const std::string& number, const TextStyle& style, const std::string& shows,
            const TextMeasure& measure) {
    Frame frame;
    frame.size = delta_size(number, style, measure);
    const Length width = frame.size.width, height = frame.size.height;
    Path triangle;
    triangle.stroke = {thin_pen};
    triangle.filled = true;
    triangle.fill = white;
    triangle.segments = {{Segment::Kind::move, {width / 2, {}}, {}, {}},
                         {Segment::Kind::line, {width, height}, {}, {}},
                         {Segment::Kind::line, {{}, height}, {}, {}},
                         {Segment::Kind::close, {}, {}, {}}};
    frame.add(std::move(triangle), Role::revision, shows);
    frame.add(Text{{width / 2, height - points(2.2)}, number, style, Align::centre},
              Role::lettering, shows);
    return frame;
}

} // namespace ohmfolio
