/// What guards the circuits without lying on the way of power: load controllers and power control
/// systems.
#pragma once

#include <vector>

#include "base/finding.h"
#include "input/declared.h"
#include "model/system.h"

namespace ohmfolio {

/// Adds them to the system, whose equipment is known, and checks that what they name exists and
/// that every `shed_by` names a load controller.
void add_guards(const Form& description, Shelf shelf, System& system, Findings& findings);

} // namespace ohmfolio
