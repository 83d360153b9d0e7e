// Ratings of equipment that carries a circuit without being its overcurrent device: disconnects
// and meters, and the interrupting rating of every enclosure.

#include <algorithm>

#include <fmt/format.h>

#include "base/text.h"
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

bool carries(Work& work, const Equipment& e, const Term<Amps>& rating, const Term<Amps>& required) {
    return require(work,
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

/// Without fuses of its own a switch withstands a fault only as far as the device ahead of it
/// limits how long it lasts, and no listing covers one smaller than that device. One that is too
/// small for its circuit already is reported once.
void check_protection(Work& work, const Equipment& e, const Term<Amps>& rating, int breaker,
                      bool report) {
    const std::string tag = at(work.system.breakers, breaker).tag;
    const auto device = rating_of(work, breaker);
    if (!device)
        return;
    const bool passes =
        work.study.worksheet.check({.subject = subject_of(e),
                                    .name = "protection_kept",
                                    .symbol = {},
                                    .title = "Unfused disconnect protected by " + tag,
                                    .cite = work.book.cite(paragraph::equipment_protection)},
                                   rating, "≥", *device);
    if (passes || !report)
        return;
    complain(work, work.study.worksheet.all().back().id,
             {.rule = "disconnect.protection",
              .span = e.span,
              .message = fmt::format("{}: a {} unfused disconnect behind {}, which is {}", e.id,
                                     shown(rating.value), tag, shown(device->value)),
              .expected = fmt::format("a disconnect of {} or more, or one with fuses",
                                      shown(device->value))});
}

void check_disconnect(Work& work, int index, const DisconnectRatings& ratings) {
    const Equipment& e = at(work.system.equipment, index);
    const auto circuits = circuits_from(work.system, index);
    if (circuits.empty() || !at(work.load, circuits.front()))
        return;
    const auto rating = from_nameplate(work, *work.system.record(e), "rating", "I_switch",
                                       "Rating of the disconnect", ratings.rating);
    const bool carried = carries(work, e, rating, at(work.load, circuits.front())->required);
    const int breaker = protecting_breaker(work.system, circuits.front());
    if (!ratings.fused && breaker >= 0)
        check_protection(work, e, rating, breaker, carried);
}

/// The first bus behind the meter: where the service conductors end.
bool is_service_equipment(const System& system, const Equipment& e) {
    return is_bus(e) && std::ranges::any_of(system.circuits, [&](const Circuit& circuit) {
               return circuit.use == CircuitUse::service &&
                      &at(system.equipment, system.child_of(circuit)) == &e;
           });
}

/// Fault current at the terminals of `index`: what is stated there or, failing that, nearer the
/// service. Conductors on the way only lower it, but by how much is for the drafter to state.
/// Inverters add little and for less than a cycle.
std::optional<Term<Amps>> fault_current_at(Work& work, int index) {
    for (int i = index; i >= 0; i = at(work.system.equipment, i).parent) {
        const Equipment& e = at(work.system.equipment, i);
        if (!e.fault_current)
            continue;
        return state_once(work,
                          {.subject = subject_of(e),
                           .name = "fault_current",
                           .symbol = "I_fault," + e.id,
                           .title = "Available fault current at " + e.id,
                           .cite = {},
                           .source = "as stated in the description"},
                          e.fault_current->value);
    }
    if (work.system.site.fault_current.value <= 0)
        return {};
    return state_once(work,
                      {.subject = "site:service",
                       .name = "fault_current",
                       .symbol = "I_fault",
                       .title = "Available fault current at the service",
                       .cite = {},
                       .source = "as stated in the description"},
                      work.system.site.fault_current);
}

void check_interrupting(Work& work, const Equipment& e, const Record& record, Amps rating,
                        const Term<Amps>& available) {
    const bool at_service = is_service_equipment(work.system, e);
    const auto interrupting =
        from_nameplate(work, record, "interrupting", "I_int", "Interrupting rating", rating);
    require(work,
            {.subject = subject_of(e),
             .name = "interrupting_kept",
             .symbol = {},
             .title = "Interrupting rating at the available fault current",
             .cite = work.book.cite(paragraph::interrupting)},
            interrupting, "≥", available,
            {.rule = at_service ? "fault.service" : "fault.beyond",
             .span = e.span,
             .message = fmt::format("{}: interrupts {}; {} is available", e.id,
                                    shown(interrupting.value), shown(available.value)),
             .expected = fmt::format("equipment rated {} or more", shown(available.value)),
             .hint = at_service ? std::string{}
                                : std::string("where a calculation or field data shows less, state "
                                              "it here: fault_current = \"... kA\"")});
}

/// One warning for all places that could not be checked.
void warn_of_missing(Work& work, const std::vector<std::string>& unchecked) {
    if (unchecked.empty())
        return;
    complain_of_missing(
        work, paragraph::interrupting,
        {.rule = "fault.missing",
         .severity = Severity::warning,
         .span = {},
         .message = fmt::format("the fault current available at the service is not stated, so the "
                                "interrupting rating of {} cannot be checked",
                                join(unchecked, ", ")),
         .expected = "the fault current as the utility states it",
         .hint = "[site] fault_current = \"... kA\"",
         .subject = "site:service"});
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
    std::vector<std::string> unchecked;
    for (int i = 0; i < static_cast<int>(work.system.equipment.size()); ++i) {
        const Equipment& e = at(work.system.equipment, i);
        const Record* record = work.system.record(e);
        const auto rating = record == nullptr ? std::nullopt : interrupting_of(*record);
        if (!rating || rating->value <= 0)
            continue;
        if (const auto available = fault_current_at(work, i)) {
            check_interrupting(work, e, *record, *rating, *available);
        } else {
            unchecked.push_back(e.id);
        }
    }
    warn_of_missing(work, unchecked);
    for (std::size_t i = 0; i < work.system.breakers.size(); ++i) {
        const Record* record =
            work.system.record(at(work.system.equipment, work.system.breakers[i].at));
        const auto rating = record == nullptr ? std::nullopt : interrupting_of(*record);
        work.study.breakers[i].interrupting = rating.value_or(Amps{});
    }
}

} // namespace ohmfolio::workings
