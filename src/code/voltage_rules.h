/// Voltage that conductors lose or gain (Chapter 9 Tables 8 and 9).
#pragma once

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
};
struct VoltageChangeResult {
    Volts volts{};
    double fraction = 0;
};
VoltageChangeResult voltage_change(const Desk&, const VoltageChangeInput&);

} // namespace ohmfolio
