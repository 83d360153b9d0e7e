/// The devices that sources connect by, and what the system does when the utility fails or is
/// loaded unevenly (705.12 to 705.45; 230.95; 705.95, since 2020 705.28(C)).
#pragma once

#include <optional>
#include <string>

#include "base/wire.h"
#include "code/desk.h"
#include "code/verdict.h"

namespace ohmfolio {

/// A breaker or fusible disconnect that a source feeds backward.
struct SourceDeviceInput {
    bool dedicated = false;      ///< the source has it for itself; not stated
    bool sources_marked = false; ///< its equipment is marked with all sources; not stated
    bool breaker = true;         ///< false: fusible, suitable for backfeed unless marked
    bool marked_line_and_load = false;
    bool rated_for_backfeed = false;
    bool plug_in = true;
    bool fastened = false;           ///< held by more than the pull to open it
    bool listed_interactive = false; ///< only listed interactive sources feed it
};
/// Faults by "device.dedicated", "device.marking", "device.backfeed", "device.fastening".
RuleVerdicts check_source_device(const Desk&, const SourceDeviceInput&);

/// Ground-fault protection of equipment at the service disconnect, and a source beside it.
struct ServiceFaultInput {
    Term<Amps> main;
    Volts to_ground{}, between{}; ///< nominal voltages of the service
    bool solidly_grounded_wye = true;
    bool protection = false;         ///< the service disconnect has it; not stated
    bool source_on_load_side = true; ///< of that protection
    /// Protection from all sources of ground-fault current, listed for backfeed. Not stated.
    bool from_all_sources = false;
};
bool needs_ground_fault_protection(const CodeBook&, const ServiceFaultInput&);
/// Faults by "fault.protection" and "fault.load_side"; nothing is asked where none is needed and
/// none is there.
RuleVerdicts check_ground_fault_protection(const Desk&, const ServiceFaultInput&);

/// Loss of the primary source (705.40). Fault by "loss.primary".
struct LossOfSourceInput {
    bool listed_interactive =
        false;                    ///< to UL 1741 or the like: ceases to export, returns by itself
    bool disconnects_all = false; ///< otherwise: opens all ungrounded conductors, stays open
};
RuleVerdicts check_loss_of_source(const Desk&, const LossOfSourceInput&);

/// Single-phase sources on the phases of a three-phase system (2017: 705.100; since 2020: 705.45).
/// The code sets no number; the utility's limit is checked where one is stated.
struct PhaseCurrents {
    Term<Amps> a, b, c;
    std::optional<Term<Amps>> limit = {}; ///< the utility's
};
/// Largest less smallest of the phases; the fault is "unbalance".
struct UnbalanceResult {
    Term<Amps> difference;
    RuleVerdicts verdicts;
};
UnbalanceResult check_unbalance(const Desk&, const PhaseCurrents&);

/// The neutral of an inverter output circuit.
struct SourceNeutralInput {
    /// It carries current: source between line and neutral, and the largest load between them.
    std::optional<Term<Amps>> source = {}, load = {};
    Term<Amps> ampacity = {};    ///< of the neutral
    WireSize size{};             ///< of the neutral
    WireSize equipment_ground{}; ///< of the circuit, for a neutral that only measures
    /// On the supply side of the service disconnect, where the neutral carries fault current: the
    /// size by Table 250.102(C)(1), `size_bonding_jumper`.
    std::optional<WireSize> supply_side = {};
};
/// Faults by "neutral.line_to_neutral", "neutral.sensing", "bond.neutral".
RuleVerdicts check_source_neutral(const Desk&, const SourceNeutralInput&);
/// The smallest neutral that only measures.
WireSize smallest_sensing_neutral(const SourceNeutralInput&);

} // namespace ohmfolio
