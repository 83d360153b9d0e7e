/// What load controllers may cut off, and the control wiring to their contacts.
#pragma once

#include <string>
#include <vector>

#include "model/system.h"

namespace ohmfolio {

/// By circuit: the load controller whose contactor stands behind the circuit's breaker; empty where
/// there is none. The circuit of a branch is followed through the junction box that it passes.
std::vector<std::string> controllers_by_circuit(const System& system);

/// From interconnect devices to the equipment that holds the contacts, one for each controller
/// there; in the order of the controllers.
std::vector<ControlLink> shedding_links(const System& system);

} // namespace ohmfolio
