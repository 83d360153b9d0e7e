// Voltage change of every circuit, and the rise from each branch to the point of connection.
//
// Inverters at the end of a long branch see the highest voltage and trip first, so the branch with
// the greatest rise is held against the limit. A trunk is taken as carrying its full current over
// its whole length: on the safe side, since each microinverter adds its share on the way.

#include <fmt/format.h>

#include "base/text.h"
#include "study/dc_storage.h"
#include "study/steps.h"
#include "study/strings.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

const std::string summary = "voltage:rise";

/// What a string loses is told at the current and voltage at which it works.
void take_at_power_point(Work& work, const Circuit& circuit, VoltageChangeInput& input) {
    const StringOnInput on = string_of(work.system, circuit);
    const auto point = array_power_point(work.desk(subject_of(circuit)), on.module.vmp,
                                         on.module.imp, on.array.in_series, 1);
    input.current = recall<Amps>(work, circuit.tag + ".array_power_point_current");
    input.nominal = point.volts; // told by the line array_power_point_voltage
    input.dc = true;
}

/// At its lowest voltage a battery gives the same power with the most current.
void take_at_battery_voltage(Work& work, const Circuit& circuit, VoltageChangeInput& input) {
    input.nominal = lowest_battery_voltage(work, circuit).value;
    input.dc = true;
}

/// The table begins at the sizes that circuits may have: nothing is known of a smaller one.
void complain_of_size(Work& work, const Circuit& circuit, const CircuitStudy& study) {
    const std::string size = name(study.size);
    complain(work, circuit.tag + ".voltage_change",
             {.rule = "voltage.resistance",
              .severity = Severity::warning,
              .span = circuit.stated_size ? circuit.stated_size->span
                                          : at(work.system.runs, circuit.run).span,
              .message = fmt::format("{}: no resistance is listed for {} {}, so its voltage change "
                                     "is not known and counts for nothing",
                                     called(work.system, circuit), size, name(circuit.material)),
              .expected = "a size that the table lists",
              .hint = study.listed_assembly ? "trunk_size in the record of the microinverter"
                                            : std::string{}});
}

void derive_one(Work& work, int index) {
    const Circuit& circuit = at(work.system.circuits, index);
    const Run& run = at(work.system.runs, circuit.run);
    CircuitStudy& study = at(work.study.circuits, index);
    VoltageChangeInput input{.current = at(work.load, index)->current,
                             .one_way = run.length,
                             .size = study.size,
                             .material = circuit.material,
                             .raceway = run.raceway,
                             .nominal = circuit.lines == 1 ? work.system.site.to_neutral
                                                           : work.system.site.voltage,
                             .phases = circuit.lines == 3 ? 3 : 1,
                             .sets = run.parallel_sets};
    if (circuit.use == CircuitUse::string)
        take_at_power_point(work, circuit, input);
    else if (circuit.direct_current)
        take_at_battery_voltage(work, circuit, input);
    const auto result = voltage_change(work.desk(subject_of(circuit)), input);
    if (work.study.derivation(circuit.tag + ".voltage_change").verdict == Verdict::fail)
        complain_of_size(work, circuit, study);
    study.voltage_change = result.fraction;
    study.voltage_change_volts = result.volts;
}

/// Whether the circuit lies between sources and the point of connection.
bool counts(const Work& work, int index) {
    const Circuit& circuit = at(work.system.circuits, index);
    return circuit.use != CircuitUse::service && !circuit.by_utility && at(work.load, index);
}

/// Between lines, so that circuits to neutral add up with those between lines by their shares.
Term<Volts> rise_of(const Work& work, int index) {
    const Circuit& circuit = at(work.system.circuits, index);
    const auto rise = recall<Volts>(work, circuit.tag + ".voltage_change");
    if (circuit.lines > 1)
        return rise;
    return is_wye(work.system.site.supply) ? root_three() * rise : factor(2) * rise;
}

struct Rise {
    int branch = -1;
    int circuit = -1; ///< where it starts
    Term<Volts> volts;
};

std::optional<Term<Volts>> rise_along(const Work& work, int circuit) {
    std::optional<Term<Volts>> sum;
    for (int i = circuit; i >= 0 && counts(work, i); i = next_circuit(work.system, i)) {
        add_to(sum, rise_of(work, i));
    }
    return sum;
}

/// The branch with the greatest rise; the first of several alike.
std::optional<Rise> greatest_rise(const Work& work) {
    std::optional<Rise> greatest;
    for (const int branch : branches_below(work.system, work.system.root())) {
        for (const int circuit : circuits_from(work.system, branch)) {
            const auto rise = rise_along(work, circuit);
            if (rise && (!greatest || rise->value > greatest->volts.value))
                greatest = Rise{branch, circuit, *rise};
        }
    }
    return greatest;
}

Heading line(const Work& work, std::string name, std::string symbol, std::string title) {
    return {.subject = summary,
            .name = std::move(name),
            .symbol = std::move(symbol),
            .title = std::move(title),
            .cite = work.book.cite(paragraph::voltage_change)};
}

/// The circuit on the way that adds most. Trunk cable is what it is, so that another one is named
/// where there is one.
int largest_share(const Work& work, int start) {
    int largest = start;
    const auto volts = [&](int i) { return at(work.study.circuits, i).voltage_change_volts; };
    const auto fixed = [&](int i) { return at(work.study.circuits, i).listed_assembly; };
    for (int i = start; i >= 0 && counts(work, i); i = next_circuit(work.system, i)) {
        if ((fixed(largest) && !fixed(i)) || (!fixed(i) && volts(i) > volts(largest)))
            largest = i;
    }
    return largest;
}

void check_greatest(Work& work, const Rise& rise) {
    Worksheet& sheet = work.study.worksheet;
    const Equipment& branch = at(work.system.equipment, rise.branch);
    const auto total = sheet.define(
        line(work, "total", "V_rise", "Rise from " + branch.id + " to the point of connection"),
        rise.volts);
    Heading heading = line(work, "share", "v_rise", "Rise as a share of the nominal voltage");
    heading.as = ShownAs::percent;
    const auto share = sheet.define(heading, total / nominal_voltage(work));
    Heading stated = line(work, "limit", "v_max", "Most that the rise should be");
    stated.as = ShownAs::percent;
    stated.source = "common practice, or as stated in the description";
    const auto limit = sheet.state(stated, Ratio{work.system.voltage_change_limit});
    heading = line(work, "limit_kept", {}, "Rise from the farthest branch");
    heading.as = ShownAs::percent;
    if (sheet.check(heading, share, "≤", limit))
        return;
    const std::string comparison = sheet.all().back().comparison;
    const int worst = largest_share(work, rise.circuit);
    complain(work, sheet.all().back().id,
             {.rule = "voltage.rise",
              .severity = Severity::advice,
              .span = branch.span,
              .message = fmt::format(
                  "the voltage rises by {} from {} to the point of connection: {}, beyond good "
                  "practice; the largest share that a larger size would lower is that of {}, {}",
                  shown(total.value), branch.id, comparison,
                  called(work.system, at(work.system.circuits, worst)),
                  shown(at(work.study.circuits, worst).voltage_change_volts)),
              .expected = "larger conductors on the longest runs"});
}

} // namespace

void derive_voltage_changes(Work& work) {
    for (int i = 0; i < static_cast<int>(work.system.circuits.size()); ++i) {
        if (at(work.study.circuits, i).sized)
            derive_one(work, i);
    }
    if (const auto rise = greatest_rise(work))
        check_greatest(work, *rise);
}

} // namespace ohmfolio::workings
