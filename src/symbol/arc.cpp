#include "symbol/outline.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ohmfolio {

namespace {

Place operator+(Place a, Place b) { return {a.x + b.x, a.y + b.y}; }
Place operator-(Place a, Place b) { return {a.x - b.x, a.y - b.y}; }
Place operator*(double k, Place a) { return {k * a.x, k * a.y}; }

Place turned(Place p, double angle) {
    return {std::cos(angle) * p.x - std::sin(angle) * p.y,
            std::sin(angle) * p.x + std::cos(angle) * p.y};
}

/// An arc by its centre; angles in radians, growing clockwise on paper.
struct CentredArc {
    Place centre;
    double radius_x, radius_y;
    double turned_by;
    double start, sweep;

    Place at(double angle) const {
        return centre + turned({radius_x * std::cos(angle), radius_y * std::sin(angle)}, turned_by);
    }
    Place tangent(double angle) const {
        return turned({-radius_x * std::sin(angle), radius_y * std::cos(angle)}, turned_by);
    }
};

/// SVG 1.1, F.6.5 and F.6.6: from end points to centre.
CentredArc centred(const Arc& arc) {
    const double turned_by = arc.turned_degrees * std::numbers::pi / 180.0;
    const Place half = turned(0.5 * (arc.from - arc.to), -turned_by);
    double rx = std::abs(arc.radius_x);
    double ry = std::abs(arc.radius_y);
    const double reach = std::hypot(half.x / rx, half.y / ry);
    if (reach > 1.0) {
        rx *= reach;
        ry *= reach;
    }
    const Place unit{half.x / rx, half.y / ry};
    const double chord = unit.x * unit.x + unit.y * unit.y;
    const double side = arc.large == arc.clockwise ? -1.0 : 1.0;
    const double off = side * std::sqrt(std::max(0.0, 1.0 / chord - 1.0));
    const Place centre_unit{off * unit.y, -off * unit.x};
    const double start = std::atan2(unit.y - centre_unit.y, unit.x - centre_unit.x);
    const double end = std::atan2(-unit.y - centre_unit.y, -unit.x - centre_unit.x);
    double sweep = end - start;
    if (arc.clockwise && sweep < 0.0)
        sweep += 2.0 * std::numbers::pi;
    if (!arc.clockwise && sweep > 0.0)
        sweep -= 2.0 * std::numbers::pi;
    const Place centre =
        0.5 * (arc.from + arc.to) + turned({rx * centre_unit.x, ry * centre_unit.y}, turned_by);
    return {centre, rx, ry, turned_by, start, sweep};
}

std::vector<Segment> curves(const CentredArc& arc, Place last) {
    // A hair of slack, so that rounding does not split an exact quarter turn in two.
    const int pieces = std::max(
        1, static_cast<int>(std::ceil(std::abs(arc.sweep) / (std::numbers::pi / 2.0) - 1e-9)));
    const double step = arc.sweep / pieces;
    const double handle = 4.0 / 3.0 * std::tan(step / 4.0);
    std::vector<Segment> segments;
    for (int piece = 0; piece < pieces; ++piece) {
        const double begin = arc.start + step * piece;
        const double end = begin + step;
        const Place to = piece + 1 == pieces ? last : arc.at(end);
        segments.push_back({Segment::Kind::curve, paper_point(to),
                            paper_point(arc.at(begin) + handle * arc.tangent(begin)),
                            paper_point(arc.at(end) - handle * arc.tangent(end))});
    }
    return segments;
}

} // namespace

Point paper_point(Place place) { return {millimetres(place.x), millimetres(place.y)}; }

std::vector<Segment> arc_segments(const Arc& arc) {
    if (paper_point(arc.from) == paper_point(arc.to))
        return {};
    if (millimetres(arc.radius_x).nm == 0 || millimetres(arc.radius_y).nm == 0)
        return {{Segment::Kind::line, paper_point(arc.to), {}, {}}};
    return curves(centred(arc), arc.to);
}

std::vector<Segment> circle_segments(Place centre, double radius) {
    const Place start{centre.x + radius, centre.y};
    std::vector<Segment> segments = {{Segment::Kind::move, paper_point(start), {}, {}}};
    const CentredArc whole{centre, radius, radius, 0.0, 0.0, 2.0 * std::numbers::pi};
    for (const Segment& segment : curves(whole, start))
        segments.push_back(segment);
    segments.push_back({Segment::Kind::close, {}, {}, {}});
    return segments;
}

} // namespace ohmfolio
