// Continuous currents of the circuits that carry sources: what their inverters and battery units
// put out, added up along the way to the utility.

#include <fmt/format.h>

#include "study/dc_storage.h"
#include "study/phases.h"
#include "study/steps.h"
#include "study/strings.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

/// The branch whose inverters alone flow in `circuit`; nullptr when there is none or more.
const Equipment* only_branch(const System& system, int circuit) {
    const Equipment& child = at(system.equipment, system.child_of(at(system.circuits, circuit)));
    if (child.is<BranchArray>())
        return &child;
    const auto feeders = feeding(system, circuit);
    return child.is<JunctionBox>() && feeders.size() == 1 ? only_branch(system, feeders.front())
                                                          : nullptr;
}

/// A branch shows its own arithmetic at every stretch: N × I, not "as before".
Term<Amps> branch_current(Work& work, const Equipment& e) {
    const auto& branch = std::get<BranchArray>(e.detail);
    const auto modules = modules_on(work, e, branch);
    return modules * output_current(work, at(work.system.catalogue.records, branch.microinverter));
}

std::optional<Term<Amps>> sum_of_sources(Work& work, int circuit) {
    std::optional<Term<Amps>> sum;
    const Equipment& child =
        at(work.system.equipment, work.system.child_of(at(work.system.circuits, circuit)));
    if (child.is<Battery>() || child.is<Inverter>())
        add_to(sum, output_current(work, *work.system.record(child)));
    for (const int feeder : feeding(work.system, circuit)) {
        if (at(work.sources, feeder))
            add_to(sum, *at(work.sources, feeder));
    }
    return sum;
}

std::string title_of(const Circuit& circuit) {
    switch (circuit.use) {
    case CircuitUse::trunk:
    case CircuitUse::branch:
        return "Continuous current of the branch";
    case CircuitUse::pv_output:
        return "Continuous current of all inverters";
    case CircuitUse::storage:
        return "Continuous current of the storage";
    default:
        return "Continuous current of all sources, toward the utility";
    }
}

bool storage_alone(const Circuit& circuit) { return circuit.use == CircuitUse::storage; }

std::string_view rule_of(const Circuit& circuit) {
    if (storage_alone(circuit))
        return paragraph::storage_current;
    return circuit.use == CircuitUse::trunk || circuit.use == CircuitUse::branch
               ? paragraph::inverter_current
               : paragraph::source_current;
}

void derive_current(Work& work, int index) {
    const Circuit& circuit = at(work.system.circuits, index);
    if (circuit.direct_current) {
        is_dc_storage(circuit) ? derive_battery_current(work, index)
                               : derive_string_current(work, index);
        return;
    }
    if (circuit.by_utility || circuit.use == CircuitUse::service)
        return; // sized by the service's rating, not by what the sources send out through it
    const Equipment* branch = only_branch(work.system, index);
    const auto expression = branch != nullptr ? std::optional(branch_current(work, *branch))
                            : meets_unequally(work, index) ? current_of_lines(work, index)
                                                           : sum_of_sources(work, index);
    if (!expression)
        return;
    const auto current = work.study.worksheet.define({.subject = subject_of(circuit),
                                                      .name = "current",
                                                      .symbol = "I_" + circuit.tag,
                                                      .title = title_of(circuit),
                                                      .cite = work.book.cite(rule_of(circuit))},
                                                     *expression);
    at(work.sources, index) = current;
    keep_phase_sources(work, index);
    at(work.sources_125, index) =
        required_rating(work.desk(subject_of(circuit)), current,
                        std::string(storage_alone(circuit) ? paragraph::storage_conductor
                                                           : paragraph::source_conductor));
}

} // namespace

void derive_currents(Work& work) {
    for (const int circuit : sources_first(work.system)) {
        derive_current(work, circuit);
    }
}

} // namespace ohmfolio::workings
