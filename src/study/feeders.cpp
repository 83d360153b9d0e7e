// What each conductor is sized for: its sources, and on a feeder the loads that draw through it
// the other way.

#include <fmt/format.h>

#include "code/generator_rules.h"
#include "study/dc_storage.h"
#include "study/steps.h"
#include "study/strings.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

bool is_feeder(const Circuit& circuit) {
    return circuit.use == CircuitUse::source_feeder || circuit.use == CircuitUse::backup_feeder;
}

/// Feed-through lugs carry the bus on: the main ahead of it protects the conductors too.
bool on_through_lugs(const System& system, const Circuit& circuit) {
    const auto* panel = at(system.equipment, system.child_of(circuit)).as<Panel>();
    return panel != nullptr && panel->through_lugs;
}

/// Rating of the device that protects the circuit; says so when there is none.
std::optional<Term<Amps>> protection_of(Work& work, int index) {
    const Circuit& circuit = at(work.system.circuits, index);
    // Ahead of the main nothing on the utility's side protects it: the device at its source end,
    // placed as 705.11 asks, does.
    const int breaker = circuit.use == CircuitUse::supply_side
                            ? device_behind(work.system, index)
                            : protecting_breaker(work.system, index);
    if (breaker >= 0 && at(work.breaker_rating, breaker))
        return at(work.breaker_rating, breaker);
    if (on_through_lugs(work.system, circuit))
        return main_of(work, work.system.parent_of(circuit));
    if (breaker < 0 && at(work.sources_125, index)) {
        complain(work, at(work.sources_125, index)->from.front(),
                 {.rule = "circuit.protection",
                  .span = at(work.system.runs, circuit.run).span,
                  .message = fmt::format("{}: no breaker between it and the next bus protects it",
                                         called(work.system, circuit)),
                  .expected = "a breaker where it ends",
                  .hint = "let it feed a combiner, an interconnect device or a panel"});
    }
    // A feeder of loads may leave a bus without a breaker of its own; what protects the bus then
    // protects it.
    return at(work.sources_125, index)
               ? at(work.sources_125, index)
               : std::optional(device_ahead(work, work.system.parent_of(circuit)));
}

/// Sources flow outward, loads inward: the feeder must carry whichever is larger. Loads may draw
/// up to the rating of its breaker.
Term<Amps> larger_of_sources_and_loads(Work& work, int index, const Term<Amps>& breaker) {
    const Term<Amps>& sources = *at(work.sources_125, index);
    const bool loads_govern = breaker.value > sources.value;
    return work.study.worksheet.state(
        {.subject = subject_of(at(work.system.circuits, index)),
         .name = "required_both_ways",
         .symbol = "I_both",
         .title = "Required ampacity, sources outward and loads inward",
         .cite = work.book.cite(paragraph::feeder_source),
         .source =
             fmt::format("the larger of {} and {}", shown(sources.value), shown(breaker.value)),
         .governs = loads_govern ? "loads up to the breaker govern" : "sources govern"},
        loads_govern ? breaker.value : sources.value, detail::merged(sources.from, breaker.from));
}

/// A feeder without sources: no load calculation stands behind it, so it is taken to carry the
/// largest continuous load that its breaker permits.
Work::Load load_feeder(Work& work, int index, const Term<Amps>& breaker) {
    const std::string subject = subject_of(at(work.system.circuits, index));
    const auto current =
        work.study.worksheet.define({.subject = subject,
                                     .name = "current",
                                     .symbol = "I_" + at(work.system.circuits, index).tag,
                                     .title = "Largest continuous load that its breaker permits",
                                     .cite = work.book.cite(paragraph::feeder_overcurrent)},
                                    breaker / factor(work.book.number(paragraph::continuous_load)));
    return {current,
            required_rating(work.desk(subject), current, std::string(paragraph::feeder_conductor)),
            breaker};
}

/// The output of a generator: its conductors carry 115 % of its nameplate (445.13), and its own
/// overcurrent device protects them. Loads never draw from the utility through them.
std::optional<Work::Load> generator_load(Work& work, int index) {
    const Circuit& circuit = at(work.system.circuits, index);
    const auto generators = generators_below(work.system, work.system.child_of(circuit));
    if (generators.empty())
        return {};
    const Record& record = *work.system.record(at(work.system.equipment, generators.front()));
    const auto current = output_current(work, record);
    const auto required = generator_conductor(work.desk(subject_of(circuit)), current, false);
    const Amps own = std::get<GeneratorRatings>(record.ratings).breaker;
    if (own > Amps{0}) {
        return Work::Load{current, required,
                          from_nameplate(work, record, "breaker", "I_gen,brk",
                                         "Overcurrent device at the generator", own)};
    }
    const auto protection = protection_of(work, index);
    return protection ? std::optional(Work::Load{current, required, *protection}) : std::nullopt;
}

/// The fuses of the service disconnect that the circuit begins at; -1 where there are none.
int service_fuses(const Work& work, int index) {
    const Circuit& circuit = at(work.system.circuits, index);
    const bool disconnect =
        circuit.use == CircuitUse::service &&
        at(work.system.equipment, work.system.child_of(circuit)).is<Disconnect>();
    return disconnect ? device_behind(work.system, index) : -1;
}

/// Service conductors carry the rating of the main breaker or the fuses behind them.
Work::Load service_load(Work& work, int index) {
    const auto fuses = rating_of(work, service_fuses(work, index));
    const auto main =
        fuses ? *fuses : main_of(work, work.system.child_of(at(work.system.circuits, index)));
    return {main, main, main};
}

std::optional<Work::Load> load_of(Work& work, int index) {
    const Circuit& circuit = at(work.system.circuits, index);
    if (circuit.by_utility)
        return {};
    if (circuit.use == CircuitUse::service)
        return service_load(work, index);
    if (circuit.direct_current)
        return is_dc_storage(circuit) ? battery_load(work, index) : string_load(work, index);
    if (circuit.use == CircuitUse::generator)
        return generator_load(work, index);
    const auto protection = protection_of(work, index);
    if (!protection)
        return {};
    if (!at(work.sources, index))
        return load_feeder(work, index, *protection);
    const auto required = is_feeder(circuit) ? larger_of_sources_and_loads(work, index, *protection)
                                             : *at(work.sources_125, index);
    return Work::Load{*at(work.sources, index), required, *protection};
}

} // namespace

void derive_feeder_loads(Work& work) {
    for (const int index : sources_first(work.system)) {
        at(work.load, index) = load_of(work, index);
        CircuitStudy& result = at(work.study.circuits, index);
        if (!at(work.load, index))
            continue;
        result.current = at(work.load, index)->current.value;
        result.required = at(work.load, index)->required.value;
        if (at(work.load, index)->protected_by_device)
            result.overcurrent = at(work.load, index)->overcurrent.value;
        const int fuses = service_fuses(work, index);
        result.breaker = at(work.system.circuits, index).use == CircuitUse::supply_side
                             ? device_behind(work.system, index)
                         : fuses >= 0 ? fuses
                                      : protecting_breaker(work.system, index);
    }
}

} // namespace ohmfolio::workings
