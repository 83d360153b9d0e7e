/// Storage on the direct-current side of an inverter, as the steps about circuits see it. Private
/// to the room.
#pragma once

#include "study/work.h"

namespace ohmfolio::workings {

/// What flows from the units toward the inverter (706.30).
void derive_battery_current(Work&, int circuit);
/// With the device at the units, or in a fused disconnect, that protects the circuit (706.31).
Work::Load battery_load(Work&, int circuit);
/// Lowest voltage of the units at the source end of a direct-current storage circuit.
Term<Volts> lowest_battery_voltage(Work&, const Circuit&);

} // namespace ohmfolio::workings
