// Which conductors of a raceway count for bundling.
#include "code/counting_rules.h"
#include "code/line.h"

namespace ohmfolio {

namespace {

struct Count {
    int conductors = 0;
    std::string rule;
    std::string why;
};

/// A neutral that carries only what its lines leave over does not count. That of two lines of a wye
/// does: it carries about the current of a line (I² = A² + B² − A × B, with A = B: I = A). That of
/// four wires counts where harmonics of third order, which add up in it, are the major load.
Count count_of(const CountedCircuit& circuit) {
    switch (circuit.wiring) {
    case CircuitWiring::two_wire:
        return {2, "conductor.count", "two wires carry the same current"};
    case CircuitWiring::direct_current:
        return {2, "conductor.count", "two wires carry the same current"};
    case CircuitWiring::split_phase:
        return {2, "conductor.count.unbalance", "the neutral carries the unbalance alone"};
    case CircuitWiring::two_lines_of_wye:
        return {3, "conductor.count.two_lines", "the neutral carries about the current of a line"};
    case CircuitWiring::three_phase:
        return {3, "conductor.count", "three lines"};
    case CircuitWiring::three_phase_neutral:
        if (circuit.nonlinear)
            return {4, "conductor.count.harmonics", "the neutral carries harmonics"};
        return {3, "conductor.count.unbalance", "the neutral carries the unbalance alone"};
    case CircuitWiring::high_leg_delta:
        return {3, "conductor.count.unbalance", "the neutral carries the unbalance alone"};
    }
    return {};
}

} // namespace

int current_carrying_of(const CountedCircuit& circuit) { return count_of(circuit).conductors; }

Term<Ratio> count_current_carrying(const Desk& desk, const std::vector<CountedCircuit>& circuits) {
    Term<Ratio> sum = factor(0);
    int number = 0;
    for (const CountedCircuit& circuit : circuits) {
        const Count count = count_of(circuit);
        const std::string index = std::to_string(++number);
        Heading line = line_for(desk, "counted_" + index, "N_" + index, "Conductors that count",
                                desk.book.cite(count.rule));
        line.source = count.why;
        const auto one = desk.sheet.state(line, Ratio{double(count.conductors)});
        const auto all = circuit.sets == 1 ? one : factor(circuit.sets) * one;
        sum = number == 1 ? all : sum + all;
    }
    return desk.sheet.define(line_for(desk, "current_carrying", "N_cc",
                                      "Current-carrying conductors in the raceway",
                                      desk.book.cite("conductor.bundling")),
                             sum);
}

} // namespace ohmfolio
