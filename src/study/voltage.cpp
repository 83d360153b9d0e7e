// Voltage change of every circuit, and the rise from each branch to the point of connection.
//
// Inverters at the end of a long branch see the highest voltage and trip first, so the branch with
// the greatest rise is held against the limit. A trunk is taken as carrying its full current over
// its whole length: on the safe side, since each microinverter adds its share on the way.

#include <fmt/format.h>

#include "base/text.h"
#include "study/steps.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

const std::string summary = "voltage:rise";

void derive_one(Work& work, int index) {
    const Circuit& circuit = at(work.system.circuits, index);
    const Run& run = at(work.system.runs, circuit.run);
    CircuitStudy& study = at(work.study.circuits, index);
    const auto result =
        voltage_change(work.desk(subject_of(circuit)), {.current = at(work.load, index)->current,
                                                        .one_way = run.length,
                                                        .size = study.size,
                                                        .material = circuit.material,
                                                        .raceway = run.raceway,
                                                        .nominal = work.system.site.voltage});
    study.voltage_change = result.fraction;
    study.voltage_change_volts = result.volts;
}

/// Whether the circuit lies between sources and the point of connection.
bool counts(const Work& work, int index) {
    const Circuit& circuit = at(work.system.circuits, index);
    return circuit.use != CircuitUse::service && !circuit.by_utility && at(work.load, index);
}

/// The rise of one circuit under its own symbol, so that a sum of several reads apart.
Term<Volts> rise_of(const Work& work, int index) {
    const std::string& tag = at(work.system.circuits, index).tag;
    auto rise = recall<Volts>(work, tag + ".voltage_change");
    rise.symbols = "V_" + tag;
    return rise;
}

struct Rise {
    int branch = -1;
    Term<Volts> volts;
};

std::optional<Term<Volts>> rise_along(const Work& work, int circuit) {
    std::optional<Term<Volts>> sum;
    for (int i = circuit; i >= 0 && counts(work, i); i = next_circuit(work.system, i)) {
        sum = sum ? *sum + rise_of(work, i) : rise_of(work, i);
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
                greatest = Rise{branch, *rise};
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

void check_greatest(Work& work, const Rise& rise) {
    Worksheet& sheet = work.study.worksheet;
    const Equipment& branch = at(work.system.equipment, rise.branch);
    const auto total = sheet.define(
        line(work, "total", "V_rise", "Rise from " + branch.id + " to the point of connection"),
        rise.volts);
    const auto share = sheet.define(line(work, "share", "v_rise", "Share of the nominal voltage"),
                                    total / given("V_nominal", work.system.site.voltage));
    Heading stated = line(work, "limit", "v_max", "Most that the rise should be");
    stated.source = "common practice, or as stated in the description";
    const auto limit = sheet.state(stated, Ratio{work.system.voltage_change_limit});
    require(work, line(work, "limit_kept", {}, "Rise from the farthest branch"), share, "≤", limit,
            {.rule = "voltage.rise",
             .severity = Severity::advice,
             .span = branch.span,
             .message = fmt::format(
                 "the voltage rises by {} ({} %) from {} to the point of connection; {} % is the "
                 "limit of good practice",
                 shown(total.value), trimmed(share.value.value * 100, 3), branch.id,
                 trimmed(limit.value.value * 100, 2)),
             .expected = "larger conductors on the longest runs",
             .hint = "state a larger size for the run that rises most"});
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
