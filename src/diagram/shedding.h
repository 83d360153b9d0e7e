/// Which circuits a load controller may cut off.
#pragma once

#include <string>
#include <vector>

#include "model/system.h"

namespace ohmfolio::diagram {

/// By circuit: the load controller whose contactor stands behind the circuit's breaker; empty where
/// there is none. The circuit of a branch is followed through the junction box that it passes.
std::vector<std::string> controllers_by_circuit(const System& system);

} // namespace ohmfolio::diagram
