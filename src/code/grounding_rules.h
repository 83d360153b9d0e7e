/// Equipment grounding conductors (250.122, 690.45) and raceways in their place (250.118).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/wire.h"
#include "code/desk.h"
#include "code/verdict.h"

namespace ohmfolio {

/// Circular mils that an equipment grounding conductor grows to when the phase conductors do.
struct EquipmentGroundInput {
    Term<Amps> overcurrent;
    Material material = Material::copper;
    WireSize phase_needed{}, phase_installed{}; ///< smallest that complies, and the one used
    std::optional<WireSize> stated = {};
    bool pv_circuit = false; ///< 690.45: no increase for voltage drop
    bool for_voltage = true; ///< the phase conductors are larger on account of the voltage drop
    /// Smallest that carries the current before adjustment and correction, where the edition counts
    /// from there (2017). Nothing: `phase_needed`.
    std::optional<WireSize> phase_before_factors = {};
    std::string sized_by = {}; ///< qualified person and document, in place of an increase (2020 on)
    int parallel_sets = 1;     ///< of phase conductors of `phase_installed`
    bool separate_raceways = false; ///< each set in a raceway of its own
};
struct EquipmentGroundResult {
    WireSize size{};    ///< in each raceway
    bool passes = true; ///< of a stated size; false also when the table ends below the device
    std::optional<WireSize> needed = {}; ///< smallest that complies
    int count = 1;                       ///< raceways that hold one each
};
EquipmentGroundResult size_equipment_ground(const Desk&, const EquipmentGroundInput&);

/// One conductor for all circuits of a raceway: the largest that one of them asks for (250.122(C)).
/// The worksheet shows the circuit that decides. `circuits` has at least one.
struct SharedGroundResult {
    WireSize size{};
    std::size_t governs = 0; ///< index of the circuit that decides
    bool passes = true;      ///< false when the table ends below one of the devices
};
SharedGroundResult size_shared_equipment_ground(const Desk&,
                                                const std::vector<EquipmentGroundInput>& circuits);

/// A metal raceway as the equipment grounding conductor.
struct RacewayGroundInput {
    RacewayKind kind{};
    TradeSize trade{};
    Term<Amps> overcurrent;
    Feet flexible_length{};       ///< of all flexible raceways in the ground-fault path together
    bool moves = false;           ///< flexibility is needed after installation, or vibrates
    bool smaller_in_path = false; ///< flexible raceway of the smallest sizes in the same path
    bool listed_fittings = false; ///< not stated
};
/// Faults by "ground.raceway".
RuleVerdicts check_raceway_ground(const Desk&, const RacewayGroundInput&);

} // namespace ohmfolio
