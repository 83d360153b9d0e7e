// Circuits of strings: their current, the fuse in series where one is needed, the conductors, and
// the equipment grounding conductor.

#include <fmt/format.h>

#include "code/array_current_rules.h"
#include "code/rules.h"
#include "study/steps.h"
#include "study/strings.h"

namespace ohmfolio::workings {

namespace {

/// The fuse is judged before the conductors are known: they are sized for what it lets through.
StringFuseResult judge_fuse(Work& work, int index, const StringOnInput& on) {
    return size_string_fuse(
        work.desk(subject_of(on.equipment)),
        {.string_current = *at(work.sources, index),
         .parallel = parallel_on_input(work.system, on),
         .module_fuse = on.module.series_fuse,
         .stated = on.array.fuse ? std::optional(on.array.fuse->value) : std::nullopt});
}

void complain_of_fuse(Work& work, const StringOnInput& on, const StringFuseResult& result) {
    complain_of_verdicts(work, result.verdicts,
                         {.rule = {},
                          .span = on.array.fuse ? on.array.fuse->span : on.equipment.span,
                          .message = fmt::format("{}: fuse", on.equipment.id),
                          .expected = result.conflict
                                          ? std::string("fewer strings in parallel, or modules "
                                                        "that take a larger fuse")
                                          : std::string("a fuse that carries the string and that "
                                                        "the module's label permits")});
    if (result.needed && !on.array.fuse && !result.conflict) {
        complain_of_missing(work, "pv.overcurrent.omitted",
                            {.rule = "string.fuse",
                             .span = on.equipment.span,
                             .message = fmt::format("{}: its strings need fuses: {}",
                                                    on.equipment.id, result.reason),
                             .expected = result.rating ? fmt::format("{} in each string",
                                                                     shown(result.rating->value))
                                                       : std::string("a fuse in each string"),
                             .hint = "fuse = \"... A\" on the string",
                             .subject = subject_of(on.equipment)});
    }
}

} // namespace

/// A string in full sun: more than its short-circuit current, for hours.
void derive_string_current(Work& work, int index) {
    const Circuit& circuit = at(work.system.circuits, index);
    const StringOnInput on = string_of(work.system, circuit);
    const Desk desk = work.desk(subject_of(circuit));
    const auto current = on.converts()
                             ? converter_circuit_current(desk, on.electronics->output_current, 1)
                             : source_circuit_current(desk, on.module.isc, 1);
    at(work.sources, index) = current;
    // Its line is written when the conductor is sized.
    at(work.sources_125, index) = factor(work.book.number("pv.conductor.continuous")) * current;
}

Work::Load string_load(Work& work, int index) {
    const StringOnInput on = string_of(work.system, at(work.system.circuits, index));
    const auto fuse = judge_fuse(work, index, on);
    complain_of_fuse(work, on, fuse);
    const bool fused = on.array.fuse && fuse.rating;
    work.string_backfeed.insert_or_assign(on.equipment.id, fuse.backfeed);
    return {*at(work.sources, index), *at(work.sources_125, index),
            fused ? *fuse.rating : *at(work.sources, index), fused};
}

ConductorResult size_string_conductor(Work& work, int index, const ConductorInput& conditions) {
    const Circuit& circuit = at(work.system.circuits, index);
    const StringOnInput on = string_of(work.system, circuit);
    const Work::Load& load = *at(work.load, index);
    DcCircuit dc{.current = load.current};
    if (load.protected_by_device)
        dc.device = load.overcurrent;
    if (parallel_on_input(work.system, on) > 1)
        dc.backfeed = work.string_backfeed.at(on.equipment.id);
    const auto result = size_dc_conductor(work.desk(subject_of(circuit)), dc, conditions);
    complain_of_verdicts(work, result.verdicts,
                         {.rule = {},
                          .span = at(work.system.runs, circuit.run).span,
                          .message = called(work.system, circuit),
                          .expected = "larger conductors, or a fuse in each string"});
    return result.conductor;
}

EquipmentGroundResult size_string_ground(Work& work, int index) {
    const Circuit& circuit = at(work.system.circuits, index);
    const CircuitStudy& study = at(work.study.circuits, index);
    const Work::Load& load = *at(work.load, index);
    ArrayGroundInput input{.current = load.current,
                           .material = circuit.material,
                           .phase_needed = study.smallest,
                           .phase_installed = study.size};
    if (load.protected_by_device)
        input.device = load.overcurrent;
    if (circuit.stated_equipment_ground)
        input.stated = circuit.stated_equipment_ground->value;
    return size_array_ground(work.desk(subject_of(circuit)), input);
}

} // namespace ohmfolio::workings
