// Conductors by size, insulation and color: the length of the run for each of them, equipment
// grounds shared in a raceway once.
#include <fmt/format.h>

#include "study/fitted_breakers.h"
#include "takeoff/bill.h"

namespace ohmfolio::takeoff {

namespace {

/// Conductors of one color of one circuit, in all sets.
struct Conductors {
    WireSize size;
    std::string color;
    int count = 1;
};

/// Large conductors come black and get their color at the ends.
std::string color_words(const Bill& bill, const Conductors& wire) {
    const bool may_be_marked = wire.size >= bill.practice.remarked_from && wire.color != "black";
    return may_be_marked ? fmt::format("{}, or black marked {}", wire.color, wire.color)
                         : wire.color;
}

std::string_view insulation_words(const Circuit& circuit) { return name(circuit.insulation); }

void add_wire(Bill& bill, const Circuit& circuit, const Run& run, const Conductors& wire) {
    const std::string words =
        fmt::format("Wire, {} {} {}, {}", name(wire.size), name(circuit.material),
                    insulation_words(circuit), color_words(bill, wire));
    bill.add(by_the_foot(bill, MaterialGroup::wire, words, run.length * wire.count, circuit.tag));
}

/// The lines of the bus that a circuit sits on, by number; the first ones where none is assigned.
std::vector<std::size_t> lines_of_circuit(const Circuit& circuit) {
    std::vector<std::size_t> lines;
    for (std::size_t line = 0; line < 3; ++line) {
        const bool assigned = circuit.phases.count() == circuit.lines;
        if (assigned ? circuit.phases.on[line] : static_cast<int>(line) < circuit.lines)
            lines.push_back(line);
    }
    return lines;
}

void add_ungrounded(Bill& bill, const Circuit& circuit, const CircuitStudy& result,
                    const Run& run) {
    const int sets = result.parallel_sets * circuit.sets;
    if (circuit.direct_current) {
        add_wire(bill, circuit, run, {result.size, bill.practice.positive, sets});
        add_wire(bill, circuit, run, {result.size, bill.practice.negative, sets});
        return;
    }
    const WireColors& colors = bill.practice.colors(bill.system.site.voltage);
    for (const std::size_t line : lines_of_circuit(circuit))
        add_wire(bill, circuit, run, {result.size, colors.lines.at(line), sets});
    if (result.neutral)
        add_wire(bill, circuit, run, {result.size, colors.neutral, sets});
}

/// Multiconductor cable is one thing by the foot.
void add_cable(Bill& bill, const Circuit& circuit, const CircuitStudy& result, const Run& run) {
    const int conductors = result.phase_conductors + (result.neutral ? 1 : 0);
    std::string words =
        fmt::format("Cable, ({}) {} {}", conductors, name(result.size), name(circuit.material));
    if (result.has_equipment_ground)
        words += fmt::format(" and ground {}", name(result.equipment_ground));
    bill.add(by_the_foot(bill, MaterialGroup::wire, std::move(words),
                         run.length * (result.parallel_sets * circuit.sets), circuit.tag));
}

/// One equipment ground serves all circuits of a raceway, 250.122(C); each of parallel raceways
/// holds one. In free air each circuit has its own.
void add_ground(Bill& bill, const Run& run, const Circuit& circuit, const CircuitStudy& result) {
    if (result.has_equipment_ground)
        add_wire(bill, circuit, run,
                 {result.equipment_ground, bill.practice.ground, result.parallel_sets});
}

void measure_run(Bill& bill, const Run& run) {
    bool grounded = false;
    for (const int index : run.circuits) {
        const Circuit& circuit = bill.system.circuits[static_cast<std::size_t>(index)];
        const CircuitStudy& result = bill.study.circuits[static_cast<std::size_t>(index)];
        if (!result.sized || circuit.use == CircuitUse::trunk || was_there(bill.system, circuit))
            continue;
        if (run.raceway == RacewayKind::cable) {
            add_cable(bill, circuit, result, run);
            continue;
        }
        add_ungrounded(bill, circuit, result, run);
        const bool shared = grounded && run.raceway != RacewayKind::free_air;
        if (!shared)
            add_ground(bill, run, circuit, result);
        grounded = grounded || result.has_equipment_ground;
    }
}

} // namespace

void measure_wire(Bill& bill) {
    for (const Run& run : bill.system.runs)
        measure_run(bill, run);
}

} // namespace ohmfolio::takeoff
