/// Microgrids and operation as an island: the interconnect device and what the sources must carry
/// (2017: 705.150 to 705.170 and 710.15; since 2020: 705.50 to 705.82).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "code/desk.h"
#include "code/verdict.h"

namespace ohmfolio {

/// The microgrid interconnect device between the microgrid and its primary source.
struct MicrogridInput {
    std::string connected_by = {};   ///< rule of the connection, "load side, 120 % of the busbar"
    bool device_listed = false;      ///< not stated
    bool at_each_connection = false; ///< between the microgrid and every primary source; not stated
    bool opens_all = false;         ///< all ungrounded conductors of the primary source; not stated
    bool controller_listed = false; ///< or part of a listed system; not stated
    /// Checks that both sides are in step before it closes, or holds the sources off until it has
    /// closed. Not stated.
    bool returns_in_step = false;
};
/// Faults by "microgrid.connection", "microgrid.device", "microgrid.controller",
/// "microgrid.reconnection".
RuleVerdicts check_microgrid(const Desk&, const MicrogridInput&);

/// A source of the island, by what it can give without the utility.
struct IslandSource {
    std::string name;
    Term<Watts> output;    ///< continuous, as apparent power
    bool variable = false; ///< of the sun or wind: not counted for loads in general
};
/// A load of the island. Lighting in general is no single load.
struct IslandLoad {
    std::string name;
    Term<Watts> power;
    bool shed = false; ///< held off by load control while islanded
};
struct IslandCapacity {
    Term<Watts> sources; ///< of those that count
    std::string largest; ///< name of the load; empty: no loads
    bool passes = true;
};
/// Sources together carry the largest single load that stays connected ("island.capacity").
/// Storage and engines count; variable sources do only with `count_variable`.
IslandCapacity check_island_capacity(const Desk&, const std::vector<IslandSource>&,
                                     const std::vector<IslandLoad>&, bool count_variable = false);

/// A single 120 V supply of a 120/240 V panel. Fault by "island.single_120".
struct Single120Input {
    Term<Amps> sources;     ///< sum of the ratings of the sources
    Term<Amps> neutral_bus; ///< rating of the neutral bus
    bool no_240_volt_outlets = false, no_multiwire_circuits = false, marked = false; ///< not stated
};
RuleVerdicts check_single_120_volt_supply(const Desk&, const Single120Input&);

} // namespace ohmfolio
