/// Bonding: jumpers of services and separately derived systems (250.28, 250.30, 250.102), of
/// equipment (250.102(D)), and past knockouts above 250 V (250.97).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/wire.h"
#include "code/desk.h"
#include "code/electrode_rules.h"
#include "code/verdict.h"

namespace ohmfolio {

enum class JumperUse {
    main,              ///< neutral to enclosure at a service disconnect
    system,            ///< the same in a separately derived system
    supply_side,       ///< enclosures and raceways ahead of the first device
    grounded_conductor ///< the neutral itself, which carries fault current ahead of it
};
struct BondingJumperInput {
    JumperUse use = JumperUse::main;
    WireSize phase{}; ///< largest ungrounded conductor; of parallel ones, one of a phase
    Material phase_material = Material::copper;
    int parallel_sets = 1;
    bool by_raceway = false; ///< each set in its raceway with a jumper of its own
    Material material = Material::copper;
    std::optional<WireSize> stated = {};
};
struct BondingJumperResult {
    WireSize size{};
    bool passes = true; ///< of a stated size; false also when no listed size is large enough
    std::optional<WireSize> needed = {}; ///< smallest that complies
    int count = 1;
};
/// By Table 250.102(C)(1) up to its end; beyond, 12.5 % of the area of the conductors, taken as if
/// of the jumper's material.
BondingJumperResult size_bonding_jumper(const Desk&, const BondingJumperInput&);

/// A bonding jumper on the load side of a device, by the table of equipment grounding conductors;
/// nothing when that ends below the device.
std::optional<WireSize> size_equipment_bonding_jumper(const Desk&, const Term<Amps>& overcurrent,
                                                      Material);

/// A generator, transformer or inverter that supplies premises of its own or through transfer.
struct DerivedSystemInput {
    bool neutral_switched = false;     ///< its transfer equipment opens the neutral
    bool isolated = false;             ///< no conductor joins it to another system: a transformer
    bool bonded_at_source = false;     ///< neutral to enclosure
    bool bonded_at_disconnect = false; ///< at its first disconnect
    WireSize phase{};
    Material phase_material = Material::copper;
    int parallel_sets = 1;
    std::vector<std::string> electrodes = {}; ///< kinds as in GroundingElectrodeInput
};
bool separately_derived(const DerivedSystemInput&);
/// Faults by "derived.single_point" and "derived.unbonded". The system bonding jumper and the
/// grounding electrode conductor are sized for a separately derived system only.
struct DerivedSystemResult {
    bool separately_derived = false;
    RuleVerdicts verdicts;
    std::optional<BondingJumperResult> jumper = {};
    std::optional<GroundingElectrodeResult> electrode = {};
};
DerivedSystemResult check_derived_system(const Desk&, const DerivedSystemInput&);

/// A metal raceway at an enclosure. Fault by "bond.knockouts".
struct KnockoutInput {
    Volts to_ground{};
    bool ringed = false; ///< concentric, eccentric or oversized knockout
    bool listed = false; ///< the enclosure is listed to bond so; not stated
    bool jumper = false; ///< bonding bushing with jumper, or hub; not stated
};
RuleVerdicts check_knockout(const Desk&, const KnockoutInput&);

} // namespace ohmfolio
