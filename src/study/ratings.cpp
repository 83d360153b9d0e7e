// Ratings of equipment that carries a circuit without being its overcurrent device: disconnects
// and meters, and the interrupting rating of every enclosure.

#include <algorithm>

#include <fmt/format.h>

#include "study/steps.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

std::optional<Amps> interrupting_of(const Record& record) {
    if (const auto* combiner = std::get_if<CombinerRatings>(&record.ratings))
        return combiner->interrupting;
    if (const auto* mid = std::get_if<MidRatings>(&record.ratings))
        return mid->interrupting;
    if (const auto* panel = std::get_if<PanelRatings>(&record.ratings))
        return panel->interrupting;
    if (const auto* disconnect = std::get_if<DisconnectRatings>(&record.ratings))
        return disconnect->interrupting;
    return {};
}

void check_disconnect(Work& work, int index, const DisconnectRatings& ratings) {
    const Equipment& e = at(work.system.equipment, index);
    const auto circuits = circuits_from(work.system, index);
    if (circuits.empty() || !at(work.load, circuits.front()))
        return;
    const auto& required = at(work.load, circuits.front())->required;
    const auto rating = from_nameplate(work, *work.system.record(e), "rating", "I_switch",
                                       "Rating of the disconnect", ratings.rating);
    require(work,
            {.subject = subject_of(e),
             .name = "rating_kept",
             .symbol = {},
             .title = "Disconnect carries its circuit",
             .cite = work.book.cite(paragraph::equipment_limit)},
            rating, "≥", required,
            {.rule = "disconnect.rating",
             .span = e.span,
             .message = fmt::format("{}: a {} disconnect on a circuit that needs {}", e.id,
                                    shown(rating.value), shown(required.value)),
             .expected = fmt::format("a disconnect of {} or more", shown(required.value))});
}

Term<Amps> fault_current(Work& work) {
    return state_once(work,
                      {.subject = "site:service",
                       .name = "fault_current",
                       .symbol = "I_fault",
                       .title = "Available fault current at the service",
                       .cite = {},
                       .source = "as stated in the description"},
                      work.system.site.fault_current);
}

/// The first bus behind the meter: where the service conductors end.
bool is_service_equipment(const System& system, const Equipment& e) {
    return is_bus(e) && std::ranges::any_of(system.circuits, [&](const Circuit& circuit) {
               return circuit.use == CircuitUse::service &&
                      &at(system.equipment, system.child_of(circuit)) == &e;
           });
}

/// The service's fault current is taken everywhere: conductors on the way can only lower it. Where
/// a device away from the service falls short of it, a point-to-point calculation decides, so that
/// is advice; at the service it is a violation. Inverters add little and for less than a cycle.
void check_interrupting(Work& work, const Equipment& e, const Record& record, Amps rating) {
    const bool at_service = is_service_equipment(work.system, e);
    const auto available = fault_current(work);
    const auto interrupting =
        from_nameplate(work, record, "interrupting", "I_int", "Interrupting rating", rating);
    require(work,
            {.subject = subject_of(e),
             .name = "interrupting_kept",
             .symbol = {},
             .title = "Interrupting rating at the fault current of the service",
             .cite = work.book.cite(paragraph::interrupting)},
            interrupting, "≥", available,
            {.rule = at_service ? "fault.service" : "fault.beyond",
             .severity = at_service ? Severity::violation : Severity::advice,
             .span = e.span,
             .message = fmt::format("{}: interrupts {}; the service can deliver {}", e.id,
                                    shown(interrupting.value), shown(available.value)),
             .expected = at_service
                             ? fmt::format("equipment rated {} or more", shown(available.value))
                             : std::string("a point-to-point calculation that shows less at this "
                                           "place, or equipment of a higher rating")});
}

} // namespace

void check_disconnects(Work& work) {
    for (int i = 0; i < static_cast<int>(work.system.equipment.size()); ++i) {
        if (const auto* ratings =
                work.system.ratings<DisconnectRatings>(at(work.system.equipment, i)))
            check_disconnect(work, i, *ratings);
    }
}

void check_interrupting_ratings(Work& work) {
    if (work.system.site.fault_current.value <= 0)
        return;
    for (const Equipment& e : work.system.equipment) {
        const Record* record = work.system.record(e);
        const auto rating = record == nullptr ? std::nullopt : interrupting_of(*record);
        if (rating && rating->value > 0)
            check_interrupting(work, e, *record, *rating);
    }
    for (std::size_t i = 0; i < work.system.breakers.size(); ++i) {
        const Record* record =
            work.system.record(at(work.system.equipment, work.system.breakers[i].at));
        const auto rating = record == nullptr ? std::nullopt : interrupting_of(*record);
        work.study.breakers[i].interrupting = rating.value_or(Amps{});
    }
}

} // namespace ohmfolio::workings
