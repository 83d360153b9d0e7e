/// Sources on a feeder, and taps of such a feeder (705.12 and 240.21(B)).
///
/// All currents of sources are given as 125 % of the output, as the rules of 705.12 take them.
#pragma once

#include <optional>
#include <vector>

#include "code/desk.h"
#include "code/verdict.h"

namespace ohmfolio {

/// A feeder that sources are connected to. Every portion is asked for: the whole carries the
/// sources; where they come in before its end, the portion beyond is fed by two, and either carries
/// both or is protected by a device of its own.
struct FeederInput {
    Term<Amps> ampacity;    ///< of the feeder, and of its portion beyond the connection
    Term<Amps> primary;     ///< device at the end of the primary source
    Term<Amps> sources_125; ///< 125 % of the output currents
    bool opposite_end =
        false; ///< the connection is at the end away from `primary`; false: not stated
    std::optional<Term<Amps>> device_beyond = {}; ///< on the load side of the connection
};
/// Faults by "feeder.source" and "feeder.beyond".
RuleVerdicts check_feeder(const Desk&, const FeederInput&);
/// The smallest ampacity that passes for the input as it stands, its own `ampacity` set aside.
Term<Amps> smallest_feeder_ampacity(const Desk&, const FeederInput&);

/// Conductors tapped from a feeder that sources feed as well.
struct FeederTapInput {
    Term<Amps> ampacity;
    Feet length{};
    Term<Amps> feeder_device;
    Term<Amps> sources_125;                      ///< what the older editions add
    std::vector<Term<Amps>> source_devices = {}; ///< what the 2023 edition adds
    std::optional<Term<Amps>> end_device = {};   ///< device or rating of equipment at its end
    std::optional<Term<Amps>> load = {};         ///< calculated load, where there is one
    bool leaves_enclosure = true;                ///< of the place where it is tapped
    bool high_bay = false; ///< manufacturing building with walls over 35 ft (240.21(B)(4))
};
/// The conditions of 240.21(B) on the way that a tap runs, and on its size in a high bay, are the
/// drawing's. Faults by "tap.short", "tap.long", "tap.high_bay", "feeder.tap" or
/// "feeder.tap.devices".
RuleVerdicts check_feeder_tap(const Desk&, const FeederTapInput&);

} // namespace ohmfolio
