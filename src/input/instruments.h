/// What follows from the equipment beside the power circuits: grounding, current transformers, and
/// communications wiring.
#pragma once

#include <vector>

#include "input/declared.h"
#include "model/system.h"

namespace ohmfolio {

/// Flags of panels (service equipment, backed up) and the place of the grounding electrodes.
void place_service(System& system, const std::vector<Declared>& all);
/// Production and consumption transformers of each gateway, its control wiring, and that of load
/// controllers.
void place_instruments(System& system);

} // namespace ohmfolio
