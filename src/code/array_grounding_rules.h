/// Grounding of arrays (690.41 to 690.47): what the kind of grounding means for devices, poles and
/// colors, and the equipment grounding conductors. Ground-fault protection: array_safety_rules.h.
#pragma once

#include <optional>
#include <string>

#include "code/grounding_rules.h"
#include "code/verdict.h"

namespace ohmfolio {

/// The kinds that 690.41(A) lists.
enum class ArrayGrounding {
    functional,       ///< one conductor to ground through a device that opens on a fault
    bipolar,          ///< center tap with functional ground
    through_inverter, ///< inverter does not isolate it from its grounded output
    ungrounded,
    solid,     ///< one conductor to ground without a device
    equivalent ///< another way, by listed equipment
};
/// What follows for the two conductors of a circuit.
struct GroundingConsequence {
    bool solidly_grounded = false;
    int poles_to_open = 2;      ///< by the disconnecting means
    int poles_with_devices = 1; ///< one suffices, never a solidly grounded one
    bool white_conductor = false;
    bool electrode_conductor = false; ///< one of its own, sized for direct current
};
GroundingConsequence array_grounding(const Desk&, ArrayGrounding);

/// Bonding of modules and mounting (690.43).
struct ModuleBonding {
    bool metal_exposed = true;       ///< frames, rails, enclosures
    bool listed_for_bonding = false; ///< mounting or devices that bond the modules
    bool grounded_to_equipment_ground = false;
    bool ground_runs_with_circuit = false; ///< beyond the array
};
RuleVerdicts check_module_bonding(const Desk&, const ModuleBonding&);

/// Equipment grounding conductor of a direct-current circuit (690.45).
struct ArrayGroundInput {
    Term<Amps> current{};                  ///< by 690.8(A)
    std::optional<Term<Amps>> device = {}; ///< nothing: one is assumed
    Material material = Material::copper;
    WireSize phase_needed{}, phase_installed{};
    std::optional<WireSize> stated = {};
};
EquipmentGroundResult size_array_ground(const Desk&, const ArrayGroundInput&);

/// A small equipment grounding conductor in the array (690.46): in raceway, or where nothing can
/// damage it.
RuleVerdict check_array_ground_protection(const Desk&, WireSize size, bool exposed_to_damage,
                                          bool in_raceway);

} // namespace ohmfolio
