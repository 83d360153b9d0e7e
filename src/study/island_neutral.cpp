// The neutral of an island. The utility's transformer forms that of the service; sources of two
// wires form none.

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "study/standby.h"
#include "study/steps.h"

namespace ohmfolio::workings {

namespace {

bool has_neutral(const System& system, int source) {
    return std::ranges::any_of(circuits_from(system, source),
                               [&](int circuit) { return at(system.circuits, circuit).neutral; });
}

/// Of storage, generators and PV that hold the island, whichever is on.
bool all_bring_a_neutral(const System& system, const Island& island) {
    const std::array kinds{&island.batteries, &island.generators, &island.forming};
    return std::ranges::all_of(kinds, [&](const std::vector<int>* sources) {
        return std::ranges::all_of(*sources,
                                   [&](int source) { return has_neutral(system, source); });
    });
}

const PanelLoad* first_to_neutral(const Island& island) {
    const auto found = std::ranges::find_if(
        island.loads, [](const PanelLoad& load) { return load.circuit->poles == 1; });
    return found == island.loads.end() ? nullptr : &*found;
}

} // namespace

void check_island_neutral(Work& work, const Island& island) {
    const auto* device = work.system.ratings<MidRatings>(island.device);
    const PanelLoad* load = first_to_neutral(island);
    if (device == nullptr || device->forms_neutral || load == nullptr ||
        all_bring_a_neutral(work.system, island))
        return;
    complain_of_missing(
        work, "island.neutral",
        {.rule = "island.neutral",
         .severity = Severity::warning,
         .span = island.device.span,
         .message = fmt::format("{}: its sources are of two wires, and {} is from line to neutral; "
                                "that anything forms a neutral while islanded is not stated",
                                island.device.id, called(*load)),
         .expected = "a device or a source that forms a neutral: without one, loads of 120 V see "
                     "up to 240 V",
         .hint = "in the record of what does: forms_neutral = true, or neutral = true of a source",
         .subject = subject_of(island.device)});
}

} // namespace ohmfolio::workings
