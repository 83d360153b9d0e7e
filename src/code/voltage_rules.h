/// Voltage that conductors lose or gain (Chapter 9 Tables 8 and 9).
#pragma once

#include <string>
#include <vector>

#include "base/wire.h"
#include "code/desk.h"

namespace ohmfolio {

struct VoltageChangeInput {
    Term<Amps> current;
    Feet one_way{};
    WireSize size{};
    Material material = Material::copper;
    RacewayKind raceway = RacewayKind::emt;
    Volts nominal{240};
    int phases = 1;          ///< 1: two-wire factor 2; 3: square root of 3
    bool dc = false;         ///< Table 8 in place of Table 9
    double power_factor = 1; ///< inverters run at unity: the reactance drops out
    int sets = 1;            ///< in parallel, which share the current
};
struct VoltageChangeResult {
    Volts volts{};
    double fraction = 0;
    Term<Volts> term = {}; ///< `volts`, for a sum
};
VoltageChangeResult voltage_change(const Desk&, const VoltageChangeInput&);

/// Several runs one behind the other: each within 3 % of the nominal voltage, together within 5 %.
/// Advice, not a rule: 210.19 and 215.2 say it in informational notes.
struct VoltageSegment {
    std::string title; ///< "Feeder F1"
    Term<Volts> change;
};
struct VoltageTotal {
    Volts volts{};
    double fraction = 0;
    bool each_within = true, total_within = true;
};
VoltageTotal combine_voltage_changes(const Desk&, const std::vector<VoltageSegment>&,
                                     Volts nominal);

} // namespace ohmfolio
