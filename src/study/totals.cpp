// Sums over the whole system, for the summary on the general sheet.

#include "code/phase_rules.h"
#include "study/steps.h"

namespace ohmfolio::workings {

namespace {

void add_branch(const Work& work, const BranchArray& branch, Totals& totals) {
    const auto& records = work.system.catalogue.records;
    const auto& module = std::get<ModuleRatings>(at(records, branch.module).ratings);
    const auto& inverter =
        std::get<MicroinverterRatings>(at(records, branch.microinverter).ratings);
    totals.modules += branch.count;
    totals.dc = totals.dc + branch.count * module.power;
    totals.ac = totals.ac + branch.count * inverter.output;
    totals.pv_current = totals.pv_current + branch.count * inverter.output_current;
}

void add_strings(const Work& work, const StringArray& array, Totals& totals) {
    const auto& module =
        std::get<ModuleRatings>(at(work.system.catalogue.records, array.module).ratings);
    totals.modules += array.in_series * array.strings;
    totals.dc = totals.dc + array.in_series * array.strings * module.power;
}

void add_inverter(const StringInverterRatings& inverter, Totals& totals) {
    totals.ac = totals.ac + inverter.output;
    totals.pv_current = totals.pv_current + inverter.output_current;
}

/// Output currents of the equipment that `has` one, on the lines of a three-phase service.
template <class CurrentOf> Amps greatest_line(const Work& work, CurrentOf current_of) {
    PhaseSources all;
    for (const Circuit& circuit : work.system.circuits) {
        const Amps current = current_of(at(work.system.equipment, work.system.child_of(circuit)));
        if (circuit.direct_current || current <= Amps{})
            continue;
        PhaseSources one;
        if (circuit.lines == 3) {
            one.three_phase = constant(current);
        } else if (circuit.lines == 2) {
            one.between[static_cast<std::size_t>(circuit.phases.pair())] = constant(current);
        } else {
            one.to_neutral[static_cast<std::size_t>(circuit.phases.first())] = constant(current);
        }
        all.add(one);
    }
    Worksheet scratch;
    return all.any() ? greatest_line_current({scratch, work.book, "site:totals"}, all).value
                     : Amps{};
}

/// On three phases currents of lines take the place of sums.
void take_line_currents(const Work& work, Totals& totals) {
    totals.pv_current = greatest_line(work, [&](const Equipment& e) {
        if (const auto* branch = e.as<BranchArray>()) {
            const Record& record = at(work.system.catalogue.records, branch->microinverter);
            return branch->count * std::get<MicroinverterRatings>(record.ratings).output_current;
        }
        const auto* inverter = work.system.ratings<StringInverterRatings>(e);
        return inverter == nullptr ? Amps{} : inverter->output_current;
    });
    totals.storage_current = greatest_line(work, [&](const Equipment& e) {
        const auto* battery = work.system.ratings<BatteryRatings>(e);
        return battery == nullptr ? Amps{} : battery->output_current;
    });
}

void add_one(const Work& work, const Equipment& e, Totals& totals) {
    if (const auto* branch = e.as<BranchArray>())
        add_branch(work, *branch, totals);
    if (const auto* array = e.as<StringArray>())
        add_strings(work, *array, totals);
    if (const auto* inverter = work.system.ratings<StringInverterRatings>(e))
        add_inverter(*inverter, totals);
    if (const auto* battery = work.system.ratings<BatteryRatings>(e)) {
        totals.storage = totals.storage + battery->energy;
        if (battery->direct_current())
            return; // its output is that of the inverter
        totals.storage_ac = totals.storage_ac + battery->output;
        totals.storage_current = totals.storage_current + battery->output_current;
    }
}

} // namespace

void add_totals(Work& work) {
    Totals& totals = work.study.totals;
    Totals existing;
    for (const Equipment& e : work.system.equipment) {
        add_one(work, e, totals);
        if (e.existing)
            add_one(work, e, existing);
    }
    if (lines_of(work.system.site.supply) == 3)
        take_line_currents(work, totals);
    totals.existing_modules = existing.modules;
    totals.existing_dc = existing.dc;
    totals.existing_ac = existing.ac;
    totals.existing_storage = existing.storage;
}

} // namespace ohmfolio::workings
