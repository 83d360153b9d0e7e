// A dwelling's service equipment that this work sets, or adds a load to, without a load
// calculation: nothing then says that service and main breaker are enough.

#include <string>
#include <vector>

#include <fmt/format.h>

#include "base/text.h"
#include "study/paragraphs.h"
#include "study/steps.h"
#include "study/topology.h"

namespace ohmfolio::workings {

namespace {

void advise(Work& work, const Equipment& panel, Span span, const std::string& what) {
    complain_of_missing(
        work, paragraph::calculated_load,
        {.rule = "load.calculation",
         .severity = Severity::advice,
         .span = span,
         .message = fmt::format("{}: {}, and no load calculation shows that the service carries "
                                "the loads of the dwelling",
                                panel.id, what),
         .expected = "a load calculation: 220.82 or Part III of Article 220 for a new dwelling, "
                     "220.83 or 220.87 for an existing one",
         .hint = "[load_calculation] with its method, and kind and power of the loads",
         .subject = subject_of(panel)});
}

std::vector<std::string> added_to(const Panel& panel) {
    std::vector<std::string> names;
    for (const LoadCircuit& load : panel.loads) {
        if (load.added)
            names.push_back(load.name);
    }
    return names;
}

} // namespace

void advise_on_uncalculated_loads(Work& work) {
    if (work.system.dwelling_load || !is_dwelling(work.system))
        return;
    for (const Equipment& e : work.system.equipment) {
        const auto* panel = e.as<Panel>();
        if (panel == nullptr)
            continue;
        const auto added = added_to(*panel);
        if (!added.empty())
            advise(work, e, e.span, join(added, ", ") + " is added");
        else if (panel->service_equipment && panel->main && !e.existing)
            advise(work, e, panel->main->span,
                   fmt::format("it is new, with a main of {}", shown(panel->main->value)));
    }
}

} // namespace ohmfolio::workings
