/// Where things stand on the parcel, seen from above. Plan points are in feet from any point that
/// the drafter chooses, x to the right of the sheet and y up the sheet.
///
/// On a roof plane lengths run `along` the eave, from the left end of the plane as seen by who
/// stands below it and looks up the slope, and `up` the slope from its lowest edge: true lengths,
/// as the crew measures them on the roof.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/quantity.h"
#include "base/source.h"
#include "model/equipment.h"

namespace ohmfolio {

struct PlanPoint {
    Feet x{}, y{};
    friend constexpr bool operator==(const PlanPoint&, const PlanPoint&) = default;
};
/// The corners of an area in order, either way round.
using Corners = std::vector<PlanPoint>;

/// A building, a driveway.
struct PlanArea {
    std::string name; ///< "HOUSE"
    Corners corners;
    Span span;
};

/// The edge of a street.
struct PlanLine {
    std::string name; ///< "SORREL LANE"
    PlanPoint from, to;
    Span span;
};

/// A piece of equipment where it stands.
struct SitedEquipment {
    int equipment = -1;
    PlanPoint at;
    Span span;
    int roof = -1; ///< the plane that it is on, index into Site::roofs; -1: none
};

/// In the order of the words of the key `way`.
enum class RouteWay { on_roof, on_wall, in_attic, buried };

/// The way of a raceway from one piece of equipment to its parent, both ends included.
struct Route {
    int equipment = -1; ///< the child
    std::vector<PlanPoint> points;
    RouteWay way = RouteWay::on_roof;
    std::optional<Feet> depth = {}; ///< of cover, where it is buried
    Span span;
};

struct SitePlan {
    double north = 0;                ///< degrees clockwise from the top of the sheet
    Corners parcel;                  ///< empty: the parcel is not described
    std::vector<PlanArea> buildings; ///< outer walls
    std::vector<PlanArea> areas;     ///< paved and the like
    std::vector<PlanLine> streets = {};
    std::vector<SitedEquipment> equipment = {}; ///< on walls, on roofs and elsewhere, by index
    std::vector<Route> routes = {};
    bool sprinklers = false; ///< automatic, throughout the dwelling
    Span span;

    bool described() const { return !buildings.empty() || !parcel.empty(); }
};

/// A rectangle on a roof plane.
struct RoofArea {
    Feet along{}, up{}, width{}, height{};
    Feet right() const { return along + width; }
    Feet top() const { return up + height; }
};

/// A vent, a chimney, a skylight.
struct RoofObject {
    std::string name; ///< "PLUMBING VENT"
    RoofArea area;
    Span span;
};

struct SetModule {
    int source = -1; ///< the branch or string, index into System::equipment
    int number = 0;  ///< among the modules of its source, from 1
    RoofArea area;
};

/// Modules in rows, from the ridge down.
struct ModuleField {
    Orientation orientation = Orientation::portrait;
    std::vector<SetModule> modules = {};
    Span span;
};

/// A roof plane: as the sun sees it, and where it is described, as it lies on the building.
struct RoofPlane {
    std::string name;   ///< "SOUTH ROOF"
    double tilt = 0;    ///< degrees from level
    double azimuth = 0; ///< degrees from north, clockwise: 180 is south
    Span span;
    Corners corners = {};     ///< in plan; empty: not described
    bool from_street = false; ///< a ladder reaches its eave from the street or the driveway
    std::vector<ModuleField> fields = {};
    std::vector<RoofObject> objects = {};
};

} // namespace ohmfolio
