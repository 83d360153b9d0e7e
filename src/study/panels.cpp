// Panels: the main breaker that fits, and a bus that what feeds it cannot overload.

#include <fmt/format.h>

#include "study/steps.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

Heading line(const Work& work, const Equipment& panel, std::string name, std::string title) {
    return {.subject = subject_of(panel),
            .name = std::move(name),
            .symbol = {},
            .title = std::move(title),
            .cite = work.book.cite(paragraph::equipment_limit)};
}

void check_main(Work& work, int index, const Panel& panel, const PanelRatings& ratings) {
    const Equipment& e = at(work.system.equipment, index);
    if (!panel.main)
        return;
    const auto main = main_of(work, index);
    const auto limit = from_nameplate(work, *work.system.record(e), "main_limit", "I_main,max",
                                      "Largest main breaker", ratings.main_limit);
    const std::string most = limit.value.value > 0 ? shown(limit.value) : "lugs only";
    require(work, line(work, e, "main_kept", "Main breaker within the limit of the panel"), main,
            "≤", limit,
            {.rule = "panel.main",
             .span = panel.main->span,
             .message = fmt::format("{}: a {} main breaker; the panel takes {}", e.id,
                                    shown(main.value), most),
             .expected = limit.value.value > 0 ? most + " or less" : "no main breaker"});
}

/// A bus is protected at its rating by its main or by the breaker of its feeder. Sources on the
/// bus itself are the business of connection.cpp,
/// one that nothing protects is told in service_devices.cpp.
void check_bus(Work& work, int index) {
    if (!has_device_ahead(work.system, index))
        return;
    const Equipment& e = at(work.system.equipment, index);
    const auto bus = bus_rating(work, e);
    const auto protection = main_of(work, index);
    require(work, line(work, e, "bus_kept", "Device that protects the busbar"), protection, "≤",
            *bus,
            {.rule = "panel.bus",
             .span = e.span,
             .message = fmt::format("{}: its {} busbar is fed through {}", e.id, shown(bus->value),
                                    shown(protection.value)),
             .expected = fmt::format("a main or feeder breaker of {} or less", shown(bus->value))});
}

} // namespace

void check_panels(Work& work) {
    for (int i = 0; i < static_cast<int>(work.system.equipment.size()); ++i) {
        const Equipment& e = at(work.system.equipment, i);
        const auto* panel = e.as<Panel>();
        const auto* ratings = work.system.ratings<PanelRatings>(e);
        if (panel == nullptr || ratings == nullptr)
            continue;
        check_main(work, i, *panel, *ratings);
        check_bus(work, i);
    }
}

} // namespace ohmfolio::workings
