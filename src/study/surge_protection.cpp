// Surge protection of a dwelling, at service equipment and at panels that this work sets. What was
// there before is judged by the code that it was installed under, until it is replaced.

#include <algorithm>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "base/text.h"
#include "code/surge_rules.h"
#include "model/existing.h"
#include "study/steps.h"

namespace ohmfolio::workings {

namespace {

/// Panels hold the breakers of loads unless they collect sources, or say that they hold none.
bool supplies_loads(const Panel& panel) {
    return !panel.collects && (!panel.loads_described || !panel.loads.empty());
}

/// The nearest panels behind `equipment`: distribution equipment next to it.
void add_next_panels(const System& system, int equipment, std::vector<int>& panels) {
    for (const int child : system.children(equipment)) {
        const auto* panel = system.at(child).as<Panel>();
        if (panel != nullptr && !panel->collects)
            panels.push_back(child);
        else
            add_next_panels(system, child, panels);
    }
}

/// "Type 2, 20 kA, in MSP"; empty: none is stated.
std::string where_of(const Equipment& e) {
    const SurgeDevice* device = surge_device(e);
    return device == nullptr ? std::string{} : fmt::format("{}, in {}", name(*device), e.id);
}

/// In the service equipment, or in all panels next to it; some without leave surges a way in.
std::string where_for_service(const System& system, int service) {
    const Equipment& e = at(system.equipment, service);
    if (surge_device(e) != nullptr)
        return where_of(e);
    std::vector<int> panels;
    add_next_panels(system, service, panels);
    std::vector<std::string> places;
    for (const int panel : panels)
        places.push_back(where_of(at(system.equipment, panel)));
    const bool throughout = std::ranges::find(places, std::string{}) == places.end();
    return throughout ? join(places, "; ") : std::string{};
}

void tell(Work& work, const Equipment& e, const std::optional<RuleVerdict>& verdict,
          Severity severity) {
    if (!verdict)
        return;
    const SurgeDevice* device = surge_device(e);
    complain_of_verdicts(
        work, {*verdict},
        {.rule = {},
         .severity = severity,
         .span = device == nullptr ? e.span : device->span,
         .message = e.id,
         .expected = "a surge-protective device, Type 1 or Type 2, in it or right beside it, for "
                     "what supplies a dwelling",
         .hint = "on what has one: surge_device = { type = \"Type 2\", discharge = "
                 "\"20 kA\" }"});
}

void check_discharge(Work& work, const Equipment& e, SurgePlace place) {
    const SurgeDevice* device = surge_device(e);
    if (device == nullptr)
        return;
    std::optional<Term<Amps>> discharge;
    if (device->discharge)
        discharge =
            given("I_n", *device->discharge, "nominal discharge current", ShownAs::kiloamps);
    const auto verdict = check_surge_discharge(work.desk(subject_of(e)), place, discharge);
    tell(work, e, verdict, discharge ? Severity::violation : Severity::warning);
}

void check_place(Work& work, const Equipment& e, SurgePlace place, const std::string& where) {
    tell(work, e, check_surge_device(work.desk(subject_of(e)), place, where), Severity::warning);
    check_discharge(work, e, place);
}

/// A disconnect on the supply side serves the sources alone.
bool is_service_equipment(const System& system, int index) {
    const Equipment& e = at(system.equipment, index);
    const auto* panel = e.as<Panel>();
    const auto* disconnect = e.as<Disconnect>();
    return (panel != nullptr && panel->service_equipment) ||
           (disconnect != nullptr && disconnect->service && !is_on_supply_side(system, index));
}

void check_equipment(Work& work, int index) {
    const Equipment& e = at(work.system.equipment, index);
    const auto* panel = e.as<Panel>();
    if (stays(e))
        return;
    if (is_service_equipment(work.system, index))
        check_place(work, e, SurgePlace::service, where_for_service(work.system, index));
    else if (panel != nullptr && supplies_loads(*panel))
        check_place(work, e, SurgePlace::feeder, where_of(e));
}

} // namespace

void check_surge_protection(Work& work) {
    if (!is_dwelling(work.system))
        return;
    for (int i = 0; i < static_cast<int>(work.system.equipment.size()); ++i)
        check_equipment(work, i);
}

} // namespace ohmfolio::workings
