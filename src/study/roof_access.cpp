// Access to the roof for the fire service, where roof planes with modules are described in plan.

#include <algorithm>

#include <fmt/format.h>

#include "base/angle.h"
#include "model/roof_geometry.h"
#include "study/adopted_code.h"
#include "study/steps.h"

namespace ohmfolio::workings {

namespace {

const std::string access_subject = "site:roof_access";
/// Taken where the description names no residential or fire code.
const std::string usual_code = "IRC 2021";
const std::string usual_fire_code = "IFC 2021";

bool is_described(const RoofPlane& plane) { return !plane.corners.empty(); }

std::optional<Feet> widest_strip(const RoofPlane& plane, double north) {
    const std::vector<FreeStrip> strips = free_strips(plane, north);
    const auto widest = std::ranges::max_element(strips, {}, &FreeStrip::width);
    return widest == strips.end() ? std::nullopt : std::optional(widest->width());
}

RoofPlaneInput input_of(const System& system, const RoofPlane& plane) {
    constexpr double run = 12;
    const double north = system.site.plan.north;
    RoofPlaneInput input{.name = plane.name,
                         .rise = run * sine(Degrees{plane.tilt}) / cosine(Degrees{plane.tilt}),
                         .area = plan_area(plane.corners),
                         .array = array_area(plane, north),
                         .to_ridge = ridge_setback(plane, north),
                         .pathway = widest_strip(plane, north),
                         .adjacent = {},
                         .from_street = plane.from_street};
    for (const RoofPlane& other : system.site.roofs) {
        if (&other != &plane && is_described(other) && are_adjacent(plane, other))
            input.adjacent.push_back(other.name);
    }
    return input;
}

/// The plane that a line is about, else the first with modules.
Span span_of(const System& system, const RuleVerdict& verdict) {
    const RoofPlane* first = nullptr;
    for (const RoofPlane& plane : system.site.roofs) {
        if (plane.fields.empty())
            continue;
        first = first == nullptr ? &plane : first;
        std::string name = plane.name;
        std::ranges::replace(name, ' ', '_');
        if (verdict.line.starts_with(std::string(key_of(access_subject)) + "." + name + "_"))
            return plane.span;
    }
    return first->span;
}

std::string remedy(const RuleVerdict& verdict) {
    if (verdict.rule == "roof.access.ridge")
        return "move the array down, or lay its upper row in landscape";
    if (verdict.rule == "roof.access.street")
        return "from_street = true at the plane that a ladder reaches from the street";
    if (verdict.rule == "roof.access.pathways")
        return "describe all planes of the roof, those without modules too";
    return "move the array aside, or take a column of modules away";
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

void check_dwelling(Work& work) {
    const System& system = work.system;
    const AdoptedCode code = adopted_code(system, roof_access_codes(), usual_code);
    state_code(work, code);
    RoofAccessInput input{.code = code.id, .sprinklers = system.site.plan.sprinklers};
    for (const RoofPlane& plane : system.site.roofs) {
        if (is_described(plane))
            input.planes.push_back(input_of(system, plane));
    }
    const RoofAccessResult result = judge_roof_access(work.desk(access_subject), input);
    for (const RuleVerdict& verdict : result.verdicts) {
        complain_of_verdicts(work, {verdict},
                             {.rule = {},
                              .severity = severity_under(code),
                              .span = span_of(system, verdict),
                              .message = "access to the roof, by " + code.id,
                              .expected = "setbacks and pathways as the adopted code asks for",
                              .hint = remedy(verdict)});
    }
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

void check_other_building(Work& work) {
    const System& system = work.system;
    const AdoptedCode code = adopted_code(system, roof_perimeter_codes(), usual_fire_code);
    state_code(work, code);
    Feet longest{};
    const RoofPlane* first = nullptr;
    for (const RoofPlane& plane : system.site.roofs) {
        for (const ModuleField& field : plane.fields) {
            const RoofArea extent = extent_of(field);
            longest = std::max({longest, extent.width, extent.height});
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
