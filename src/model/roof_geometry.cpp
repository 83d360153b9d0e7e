#include "model/roof_geometry.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/angle.h"

namespace ohmfolio {

namespace {

constexpr double touch = 1e-6; // feet: closer points are one

struct Vector {
    double x = 0, y = 0;
};
Vector between(PlanPoint from, PlanPoint to) {
    return {to.x.value - from.x.value, to.y.value - from.y.value};
}
double dot(Vector a, Vector b) { return a.x * b.x + a.y * b.y; }
double cross(Vector a, Vector b) { return a.x * b.y - a.y * b.x; }
double length(Vector v) { return std::hypot(v.x, v.y); }

/// Twice the area, positive against the clock.
double signed_area(const Corners& corners) {
    double sum = 0;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const PlanPoint& a = corners[i];
        const PlanPoint& b = corners[(i + 1) % corners.size()];
        sum += a.x.value * b.y.value - b.x.value * a.y.value;
    }
    return sum;
}

/// Unit vector away from the area, square to the edge that starts at corner `i`.
Vector outward(const Corners& corners, std::size_t i) {
    const Vector edge = between(corners[i], corners[(i + 1) % corners.size()]);
    const double size = length(edge);
    if (size < touch)
        return {};
    const double side = signed_area(corners) > 0 ? 1 : -1;
    return {side * edge.y / size, -side * edge.x / size};
}

Vector direction(Degrees bearing) { return {sine(bearing), cosine(bearing)}; }
double bearing_of(Vector v) { return degrees_of(std::atan2(v.x, v.y)).value; }

Vector downhill(const RoofPlane& plane, double north) {
    return direction({downhill_bearing(plane, north).value_or(plane.azimuth + north)});
}

EdgeKind kind_of(Vector outward, Vector downhill) {
    // Within a sixth of a right angle or so of square, an edge is not slanting.
    const double slanting = sine(Degrees{15}), square = cosine(Degrees{15});
    const double facing = dot(outward, downhill);
    if (facing > square)
        return EdgeKind::eave;
    if (facing < -square)
        return EdgeKind::ridge;
    if (std::abs(facing) < slanting)
        return EdgeKind::rake;
    return facing < 0 ? EdgeKind::hip : EdgeKind::valley;
}

/// Stretches along the eave, kept apart and in order.
using Stretches = std::vector<FreeStrip>;

Stretches along_edges(const RoofPlane& plane, double north, EdgeKind kind) {
    const RoofFrame frame = frame_of(plane, north);
    Stretches stretches;
    for (const RoofEdge& edge : edges_of(plane, north)) {
        if (edge.kind != kind)
            continue;
        const Feet a = frame.slope(edge.from).along, b = frame.slope(edge.to).along;
        stretches.push_back({std::min(a, b), std::max(a, b)});
    }
    std::ranges::sort(stretches, {}, &FreeStrip::left);
    return stretches;
}

Stretches common(const Stretches& a, const Stretches& b) {
    Stretches both;
    for (const FreeStrip& one : a) {
        for (const FreeStrip& other : b) {
            const FreeStrip part{std::max(one.left, other.left), std::min(one.right, other.right)};
            if (part.width().value > touch)
                both.push_back(part);
        }
    }
    return both;
}

void take_away(Stretches& stretches, const RoofArea& area) {
    Stretches left;
    for (const FreeStrip& strip : stretches) {
        const FreeStrip before{strip.left, std::min(strip.right, area.along)};
        const FreeStrip after{std::max(strip.left, area.right()), strip.right};
        for (const FreeStrip& part : {before, after}) {
            if (part.width().value > touch)
                left.push_back(part);
        }
    }
    stretches = std::move(left);
}

/// Between a rectangle and a line square to the slope, on the slope.
double distance(const RoofArea& area, RoofPoint from, RoofPoint to) {
    const double left = std::min(from.along.value, to.along.value);
    const double right = std::max(from.along.value, to.along.value);
    const double aside = std::max({0.0, left - area.right().value, area.along.value - right});
    return std::hypot(aside, from.up.value - area.top().value);
}

/// From a point to an edge, in plan.
Feet distance(PlanPoint point, const RoofEdge& edge) {
    const Vector line = between(edge.from, edge.to), to_point = between(edge.from, point);
    const double share = std::clamp(dot(line, to_point) / dot(line, line), 0.0, 1.0);
    return Feet{std::hypot(to_point.x - share * line.x, to_point.y - share * line.y)};
}

/// Where a line from `from` begins, crosses the outline and ends, as shares of it.
std::vector<double> cuts_by(const Corners& corners, PlanPoint from, Vector line) {
    std::vector<double> cuts = {0, 1};
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const Vector edge = between(corners[i], corners[(i + 1) % corners.size()]);
        const Vector to_edge = between(from, corners[i]);
        const double turn = cross(line, edge);
        if (std::abs(turn) < touch)
            continue;
        const double along_line = cross(to_edge, edge) / turn;
        const double along_edge = cross(to_edge, line) / turn;
        if (along_line > 0 && along_line < 1 && along_edge >= 0 && along_edge <= 1)
            cuts.push_back(along_line);
    }
    std::ranges::sort(cuts);
    return cuts;
}

/// True when two edges lie on one line and have a stretch in common.
bool share_stretch(PlanPoint a, PlanPoint b, PlanPoint c, PlanPoint d) {
    constexpr double near = 0.1; // feet: drafters scale outlines off photographs
    const Vector line = between(a, b);
    const double size = length(line);
    if (size < touch)
        return false;
    const auto off = [&](PlanPoint p) { return std::abs(cross(line, between(a, p))) / size; };
    if (off(c) > near || off(d) > near)
        return false;
    const double from = dot(line, between(a, c)) / size, to = dot(line, between(a, d)) / size;
    return std::min(size, std::max(from, to)) - std::max(0.0, std::min(from, to)) > near;
}

} // namespace

const char* name(EdgeKind kind) {
    constexpr std::array names = {"eave", "ridge", "rake", "hip", "valley"};
    return names.at(static_cast<std::size_t>(kind));
}

PlanPoint RoofFrame::plan(RoofPoint point) const {
    const double run = point.up.value / true_length;
    return {Feet{origin.x.value + right_x * point.along.value + uphill_x * run},
            Feet{origin.y.value + right_y * point.along.value + uphill_y * run}};
}

RoofPoint RoofFrame::slope(PlanPoint point) const {
    const Vector from = between(origin, point);
    return {Feet{dot(from, {right_x, right_y})},
            Feet{dot(from, {uphill_x, uphill_y}) * true_length}};
}

std::optional<double> downhill_bearing(const RoofPlane& plane, double north) {
    const Vector wanted = direction({plane.azimuth + north});
    std::optional<double> best;
    double nearest = -2;
    for (std::size_t i = 0; i < plane.corners.size(); ++i) {
        const Vector faces = outward(plane.corners, i);
        // Of edges that face alike, the first.
        if (length(faces) > 0.5 && dot(faces, wanted) > nearest + touch) {
            nearest = dot(faces, wanted);
            best = bearing_of(faces);
        }
    }
    return best;
}

RoofFrame frame_of(const RoofPlane& plane, double north) {
    const Vector down = downhill(plane, north);
    RoofFrame frame{.origin = plane.corners.front(),
                    .right_x = -down.y,
                    .right_y = down.x,
                    .uphill_x = -down.x,
                    .uphill_y = -down.y,
                    .true_length = 1 / cosine(Degrees{plane.tilt})};
    double left = std::numeric_limits<double>::max(), low = left;
    for (const PlanPoint& corner : plane.corners) {
        const RoofPoint at = frame.slope(corner);
        left = std::min(left, at.along.value);
        low = std::min(low, at.up.value);
    }
    frame.origin = frame.plan({Feet{left}, Feet{low}});
    return frame;
}

std::vector<RoofEdge> edges_of(const RoofPlane& plane, double north) {
    const Vector down = downhill(plane, north);
    std::vector<RoofEdge> edges;
    for (std::size_t i = 0; i < plane.corners.size(); ++i) {
        const PlanPoint from = plane.corners[i];
        const PlanPoint to = plane.corners[(i + 1) % plane.corners.size()];
        if (length(between(from, to)) > touch)
            edges.push_back({from, to, kind_of(outward(plane.corners, i), down)});
    }
    return edges;
}

SquareFeet plan_area(const Corners& corners) {
    return SquareFeet{std::abs(signed_area(corners)) / 2};
}

bool is_inside(const Corners& corners, PlanPoint point) {
    bool inside = false;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const PlanPoint a = corners[i], b = corners[(i + 1) % corners.size()];
        const Vector edge = between(a, b), to_point = between(a, point);
        const double size = length(edge);
        if (size < touch)
            continue;
        const double along = dot(edge, to_point) / size;
        if (std::abs(cross(edge, to_point)) / size < 1e-3 && along > -1e-3 && along < size + 1e-3)
            return true;
        const bool crosses = (a.y > point.y) != (b.y > point.y);
        if (crosses && to_point.x < edge.x * to_point.y / edge.y)
            inside = !inside;
    }
    return inside;
}

std::array<PlanPoint, 4> corners_on_plan(const RoofFrame& frame, const RoofArea& area) {
    return {frame.plan({area.along, area.up}), frame.plan({area.right(), area.up}),
            frame.plan({area.right(), area.top()}), frame.plan({area.along, area.top()})};
}

std::vector<RoofArea> parts_on(const RoofPlane& plane, PlanPoint from, PlanPoint to, double north) {
    const Vector line = between(from, to);
    const auto at = [&](double share) {
        return PlanPoint{Feet{from.x.value + share * line.x}, Feet{from.y.value + share * line.y}};
    };
    const RoofFrame frame = frame_of(plane, north);
    const std::vector<double> cuts = cuts_by(plane.corners, from, line);
    std::vector<RoofArea> parts;
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
        if (!is_inside(plane.corners, at((cuts[i] + cuts[i + 1]) / 2)))
            continue;
        const RoofPoint a = frame.slope(at(cuts[i])), b = frame.slope(at(cuts[i + 1]));
        parts.push_back(extent_of(RoofArea{a.along, a.up, {}, {}}, {b.along, b.up, {}, {}}));
    }
    return parts;
}

std::vector<FreeStrip> free_strips(const RoofPlane& plane, double north,
                                   const std::vector<RoofArea>& others) {
    Stretches strips = common(along_edges(plane, north, EdgeKind::eave),
                              along_edges(plane, north, EdgeKind::ridge));
    for (const ModuleField& field : plane.fields) {
        for (const SetModule& module : field.modules)
            take_away(strips, module.area);
    }
    for (const RoofObject& object : plane.objects)
        take_away(strips, object.area);
    for (const RoofArea& other : others)
        take_away(strips, other);
    return strips;
}

std::optional<Feet> ridge_setback(const RoofPlane& plane, double north) {
    const RoofFrame frame = frame_of(plane, north);
    std::optional<Feet> least;
    for (const RoofEdge& edge : edges_of(plane, north)) {
        if (edge.kind != EdgeKind::ridge)
            continue;
        for (const ModuleField& field : plane.fields) {
            for (const SetModule& module : field.modules) {
                const Feet away{
                    distance(module.area, frame.slope(edge.from), frame.slope(edge.to))};
                least = least ? std::min(*least, away) : away;
            }
        }
    }
    return least;
}

bool is_shared(const RoofEdge& edge, const RoofPlane& of, const std::vector<RoofPlane>& planes) {
    RoofPlane one;
    one.corners = {edge.from, edge.to};
    return std::ranges::any_of(
        planes, [&](const RoofPlane& other) { return &other != &of && are_adjacent(one, other); });
}

RoofArea extent_of(const RoofArea& a, const RoofArea& b) {
    const Feet along = std::min(a.along, b.along), up = std::min(a.up, b.up);
    return {along, up, std::max(a.right(), b.right()) - along, std::max(a.top(), b.top()) - up};
}

RoofArea extent_of(const ModuleField& field) {
    RoofArea extent = field.modules.front().area;
    for (const SetModule& module : field.modules)
        extent = extent_of(extent, module.area);
    return extent;
}

std::optional<Feet> distance_to_roof_edge(const std::vector<RoofPlane>& planes, double north) {
    std::vector<RoofEdge> outside;
    for (const RoofPlane& plane : planes) {
        for (const RoofEdge& edge : edges_of(plane, north)) {
            if (!is_shared(edge, plane, planes))
                outside.push_back(edge);
        }
    }
    std::optional<Feet> least;
    for (const RoofPlane& plane : planes) {
        for (const ModuleField& field : plane.fields) {
            for (const SetModule& module : field.modules) {
                for (const PlanPoint& corner :
                     corners_on_plan(frame_of(plane, north), module.area)) {
                    for (const RoofEdge& edge : outside) {
                        const Feet away = distance(corner, edge);
                        least = least ? std::min(*least, away) : away;
                    }
                }
            }
        }
    }
    return least;
}

SquareFeet array_area(const RoofPlane& plane, double north) {
    const double true_length = frame_of(plane, north).true_length;
    SquareFeet area{};
    for (const ModuleField& field : plane.fields) {
        for (const SetModule& module : field.modules)
            area = area + module.area.width * (module.area.height / true_length);
    }
    return area;
}

bool are_adjacent(const RoofPlane& a, const RoofPlane& b) {
    for (std::size_t i = 0; i < a.corners.size(); ++i) {
        for (std::size_t j = 0; j < b.corners.size(); ++j) {
            if (share_stretch(a.corners[i], a.corners[(i + 1) % a.corners.size()], b.corners[j],
                              b.corners[(j + 1) % b.corners.size()]))
                return true;
        }
    }
    return false;
}

} // namespace ohmfolio
