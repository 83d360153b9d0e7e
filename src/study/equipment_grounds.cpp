// Equipment grounding conductors: each circuit asks for its size, the raceway holds one, the
// largest asked for.

#include <algorithm>

#include <fmt/format.h>

#include "code/bonding_rules.h"
#include "study/steps.h"
#include "study/strings.h"

namespace ohmfolio::workings {

namespace {

bool grounded(const Work& work, int circuit) {
    const CircuitStudy& study = at(work.study.circuits, circuit);
    return study.sized && study.has_equipment_ground;
}

/// A circuit of the PV system, which ends at its disconnecting means: what leaves a disconnect
/// toward the utility is a feeder like any other.
bool is_pv(const System& system, const Circuit& circuit) {
    const bool ahead = system.at(system.child_of(circuit)).is<Disconnect>();
    return circuit.use == CircuitUse::trunk || circuit.use == CircuitUse::branch ||
           (circuit.use == CircuitUse::pv_output && !ahead);
}

/// Ahead of the first device a bonding jumper takes the place of the equipment ground.
void size_supply_jumper(Work& work, int index) {
    const Circuit& circuit = at(work.system.circuits, index);
    CircuitStudy& study = at(work.study.circuits, index);
    BondingJumperInput input{.use = JumperUse::supply_side,
                             .phase = study.size,
                             .phase_material = circuit.material,
                             .parallel_sets = study.parallel_sets,
                             .by_raceway = study.parallel_sets > 1,
                             .material = circuit.material};
    if (circuit.stated_equipment_ground)
        input.stated = circuit.stated_equipment_ground->value;
    const auto result = size_bonding_jumper(work.desk(subject_of(circuit)), input);
    study.equipment_ground = result.size;
    if (result.passes)
        return;
    study.passes = false;
    complain(
        work, work.study.worksheet.all().back().id,
        {.rule = "circuit.ground",
         .span = circuit.stated_equipment_ground ? circuit.stated_equipment_ground->span
                                                 : at(work.system.runs, circuit.run).span,
         .message = fmt::format("{}: supply-side bonding jumper {} is too small for phase "
                                "conductors of {}",
                                called(work.system, circuit), name(result.size), name(study.size)),
         .expected = result.needed ? fmt::format("{} or larger", name(*result.needed))
                                   : std::string("smaller phase conductors")});
}

void size_one(Work& work, int index) {
    const Circuit& circuit = at(work.system.circuits, index);
    CircuitStudy& study = at(work.study.circuits, index);
    EquipmentGroundInput input{.overcurrent = at(work.load, index)->overcurrent,
                               .material = circuit.material,
                               .phase_needed = study.needed,
                               .phase_installed = study.size,
                               .stated = {},
                               .pv_circuit = is_pv(work.system, circuit),
                               // What a drafter chose larger is so for the voltage; what the house
                               // draws no smaller is not.
                               .for_voltage = circuit.stated_size.has_value(),
                               .parallel_sets = study.parallel_sets,
                               .separate_raceways = study.parallel_sets > 1};
    if (circuit.stated_equipment_ground)
        input.stated = circuit.stated_equipment_ground->value;
    if (circuit.use == CircuitUse::trunk) // what the cable holds cannot be chosen
        input.stated = microinverter_of(work.system, circuit).trunk_ground;
    const std::size_t before = work.study.worksheet.all().size();
    if (circuit.use == CircuitUse::supply_side) {
        size_supply_jumper(work, index);
        return;
    }
    const auto result = circuit.use == CircuitUse::string
                            ? size_string_ground(work, index)
                            : size_equipment_ground(work.desk(subject_of(circuit)), input);
    study.equipment_ground = result.size;
    if (result.passes)
        return;
    study.passes = false;
    const auto steps = ids_since(work.study, before);
    complain(work, steps.back(),
             {.rule = "circuit.ground",
              .span = circuit.stated_equipment_ground ? circuit.stated_equipment_ground->span
                                                      : at(work.system.runs, circuit.run).span,
              .message = fmt::format("{}: equipment grounding conductor {} is too small for its {} "
                                     "overcurrent device",
                                     called(work.system, circuit), name(result.size),
                                     shown(input.overcurrent.value)),
              .expected = result.needed ? fmt::format("{} or larger", name(*result.needed))
                                        : std::string("a smaller overcurrent device: the table "
                                                      "ends below it")});
}

/// One equipment grounding conductor serves all circuits of a raceway (250.122(C)).
void share_in_raceway(Work& work, const Run& run) {
    WireSize largest{};
    for (const int circuit : run.circuits) {
        if (grounded(work, circuit))
            largest = std::max(largest, at(work.study.circuits, circuit).equipment_ground);
    }
    for (const int circuit : run.circuits) {
        if (grounded(work, circuit))
            at(work.study.circuits, circuit).equipment_ground = largest;
    }
}

} // namespace

void size_equipment_grounds(Work& work) {
    for (int i = 0; i < static_cast<int>(work.system.circuits.size()); ++i) {
        if (grounded(work, i))
            size_one(work, i);
    }
    for (const Run& run : work.system.runs) {
        share_in_raceway(work, run);
    }
}

} // namespace ohmfolio::workings
