/// Power control systems: listed equipment that holds currents of sources, busbars and conductors
/// to settings instead of larger busbars (705.13; since 2023 energy management, 750.30). Editions
/// before 2020 do not know it: nothing is asked and nothing is allowed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "code/desk.h"
#include "code/verdict.h"

namespace ohmfolio {

/// A busbar or conductor that the system protects.
struct ControlledPart {
    std::string name;   ///< "busbar of MP", part of the derivations' ids as "busbar_of_MP"
    Term<Amps> rating;  ///< of the busbar, or ampacity of the conductor
    Term<Amps> setting; ///< most that all supplies together bring to it
};
/// A controlled source on a busbar or conductor.
struct ControlledSource {
    std::string name;
    Term<Amps> device; ///< its overcurrent device
    Term<Amps> rating; ///< of the busbar or conductor that the device is on
};
struct PowerControlInput {
    std::vector<ControlledPart> parts = {};
    std::vector<ControlledSource> sources = {};
    bool listed = false; ///< false: not stated
    /// Settings behind a lock, a cover or a password; empty: not asked, to be seen on site.
    std::optional<bool> access_restricted = {};
    std::optional<bool> settings_marked = {};       ///< empty: not asked, to be seen on site
    std::optional<Term<Amps>> sources_setting = {}; ///< most that its sources deliver together
    Term<Amps> sources_total;                       ///< sum of their continuous outputs
};
struct PowerControlResult {
    bool known = true; ///< false: the edition has no such rule
    RuleVerdicts verdicts;
    /// What circuits and busbars count for the sources: the setting, or all of them.
    Term<Amps> counted;
};
/// Faults by "control.listed", "control.access", "control.marking", "control.setting",
/// "control.device".
PowerControlResult check_power_control(const Desk&, const PowerControlInput&);

/// Largest setting for the sources whose 125 % stays within `limit_125`, a limit of
/// `largest_source_on_bus`.
Term<Amps> largest_sources_setting(const Desk&, const Term<Amps>& limit_125);

} // namespace ohmfolio
