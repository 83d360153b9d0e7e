/// Equipment grounding and grounding electrode conductors (250.122, 690.45, 250.66).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/wire.h"
#include "code/desk.h"

namespace ohmfolio {

/// Circular mils that an equipment grounding conductor grows to when the phase conductors do.
struct EquipmentGroundInput {
    Term<Amps> overcurrent;
    Material material = Material::copper;
    WireSize phase_needed{}, phase_installed{}; ///< smallest that complies, and the one used
    std::optional<WireSize> stated = {};
    bool pv_circuit = false; ///< 690.45: no increase for voltage drop
    /// Raceways of a circuit in parallel, each with a conductor of the full size; the phase
    /// conductors are then those of one set, which it may exceed.
    int raceways = 1;
};
struct EquipmentGroundResult {
    WireSize size{};
    bool passes = true; ///< of a stated size; false also when the table ends below the device
    std::optional<WireSize> needed = {}; ///< smallest that complies
};
EquipmentGroundResult size_equipment_ground(const Desk&, const EquipmentGroundInput&);

struct GroundingElectrodeInput {
    WireSize service{};
    Material service_material = Material::copper;
    Material material = Material::copper;
    /// Electrode kinds present, in words of the code: "rod", "concrete-encased", "ring", "water
    /// pipe".
    std::vector<std::string> electrodes = {};
    std::optional<WireSize> stated = {};
};
struct GroundingElectrodeResult {
    WireSize size{};
    bool passes = true;
    std::optional<WireSize> needed = {}; ///< smallest that complies
};
GroundingElectrodeResult size_grounding_electrode(const Desk&, const GroundingElectrodeInput&);

} // namespace ohmfolio
