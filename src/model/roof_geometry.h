/// The geometry of roof planes: from plan to slope and back, what kind of edge an edge is, what is
/// left free between eave and ridge. Pure functions; a plane must be described (have corners).
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "model/site_plan.h"

namespace ohmfolio {

/// Along the eave from the left end of the plane, and up the slope from its lowest edge.
struct RoofPoint {
    Feet along{}, up{};
};

/// How a plane lies in plan.
struct RoofFrame {
    PlanPoint origin;        ///< along 0, up 0
    double right_x, right_y; ///< unit vector along the eave, to the right of who looks up the slope
    double uphill_x, uphill_y;
    double true_length; ///< true length up the slope for each foot of plan

    PlanPoint plan(RoofPoint point) const;
    RoofPoint slope(PlanPoint point) const;
};

/// What an edge of a plane is follows from where it faces: downhill an eave, uphill a ridge, to the
/// side a rake; slanting a hip where the plane narrows toward the ridge, else a valley.
enum class EdgeKind { eave, ridge, rake, hip, valley };
const char* name(EdgeKind kind); ///< "ridge"

struct RoofEdge {
    PlanPoint from, to;
    EdgeKind kind = EdgeKind::eave;
};

/// Bearing in plan, clockwise from the top of the sheet, in which water runs off: that of the edge
/// that faces nearest to the plane's azimuth. Nothing for an outline without area.
std::optional<double> downhill_bearing(const RoofPlane& plane, double north);

RoofFrame frame_of(const RoofPlane& plane, double north);
std::vector<RoofEdge> edges_of(const RoofPlane& plane, double north);
SquareFeet plan_area(const Corners& corners);
/// On its outline counts as inside.
bool is_inside(const Corners& corners, PlanPoint point);
/// The corners of a rectangle of the plane, from its lower left one against the clock.
std::array<PlanPoint, 4> corners_on_plan(const RoofFrame& frame, const RoofArea& area);

/// The parts of a line across the plan that lie on the plane, each by the rectangle that holds it.
std::vector<RoofArea> parts_on(const RoofPlane& plane, PlanPoint from, PlanPoint to, double north);

/// A stretch of the plane, free of modules and objects all the way from eave to ridge.
struct FreeStrip {
    Feet left{}, right{};
    Feet width() const { return right - left; }
};
/// From the left; free of `others` as well.
std::vector<FreeStrip> free_strips(const RoofPlane& plane, double north,
                                   const std::vector<RoofArea>& others = {});

/// Least true distance from a module to a ridge of its plane; nothing without modules or ridge.
std::optional<Feet> ridge_setback(const RoofPlane& plane, double north);

/// What the modules of the plane cover, in plan.
SquareFeet array_area(const RoofPlane& plane, double north);

/// Least distance in plan from a module of any plane to the outside of the roof that they make up
/// together; nothing without modules.
std::optional<Feet> distance_to_roof_edge(const std::vector<RoofPlane>& planes, double north);

/// Along the eave and up the slope, from the first module to the last.
RoofArea extent_of(const ModuleField& field);
/// The smallest rectangle that holds both.
RoofArea extent_of(const RoofArea& a, const RoofArea& b);

/// True when the edge is a part of the outline of another plane, too.
bool is_shared(const RoofEdge& edge, const RoofPlane& of, const std::vector<RoofPlane>& planes);

/// True when the planes share a stretch of an edge.
bool are_adjacent(const RoofPlane& a, const RoofPlane& b);

} // namespace ohmfolio
