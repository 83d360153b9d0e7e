/// The grounding electrode system: its conductors, its electrodes, what other systems bond to
/// (250.50 to 250.68, 250.94; direct current: 250.166).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/wire.h"
#include "code/desk.h"
#include "code/verdict.h"

namespace ohmfolio {

struct GroundingElectrodeInput {
    WireSize service{}; ///< largest ungrounded conductor; of parallel ones, one of a phase
    Material service_material = Material::copper;
    Material material = Material::copper;
    /// Electrode kinds present, in words of the code: "rod", "plate", "concrete-encased", "ring",
    /// "water pipe", "building steel".
    std::vector<std::string> electrodes = {};
    std::optional<WireSize> stated = {};
    int parallel_sets = 1;             ///< of service conductors; their areas add up
    std::optional<WireSize> ring = {}; ///< conductor of the ground ring, where there is one
};
struct GroundingElectrodeResult {
    WireSize size{};
    bool passes = true;
    std::optional<WireSize> needed = {}; ///< smallest that complies
};
/// The conductor to the electrode system: by the table when one of the electrodes asks for it, else
/// the largest of their caps.
GroundingElectrodeResult size_grounding_electrode(const Desk&, const GroundingElectrodeInput&);

/// The conductor to each electrode by itself, where they are tapped or joined one by one.
struct ElectrodeConductor {
    std::string electrode;
    WireSize size{};
    Citation cite;
};
std::vector<ElectrodeConductor> conductors_to_electrodes(const CodeBook&,
                                                         const GroundingElectrodeInput&);

/// Electrodes that may not stand alone, and how they stand.
struct ElectrodeSystemInput {
    int rods = 0;                         ///< rods, pipes and plates
    std::optional<double> rod_ohms = {};  ///< measured, of a single one
    std::optional<Feet> rod_spacing = {}; ///< least distance between two; nothing: not stated
    bool water_pipe = false;              ///< metal, underground
    int others = 0;                       ///< concrete-encased, ring, building steel
    std::optional<WireSize> ring = {};
};
/// Faults by "ground.electrode.rod.second", ".rod.spacing", ".pipe.second", ".ring.size".
RuleVerdicts check_electrode_system(const Desk&, const ElectrodeSystemInput&);

/// An aluminum grounding electrode conductor. Fault by "ground.electrode.aluminum".
struct AluminumElectrodeInput {
    Feet height{};                ///< of its end above earth, outdoors
    bool touches_masonry = false; ///< or earth, or concrete
};
RuleVerdicts check_aluminum_electrode(const Desk&, const AluminumElectrodeInput&);

/// The grounding electrode conductor of a direct-current system.
struct DirectCurrentElectrodeInput {
    WireSize largest{}; ///< conductor that the system supplies
    Material material = Material::copper;
    std::vector<std::string> electrodes = {};
    std::optional<WireSize> ring = {};
    std::optional<WireSize> stated = {};
};
GroundingElectrodeResult size_direct_current_electrode(const Desk&,
                                                       const DirectCurrentElectrodeInput&);

/// A PV system that is not solidly grounded: the equipment grounding conductor of its output
/// circuit joins it to the electrodes (690.47(A)). Fault by "ground.pv.electrode".
struct PvElectrodeInput {
    bool solidly_grounded = false;
    bool output_ground_connected = false; ///< to the grounding electrode system; not stated
};
RuleVerdicts check_pv_electrode(const Desk&, const PvElectrodeInput&);

/// Termination for bonding of telephone, antenna and the like. Fault by
/// "ground.electrode.intersystem".
struct IntersystemInput {
    int terminals = 0;
    bool at_service = false; ///< accessible, outside at the meter or service; not stated
};
RuleVerdicts check_intersystem_bonding(const Desk&, const IntersystemInput&);

} // namespace ohmfolio
