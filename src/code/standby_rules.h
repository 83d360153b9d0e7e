/// What a standby source must carry: by the way it is connected (702.4), alone (710.15(A)), at its
/// continuous rating, and in the moment a motor starts.
///
/// Whether Article 702 applies to storage that islands with its own device, or 705 and 710 alone,
/// is read in different ways; the caller decides which functions to ask.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "code/desk.h"
#include "code/verdict.h"

namespace ohmfolio {

/// How the loads come to the source. A mechanical interlock of two breakers is worked by hand.
enum class TransferKind { interlock, manual_switch, automatic_switch, interconnect_device };
constexpr bool is_automatic(TransferKind kind) {
    return kind == TransferKind::automatic_switch || kind == TransferKind::interconnect_device;
}

struct StandbyInput {
    TransferKind transfer = TransferKind::automatic_switch;
    Term<Watts> capacity;                     ///< of all sources of the standby system
    std::optional<Term<Watts>> selected = {}; ///< what the user lets run at one time (manual)
    std::optional<Term<Watts>> full = {};     ///< calculated load that is transferred (automatic)
    std::optional<Term<Watts>> managed = {};  ///< most that load management connects
};
/// 702.4. Fails where the load that the rule asks about is not stated.
RuleVerdict standby_capacity(const Desk&, const StandbyInput&);

/// 710.15(A), for microgrids 705.80 where the edition has it: the largest single load.
RuleVerdict island_capacity(const Desk&, const Term<Watts>& capacity,
                            const Term<Watts>& largest_load, bool microgrid);

struct ContinuousInput {
    Term<Watts> rating; ///< continuous, of one inverter
    int count = 1;
    std::vector<Term<Watts>> loads;
    double running_share = 1; ///< stated share of the loads that runs together
};
RuleVerdict continuous_capacity(const Desk&, const ContinuousInput&);

/// A motor as its nameplate tells it; the first that is there of locked-rotor current, code letter
/// with horsepower, running current.
struct MotorInput {
    std::optional<Amps> locked_rotor = {};
    std::string code_letter = {};
    double horsepower = 0;
    Volts voltage{240};
    bool three_phase = false;
    std::optional<Term<Amps>> running = {};
    bool soft_starter = false;
    std::optional<double> soft_start_share =
        {}; ///< of the locked-rotor current, as the starter states
};
/// Nothing: the nameplate tells too little.
std::optional<Term<Amps>> starting_current(const Desk&, const MotorInput&);

struct StartingInput {
    Term<Amps> starting;                           ///< of the largest motor
    std::optional<Term<Amps>> running_beside = {}; ///< all that runs meanwhile
    Term<Amps> peak; ///< of one source, for as long as the motor starts
    int count = 1;   ///< of sources that form the grid
};
RuleVerdict check_starting(const Desk&, const StartingInput&);

} // namespace ohmfolio
