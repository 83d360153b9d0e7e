/// Conductors whose device stands at their far end: feeder taps (240.21(B)) and the secondary
/// conductors of transformers (240.21(C)). Where a rule permits them, `least` is the ampacity that
/// it asks for: no next standard rating above the ampacity (240.4(B)) is permitted here.
///
/// Left out, since only industry uses them: taps of high bays, 240.21(B)(4); secondaries of
/// industrial installations, (C)(3). Taps of a feeder that sources feed as well: 705.12.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "code/desk.h"

namespace ohmfolio {

/// How and where the conductors end, as described.
struct TapEnd {
    std::optional<Term<Amps>> load = {};   ///< calculated load that they supply
    std::optional<Term<Amps>> device = {}; ///< rating of the device at the end
    /// Rating of what they supply where that holds several devices, and none at its terminals.
    std::optional<Term<Amps>> equipment = {};
    bool single_device = true; ///< one breaker or one set of fuses takes all of the conductors
    bool protected_from_damage = true; ///< in a raceway, or otherwise
    bool leaves_enclosure = true;      ///< of the connection
    bool outdoors = false;             ///< but for the point where it ends
    /// Outdoor ones: the device is part of a disconnect, or beside it, that is readily accessible
    /// outside or nearest the point of entrance.
    bool disconnect_at_entrance = false;
};

struct TapInput {
    Term<Amps> feeder;   ///< rating of the device that protects the feeder
    Term<Amps> ampacity; ///< of the tap conductors
    Feet length{};
    TapEnd end = {};
};

struct SecondaryInput {
    Term<Amps> primary_device;
    Volts primary{}, secondary{};
    /// Two-wire secondary of a single-phase transformer, or three-wire delta of a delta.
    bool simple_winding = false;
    bool primary_protected = true; ///< the primary device is within 450.3(B)
    Term<Amps> ampacity;           ///< of the secondary conductors
    Feet length{};
    TapEnd end = {};
};

/// One rule, tried.
struct TapOption {
    std::string rule;    ///< "Tap not over 10 ft"
    std::string rule_id; ///< "tap.10_ft"
    bool applies = true;
    bool passes = false;
    std::string reason; ///< the comparison, or why it does not apply
    Amps least{};       ///< ampacity that it asks for
    std::vector<std::string> steps = {};
};

struct TapResult {
    bool passes = false;
    std::string rule_id; ///< of the rule that passes, or else that asks for the least ampacity
    Amps least{};        ///< of that rule; 0: no rule applies
    std::vector<TapOption> options;
};

/// Every rule in the order of the code; the first that passes decides. Without an ampacity (a
/// search for the size) give `TapInput::ampacity` as 0 and take `least`.
TapResult check_tap(const Desk&, const TapInput&);
TapResult check_secondary(const Desk&, const SecondaryInput&);

/// A tap that supplies a transformer, primary and secondary together not over 25 ft (240.21(B)(3)).
struct TransformerTapInput {
    Term<Amps> feeder;
    Term<Amps> primary_ampacity, secondary_ampacity;
    Volts primary{}, secondary{};
    Feet length{}; ///< of one primary and one secondary conductor together
    TapEnd end = {};
};
TapResult check_transformer_tap(const Desk&, const TransformerTapInput&);

} // namespace ohmfolio
