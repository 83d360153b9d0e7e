#include "study/roof_pathways.h"

#include <algorithm>

#include "model/roof_geometry.h"

namespace ohmfolio::workings {

namespace {

constexpr double rounding = 1e-6; // feet

OnRoof raceway_on(const System& system, const Route& route, const RoofPlane& plane) {
    const auto child = static_cast<std::size_t>(route.equipment);
    const int run = system.relations.run_from[child];
    OnRoof raceway{run < 0 ? system.at(route.equipment).id
                           : system.runs[static_cast<std::size_t>(run)].tag,
                   route.span,
                   {}};
    for (std::size_t i = 0; i + 1 < route.points.size(); ++i) {
        for (const RoofArea& part :
             parts_on(plane, route.points[i], route.points[i + 1], system.site.plan.north))
            raceway.areas.push_back(part);
    }
    return raceway;
}

std::vector<OnRoof> things_on(const System& system, std::size_t index) {
    const RoofPlane& plane = system.site.roofs[index];
    const RoofFrame frame = frame_of(plane, system.site.plan.north);
    std::vector<OnRoof> things;
    for (const Route& route : system.site.plan.routes) {
        if (route.way != RouteWay::on_roof)
            continue;
        OnRoof raceway = raceway_on(system, route, plane);
        if (!raceway.areas.empty())
            things.push_back(std::move(raceway));
    }
    for (const SitedEquipment& sited : system.site.plan.equipment) {
        if (sited.roof != static_cast<int>(index))
            continue;
        const RoofPoint at = frame.slope(sited.at);
        things.push_back(
            {system.at(sited.equipment).id, sited.span, {{at.along, at.up, Feet{}, Feet{}}}});
    }
    return things;
}

const FreeStrip* widest(const std::vector<FreeStrip>& strips) {
    const auto found = std::ranges::max_element(strips, {}, &FreeStrip::width);
    return found == strips.end() ? nullptr : &*found;
}

/// A strip runs from eave to ridge: what lies beside it is beside it all the way.
bool lies_in(const OnRoof& thing, const RoofArea& pathway) {
    return std::ranges::any_of(thing.areas, [&](const RoofArea& area) {
        return area.along.value + rounding < pathway.right().value &&
               area.right().value > pathway.along.value + rounding;
    });
}

/// Along the left end where the strip begins there, else along its right end: away from the
/// modules.
RoofArea pathway_in(const FreeStrip& strip, const RoofPlane& plane, Feet width, double north) {
    const RoofFrame frame = frame_of(plane, north);
    Feet ridge{0};
    for (const PlanPoint& corner : plane.corners)
        ridge = std::max(ridge, frame.slope(corner).up);
    const Feet left = strip.left.value < rounding ? strip.left : strip.right - width;
    return {left, Feet{0}, width, ridge};
}

} // namespace

std::optional<PlacedPathway> place_pathway(const System& system, std::size_t index, Feet width) {
    const RoofPlane& plane = system.site.roofs[index];
    const double north = system.site.plan.north;
    std::vector<OnRoof> things = things_on(system, index);
    std::vector<RoofArea> areas;
    for (const OnRoof& thing : things)
        areas.insert(areas.end(), thing.areas.begin(), thing.areas.end());
    const std::vector<FreeStrip> all = free_strips(plane, north);
    const std::vector<FreeStrip> clear = free_strips(plane, north, areas);
    const FreeStrip* strip = widest(clear);
    if (strip == nullptr || strip->width().value + rounding < width.value)
        strip = widest(all);
    if (strip == nullptr)
        return std::nullopt;
    PlacedPathway placed{pathway_in(*strip, plane, width, north), strip->width()};
    std::erase_if(things, [&](const OnRoof& thing) { return !lies_in(thing, placed.area); });
    placed.obstructions = std::move(things);
    return placed;
}

} // namespace ohmfolio::workings
