/// The lines of outlines, and where they meet.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "drawing/frame.h"

namespace ohmfolio {

/// A straight line between two points.
struct Stretch {
    Point from, to;
};

/// One connected part of a path, its curves replaced by short chords.
struct Outline {
    std::size_t mark = 0; ///< index of the mark it belongs to
    std::vector<Point> points;
    bool closed = false;

    std::size_t stretches() const { return points.empty() ? 0 : points.size() - 1; }
    Stretch stretch(std::size_t i) const { return {points[i], points[i + 1]}; }
    Box bounds() const;
};

std::vector<Outline> outlines_of(const Path& path, std::size_t mark);
/// The outlines of all marks with role `role`.
std::vector<Outline> outlines_of(const Frame& frame, Role role);

/// Where two stretches meet: in a point, or along `overlap`, of which `at` is the middle.
struct Meeting {
    Point at;
    Length overlap;
};
std::optional<Meeting> meeting(const Stretch& a, const Stretch& b);

Box bounds(const Stretch& stretch);
Length length(const Stretch& stretch);
Length distance(Point a, Point b);
Length distance(Point point, const Stretch& stretch);
/// True when part of the stretch lies inside the box, not just on its edge.
bool passes_through(const Stretch& stretch, const Box& box);
/// True when `point` lies inside the closed outline.
bool inside(Point point, const Outline& outline);
/// How much of the stretch lies inside the closed outline.
Length length_inside(const Stretch& stretch, const Outline& outline);

} // namespace ohmfolio
