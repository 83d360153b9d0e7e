/// Outlines of SVG: path data and round shapes, turned into moves, lines and cubic curves. Lengths
/// of SVG are millimetres here.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "drawing/frame.h"

namespace ohmfolio {

/// A point in millimetres, before rounding to the nanometre of `Length`.
struct Place {
    double x = 0.0, y = 0.0;
};

Point paper_point(Place place);

/// What an elliptical arc of SVG path data says (SVG 1.1, 8.3.8).
struct Arc {
    Place from;
    double radius_x = 0.0, radius_y = 0.0;
    double turned_degrees = 0.0;
    bool large = false;
    bool clockwise = false; ///< on paper, where y grows downward
    Place to;
};

/// The arc as cubic curves of at most a quarter turn each, which stay within 0.03 % of the radius.
/// An arc without radius is a line; radii too small to reach are enlarged, as SVG asks.
std::vector<Segment> arc_segments(const Arc& arc);

/// A full circle, closed, that begins at its rightmost point.
std::vector<Segment> circle_segments(Place centre, double radius);

/// Why path data could not be read, and where in it.
struct PathFault {
    std::size_t offset = 0;
    std::string message;
};

/// Path data with the commands M L H V C Z A and their relative forms.
std::variant<std::vector<Segment>, PathFault> path_segments(std::string_view data);

/// The points of a polyline or polygon; nothing when they are not pairs of numbers.
std::optional<std::vector<Place>> point_list(std::string_view text);

} // namespace ohmfolio
