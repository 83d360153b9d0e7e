// Grounding of arrays.
#include <stdexcept>

#include "code/array_grounding_rules.h"
#include "code/overcurrent_rules.h"
#include "code/verdict_line.h"

namespace ohmfolio {

namespace {

std::string_view words(ArrayGrounding kind) {
    switch (kind) {
    case ArrayGrounding::functional:
        return "functionally grounded";
    case ArrayGrounding::bipolar:
        return "bipolar, functionally grounded at the center";
    case ArrayGrounding::through_inverter:
        return "grounded through the output of an inverter that does not isolate";
    case ArrayGrounding::ungrounded:
        return "ungrounded";
    case ArrayGrounding::solid:
        return "solidly grounded";
    case ArrayGrounding::equivalent:
        return "equivalent protection by listed equipment";
    }
    return {};
}

} // namespace

GroundingConsequence array_grounding(const Desk& desk, ArrayGrounding kind) {
    GroundingConsequence result;
    if (kind == ArrayGrounding::solid)
        result = {true, 1, 1, true, true};
    desk.sheet.choose(line_for(desk, "array_grounding", {}, "Grounding of the array",
                               desk.book.cite("pv.grounding")),
                      std::string(words(kind)), {});
    const std::string rule = result.electrode_conductor ? "pv.electrode.solid" : "pv.electrode";
    desk.sheet.choose(
        line_for(desk, "array_electrode", {}, "Connection to the electrodes", desk.book.cite(rule)),
        result.electrode_conductor ? "grounding electrode conductor of its own"
                                   : "by the equipment ground of the output circuit",
        {});
    return result;
}

RuleVerdicts check_module_bonding(const Desk& desk, const ModuleBonding& input) {
    RuleVerdicts verdicts;
    if (!input.metal_exposed)
        return verdicts;
    verdicts.push_back(
        judge_by(desk, {"module_bonding", "Bonding of modules and mounting", "pv.bonding"},
                 input.listed_for_bonding ? "mounting or devices listed for bonding modules"
                                          : "not stated to be listed for bonding modules",
                 input.listed_for_bonding));
    verdicts.push_back(judge_by(
        desk, {"array_grounded", "Exposed metal of the array", "pv.bonding"},
        input.grounded_to_equipment_ground ? "connected to an equipment grounding conductor"
                                           : "not connected to an equipment grounding conductor",
        input.grounded_to_equipment_ground));
    verdicts.push_back(judge_by(
        desk, {"ground_route", "Route of the equipment ground", "pv.bonding.route"},
        input.ground_runs_with_circuit ? "with the circuit conductors beyond the array"
                                       : "apart from the circuit conductors beyond the array",
        input.ground_runs_with_circuit));
    return verdicts;
}

EquipmentGroundResult size_array_ground(const Desk& desk, const ArrayGroundInput& input) {
    Term<Amps> device;
    if (input.device) {
        device = *input.device;
    } else {
        // 125 % itself would do: no row of Table 250.122 ends between two standard ratings.
        const auto least = factor(desk.book.number("pv.overcurrent")) * input.current;
        const auto rating = desk.book.standard_rating_up(least.value);
        if (!rating)
            throw std::logic_error("a string has no device above the largest standard rating");
        device = desk.sheet.define(line_for(desk, "assumed_device", "I_assumed",
                                            "Device assumed for the equipment ground",
                                            desk.book.cite("pv.ground.assumed")),
                                   smallest_not_below("next standard rating", least, *rating));
    }
    return size_equipment_ground(desk, {.overcurrent = device,
                                        .material = input.material,
                                        .phase_needed = input.phase_needed,
                                        .phase_installed = input.phase_installed,
                                        .stated = input.stated,
                                        .pv_circuit = true});
}

RuleVerdict check_array_ground_protection(const Desk& desk, WireSize size, bool exposed_to_damage,
                                          bool in_raceway) {
    static const WireSize enough = *parse_wire_size("6 AWG");
    const bool thick = size >= enough;
    const bool passes = thick || !exposed_to_damage || in_raceway;
    std::string statement = name(size);
    if (thick) {
        statement += " is not smaller than " + name(enough);
    } else if (!exposed_to_damage) {
        statement += " where nothing can damage it";
    } else {
        statement += in_raceway ? " in raceway" : " where it may be damaged";
    }
    return judge_by(desk,
                    {"array_ground_protection", "Protection of the array's equipment ground",
                     "pv.ground.array"},
                    std::move(statement), passes);
}

} // namespace ohmfolio
