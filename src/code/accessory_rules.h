/// Accessories: trunk cables, control wiring, current transformers, load controllers. Each stated
/// number is held against a limit: the equipment's own where it states one ("equipment nameplate"),
/// else a custom of the trade ("common practice").
#pragma once

#include <optional>
#include <vector>

#include "code/desk.h"
#include "code/verdict.h"

namespace ohmfolio {

enum class ModuleOrientation { portrait, landscape };

/// A trunk cable that gathers the inverters of one branch.
struct TrunkInput {
    int modules = 0;                      ///< of the branch, an inverter each
    int drops = 0;                        ///< of the cable; 0: as many as modules
    std::optional<int> branch_limit = {}; ///< inverters on a branch
    ModuleOrientation orientation = ModuleOrientation::portrait;
    Feet module_pitch{};                   ///< of a module along the row, gap included
    std::optional<Feet> drop_spacing = {}; ///< of the cable
    Feet length{};                         ///< of the cable
    std::optional<Feet> support_spacing = {};
    int cut_ends = 1; ///< ends that lead nowhere
};
struct TrunkResult {
    int sealing_caps = 0; ///< for drops without a module
    int end_caps = 0;     ///< for cut ends
    int supports = 0;
    RuleVerdicts verdicts = {};
};
TrunkResult judge_trunk(const Desk&, const TrunkInput&);

/// Control wiring of a system, all runs together.
RuleVerdict check_control_wiring(const Desk&, const std::vector<Term<Feet>>& runs,
                                 std::optional<Feet> limit = {});
/// Current transformer sets that measure storage.
RuleVerdict check_storage_sensors(const Desk&, int sets, std::optional<int> limit = {});

struct LoadControllers {
    int controllers = 0;
    int loads_240 = 0, loads_120 = 0; ///< circuits to be controlled, by voltage
    int interconnect_devices = 1;
    std::optional<int> takes_240 = {}, takes_120 = {}; ///< by one controller
    std::optional<int> limit = {};                     ///< controllers on one interconnect device
};
/// Whether they suffice for the loads, and whether the interconnect devices command so many.
RuleVerdict check_controller_loads(const Desk&, const LoadControllers&);
RuleVerdict check_controller_count(const Desk&, const LoadControllers&);
RuleVerdicts check_load_controllers(const Desk&, const LoadControllers&); ///< both

} // namespace ohmfolio
