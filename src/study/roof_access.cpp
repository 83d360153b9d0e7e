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

} // namespace

void check_roof_access(Work& work) {
    const System& system = work.system;
    const auto has_modules = [](const RoofPlane& plane) { return !plane.fields.empty(); };
    if (!is_dwelling(system) || std::ranges::none_of(system.site.roofs, has_modules))
        return;
    const AdoptedCode code = adopted_code(system, roof_access_codes(), usual_code);
    work.study.worksheet.choose(
        {.subject = access_subject,
         .name = "code",
         .title = "Code that access to the roof is held against",
         .cite = {},
         .source = code.stated ? "as adopted, in the description"
                               : "none is named in the description; this one is taken"},
        code.id, {});
    RoofAccessInput input{.code = code.id, .sprinklers = system.site.plan.sprinklers};
    for (const RoofPlane& plane : system.site.roofs) {
        if (is_described(plane))
            input.planes.push_back(input_of(system, plane));
    }
    const RoofAccessResult result = judge_roof_access(work.desk(access_subject), input);
    for (const RuleVerdict& verdict : result.verdicts) {
        complain_of_verdicts(work, {verdict},
                             {.rule = {},
                              .severity = code.stated ? Severity::violation : Severity::warning,
                              .span = span_of(system, verdict),
                              .message = "access to the roof, by " + code.id,
                              .expected = "setbacks and pathways as the adopted code asks for",
                              .hint = remedy(verdict)});
    }
}

} // namespace ohmfolio::workings
