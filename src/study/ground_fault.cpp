// Ground-fault protection of equipment at the service, and sources on its load side.

#include <fmt/format.h>

#include "code/source_device_rules.h"
#include "study/steps.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

/// A main or a service disconnect: its rating, and what it has.
struct ServiceDisconnect {
    Term<Amps> rating;
    GroundFaultProtection protection = GroundFaultProtection::none;
};

std::optional<ServiceDisconnect> disconnect_at(Work& work, int index) {
    const Equipment& e = at(work.system.equipment, index);
    if (const auto* panel = e.as<Panel>(); panel != nullptr && panel->service_equipment) {
        if (!panel->main)
            return {};
        return ServiceDisconnect{main_of(work, index), panel->ground_fault};
    }
    const auto* disconnect = e.as<Disconnect>();
    const auto* ratings = work.system.ratings<DisconnectRatings>(e);
    if (disconnect == nullptr || !disconnect->service || ratings == nullptr)
        return {};
    return ServiceDisconnect{from_nameplate(work, *work.system.record(e), "rating", "I_switch",
                                            "Rating of the disconnect", ratings->rating),
                             disconnect->ground_fault};
}

void check_disconnect(Work& work, int index) {
    const auto disconnect = disconnect_at(work, index);
    if (!disconnect)
        return;
    const Site& site = work.system.site;
    const Equipment& e = at(work.system.equipment, index);
    const auto verdicts = check_ground_fault_protection(
        work.desk(subject_of(e)),
        {.main = disconnect->rating,
         .to_ground = site.to_neutral,
         .between = site.voltage,
         .solidly_grounded_wye = is_wye(site.supply),
         .protection = disconnect->protection != GroundFaultProtection::none,
         .source_on_load_side = has_sources(work.system, index),
         .from_all_sources = disconnect->protection == GroundFaultProtection::all_sources});
    complain_of_verdicts(
        work, verdicts,
        {.rule = {},
         .span = e.span,
         .message = e.id,
         .expected = "ground-fault protection of equipment at the service "
                     "disconnect, listed to be fed from both sides where sources "
                     "lie behind it",
         .hint = fmt::format("where it has that: ground_fault = \"{}\"",
                             has_sources(work.system, index) ? "from all sources" : "yes")});
}

} // namespace

void check_service_ground_fault(Work& work) {
    for (int i = 0; i < static_cast<int>(work.system.equipment.size()); ++i) {
        check_disconnect(work, i);
    }
}

} // namespace ohmfolio::workings
