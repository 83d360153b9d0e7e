// Raceways that leave a roof: in sunlight they are hotter than the air, which the study can only
// reckon with where it is told how far above the roof they run.

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "study/paragraphs.h"
#include "study/steps.h"

namespace ohmfolio::workings {

namespace {

std::string roof_of(const Equipment& e) {
    if (const auto* branch = e.as<BranchArray>())
        return branch->roof;
    if (const auto* strings = e.as<StringArray>())
        return strings->roof;
    return {};
}

/// The roof that it stands on, empty: none. A roof is what a place with modules is.
std::string roof_under(const System& system, const Equipment& e) {
    const std::string own = roof_of(e);
    if (!own.empty())
        return own;
    const bool is_roof = std::ranges::any_of(system.equipment, [&](const Equipment& other) {
        return !e.location.empty() && roof_of(other) == e.location;
    });
    return is_roof ? e.location : std::string{};
}

/// An ambient temperature of its own tells what the raceway passes as well.
bool tells_what_it_passes(const Run& run) {
    return run.raceway == RacewayKind::free_air || run.on_roof || run.ambient.has_value();
}

} // namespace

void warn_of_unknown_heights(Work& work) {
    std::set<Span> told; // a line that describes many of a kind is told of once
    for (const Run& run : work.system.runs) {
        const Equipment& from = at(work.system.equipment, run.child);
        const std::string roof = roof_under(work.system, from);
        if (roof.empty() || run.circuits.empty() || tells_what_it_passes(run) ||
            !told.insert(run.span).second)
            continue;
        const Circuit& circuit = at(work.system.circuits, run.circuits.front());
        complain_of_missing(
            work, paragraph::rooftop,
            {.rule = "raceway.above_roof",
             .severity = Severity::warning,
             .span = run.span,
             .message = fmt::format("{}: the raceway leaves {}, and its height above the roof is "
                                    "not stated: its conductors are sized without the heat of "
                                    "sunlight",
                                    called(work.system, circuit), roof),
             .expected = "how far the raceway runs above the roof",
             .hint = "above_roof = \"1 in\"; where it goes straight down through the roof, "
                     "ambient = \"...\" of the space below",
             .subject = subject_of(circuit)});
    }
}

} // namespace ohmfolio::workings
