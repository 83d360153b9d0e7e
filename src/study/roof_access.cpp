// Access to the roof for the fire service, where roof planes with modules are described in plan.

#include <algorithm>
#include <stdexcept>

#include <fmt/format.h>

#include "base/angle.h"
#include "model/roof_geometry.h"
#include "study/adopted_code.h"
#include "study/roof_pathways.h"
#include "study/steps.h"

namespace ohmfolio::workings {

namespace {

const std::string access_subject = "site:roof_access";
const std::string obstructions_rule = "roof.access.obstructions";
/// Taken where the description names no residential or fire code.
const std::string usual_code = "IRC 2021";
const std::string usual_fire_code = "IFC 2021";

const RoofPlane& plane_called(const System& system, const std::string& name) {
    const auto plane = std::ranges::find(system.site.roofs, name, &RoofPlane::name);
    if (plane == system.site.roofs.end())
        throw std::logic_error("no roof plane is called " + name);
    return *plane;
}

bool is_described(const RoofPlane& plane) { return !plane.corners.empty(); }

/// A plane that is described, by its index, and where its pathway would run.
struct PlaneWithPathway {
    std::size_t index;
    std::optional<PlacedPathway> pathway;
};

std::vector<PlaneWithPathway> planes_with_pathways(const System& system, Feet width) {
    std::vector<PlaneWithPathway> planes;
    for (std::size_t i = 0; i < system.site.roofs.size(); ++i) {
        if (is_described(system.site.roofs[i]))
            planes.push_back({i, place_pathway(system, i, width)});
    }
    return planes;
}

RoofPlaneInput input_of(const System& system, const PlaneWithPathway& with) {
    const RoofPlane& plane = system.site.roofs[with.index];
    constexpr double run = 12;
    const double north = system.site.plan.north;
    RoofPlaneInput input{.name = plane.name,
                         .rise = run * sine(Degrees{plane.tilt}) / cosine(Degrees{plane.tilt}),
                         .area = plan_area(plane.corners),
                         .array = array_area(plane, north),
                         .to_ridge = ridge_setback(plane, north),
                         .pathway = {},
                         .obstructed_by = {},
                         .adjacent = {},
                         .from_street = plane.from_street};
    if (with.pathway) {
        input.pathway = with.pathway->free;
        for (const OnRoof& thing : with.pathway->obstructions)
            input.obstructed_by.push_back(thing.name);
    }
    for (const RoofPlane& other : system.site.roofs) {
        if (&other != &plane && is_described(other) && are_adjacent(plane, other))
            input.adjacent.push_back(other.name);
    }
    return input;
}

/// What is said of a line that fails.
struct Fault {
    std::string message, expected, hint;
};

Fault fault_of(const RuleVerdict& verdict, const std::string& plane) {
    if (verdict.rule == "roof.access.ridge") {
        return {"the modules of " + plane + " are too near to its ridge",
                "the setback from the ridge that goes with the share of the roof they cover",
                "move the array down, or lay its upper row in landscape"};
    }
    if (verdict.rule == "roof.access.pathway") {
        return {plane +
                    " has no pathway from its lowest edge to the ridge, nor has a plane beside it",
                "a strip that wide, free of modules and objects",
                "move the array aside, or take a column of modules away"};
    }
    if (verdict.rule == "roof.access.pathways") {
        return {"too few planes of the roof have a pathway",
                "pathways on planes of their own, from the lowest edge to the ridge",
                "describe all planes of the roof, those without modules too"};
    }
    return {"no pathway is on the side of the street or the driveway",
            "a plane with a pathway that a ladder reaches from there",
            "from_street = true at the plane that a ladder reaches from the street"};
}

void state_code(Work& work, const AdoptedCode& code) {
    work.study.worksheet.choose(
        {.subject = access_subject,
         .name = "code",
         .title = "Code that access to the roof is held against",
         .cite = {},
         .source = code.stated ? "as adopted, in the description"
                               : "none is named in the description; this one is taken"},
        code.id, {});
}

Severity severity_under(const AdoptedCode& code) {
    return code.stated ? Severity::violation : Severity::warning;
}

/// At the plane; what is of the whole roof at the first with modules.
void complain_of(Work& work, const AdoptedCode& code, const RuleVerdicts& verdicts,
                 const std::string& plane) {
    for (const RuleVerdict& verdict : verdicts) {
        if (verdict.rule == obstructions_rule)
            continue; // told at what obstructs
        const Fault fault = fault_of(verdict, plane);
        complain_of_verdicts(work, {verdict},
                             {.rule = {},
                              .severity = severity_under(code),
                              .span = plane_called(work.system, plane).span,
                              .message = fault.message,
                              .expected = fault.expected,
                              .hint = fault.hint});
    }
}

/// What the calculation counts is what the sheets draw. Each thing that lies there is told where
/// it is written; as a warning, since the codes ask for few obstructions and not for none.
void keep_pathways(Work& work, const RoofAccessResult& result,
                   const std::vector<PlaneWithPathway>& planes) {
    const RuleVerdict* verdict = verdict_of(result.roof, obstructions_rule);
    for (const PlaneWithPathway& plane : planes) {
        const std::string& name = work.system.site.roofs[plane.index].name;
        if (std::ranges::find(result.pathways, name) == result.pathways.end())
            continue;
        work.study.pathways.push_back({plane.index, plane.pathway->area});
        for (const OnRoof& thing : plane.pathway->obstructions)
            complain(work, verdict->line,
                     {.rule = obstructions_rule,
                      .severity = Severity::warning,
                      .span = thing.span,
                      .message = thing.name + " lies in the pathway of " + name,
                      .expected = "pathways without raceways and equipment, over which one trips",
                      .hint = "lead it another way, or leave another strip free of modules"});
    }
}

void check_dwelling(Work& work) {
    const System& system = work.system;
    const AdoptedCode code = adopted_code(system, roof_access_codes(), usual_code);
    state_code(work, code);
    RoofAccessInput input{.code = code.id, .sprinklers = system.site.plan.sprinklers};
    const std::vector<PlaneWithPathway> planes =
        planes_with_pathways(system, roof_pathway_width(code.id));
    for (const PlaneWithPathway& plane : planes)
        input.planes.push_back(input_of(system, plane));
    const RoofAccessResult result = judge_roof_access(work.desk(access_subject), input);
    for (const PlaneAccess& plane : result.planes)
        complain_of(work, code, plane.verdicts, plane.name);
    complain_of(work, code, result.roof, result.planes.empty() ? "" : result.planes.front().name);
    keep_pathways(work, result, planes);
}

/// Bounds of all planes together, the shorter way.
Feet shorter_axis(const System& system) {
    std::optional<PlanPoint> low, high;
    for (const RoofPlane& plane : system.site.roofs) {
        for (const PlanPoint& corner : plane.corners) {
            low = low ? PlanPoint{std::min(low->x, corner.x), std::min(low->y, corner.y)} : corner;
            high =
                high ? PlanPoint{std::max(high->x, corner.x), std::max(high->y, corner.y)} : corner;
        }
    }
    return std::min(high->x - low->x, high->y - low->y);
}

bool are_one(const RoofArea& a, const RoofArea& b, Feet parted) {
    constexpr double rounding = 1e-9; // feet
    const Feet aside = std::max(b.along - a.right(), a.along - b.right());
    const Feet above = std::max(b.up - a.top(), a.up - b.top());
    return std::max(aside, above).value < parted.value - rounding;
}

/// The arrays of a plane: fields with less than `parted` between them are one.
std::vector<RoofArea> arrays_on(const RoofPlane& plane, Feet parted) {
    std::vector<RoofArea> arrays;
    for (const ModuleField& field : plane.fields) {
        RoofArea array = extent_of(field);
        // What it takes in may bring it near to what was apart from it.
        for (auto near = arrays.begin(); near != arrays.end();) {
            if (!are_one(*near, array, parted)) {
                ++near;
                continue;
            }
            array = extent_of(array, *near);
            arrays.erase(near);
            near = arrays.begin();
        }
        arrays.push_back(array);
    }
    return arrays;
}

void check_other_building(Work& work) {
    const System& system = work.system;
    const AdoptedCode code = adopted_code(system, roof_perimeter_codes(), usual_fire_code);
    state_code(work, code);
    Feet longest{};
    const RoofPlane* first = nullptr;
    for (const RoofPlane& plane : system.site.roofs) {
        for (const RoofArea& array : arrays_on(plane, roof_arrays_parted(code.id))) {
            longest = std::max({longest, array.width, array.height});
            first = first == nullptr ? &plane : first;
        }
    }
    const auto to_edge = distance_to_roof_edge(system.site.roofs, system.site.plan.north);
    const auto verdicts =
        judge_roof_perimeter(work.desk(access_subject), {.code = code.id,
                                                         .shorter_axis = shorter_axis(system),
                                                         .to_edge = to_edge.value_or(Feet{0}),
                                                         .longest_array = longest});
    complain_of_verdicts(work, verdicts,
                         {.rule = {},
                          .severity = severity_under(code),
                          .span = first->span,
                          .message = "access to the roof, by " + code.id,
                          .expected = "a way along the edges of the roof, and arrays no larger "
                                      "than the adopted code allows",
                          .hint = "move the array away from the edge, or part it"});
}

} // namespace

void check_roof_access(Work& work) {
    const auto has_modules = [](const RoofPlane& plane) { return !plane.fields.empty(); };
    if (std::ranges::none_of(work.system.site.roofs, has_modules))
        return;
    if (is_dwelling(work.system))
        check_dwelling(work);
    else
        check_other_building(work);
}

} // namespace ohmfolio::workings
