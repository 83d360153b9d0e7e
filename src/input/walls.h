/// Walls and what hangs on them: ids resolved, edges worked out, overlaps refused.
#pragma once

#include "input/form.h"
#include "model/system.h"

namespace ohmfolio {

/// The equipment of the system must be known.
void read_walls(const Form& description, System& system, Findings& findings);

} // namespace ohmfolio
