/// The rules for busbars read backwards: how much source a busbar takes, how large a busbar or how
/// small a main would do. Each answer is derived rule by rule, for the rules that speak of the
/// connection (705.12(B)): sum of main and sources, 120 % at opposite ends or center-fed, sum of
/// breakers.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "code/bus_rules.h"

namespace ohmfolio {

/// What one rule allows or asks for.
struct BusLimit {
    std::string rule, rule_id; ///< as in BusOption
    Citation cite;
    bool applies = true;
    std::string reason = {}; ///< why it does not apply, or why there is no value
    /// The value asked for; nothing where the rule leaves no room.
    std::optional<Term<Amps>> value = {};
    std::vector<std::string> steps = {};
};

/// Most that further sources may add, as 125 % of their output current. `sources_125` and
/// `breakers` hold what is there already; sum of breakers answers with the largest standard device
/// that still fits, since that rule counts devices.
std::vector<BusLimit> largest_source_on_bus(const Desk&, const BusInput&);
/// The continuous output current that belongs to it: the limit over 1.25.
Term<Amps> continuous_output(const Desk&, const Term<Amps>& limit_125);

/// Smallest rating of the busbar; the one in the input is set aside.
std::vector<BusLimit> smallest_bus(const Desk&, const BusInput&);

/// Largest standard main, not above the busbar (408.36); the one in the input is set aside.
/// `least`: what the load of the panel asks for; a smaller answer is none.
std::vector<BusLimit> largest_main(const Desk&, const BusInput&,
                                   const std::optional<Term<Amps>>& least = {});

/// The answer that allows most, or asks for least; nothing when no rule has one.
const BusLimit* largest(const std::vector<BusLimit>& limits);
const BusLimit* smallest(const std::vector<BusLimit>& limits);

} // namespace ohmfolio
