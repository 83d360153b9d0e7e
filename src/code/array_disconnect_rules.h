/// Disconnecting means: of the PV system (690.13) and of its equipment (690.15).
#pragma once

#include <optional>

#include "code/desk.h"
#include "code/verdict.h"

namespace ohmfolio {

/// What the means must interrupt and withstand, and what its nameplate says.
struct DisconnectDuty {
    Term<Amps> current{};                 ///< highest of the circuit, by 690.8(A)
    Term<Volts> voltage{};                ///< highest, by 690.7
    std::optional<Term<Amps>> fault = {}; ///< available; nothing: not known, not judged
    Amps rated_current{};
    Volts rated_voltage{};
    std::optional<Amps> rated_fault = {}; ///< nothing: not stated
};
/// Verdicts "pv.disconnect.rating"; for alternating as for direct current.
RuleVerdicts check_disconnect_ratings(const Desk&, const DisconnectDuty&);

/// The means that separates a PV system from all other wiring.
struct SystemDisconnect {
    Volts voltage{};
    int count = 1;
    bool grouped = true; ///< when more than one
    bool readily_accessible = false;
    bool opens_all_poles = false; ///< every conductor that is not solidly grounded, at once
    bool lockable = false;
    bool exposes_live_parts = false; ///< with its door open
    bool unqualified_access = true;  ///< where people without training can reach it
    bool door_needs_tool_or_key = false;
};
RuleVerdicts check_system_disconnect(const Desk&, const SystemDisconnect&);

/// How equipment is isolated.
enum class IsolatedBy {
    nothing,
    connector_or_isolator, ///< isolating device, not meant to interrupt
    interlocked_device,    ///< part of listed equipment, cannot open under load
    disconnect             ///< equipment disconnecting means, rated to interrupt
};
struct EquipmentDisconnect {
    Term<Amps> current{}; ///< highest of the circuit
    IsolatedBy by = IsolatedBy::nothing;
    bool within_equipment = false;
    bool in_sight = false;
    Feet distance{}; ///< from the equipment
    bool lockable = false;
    bool remote_control_near = false; ///< operated from within the distance
    bool marked_not_for_load = false; ///< an isolator that is not rated to interrupt
};
RuleVerdicts check_equipment_disconnect(const Desk&, const EquipmentDisconnect&);

} // namespace ohmfolio
