/// Roof planes and what lies on them: modules set out one by one and held against their branches.
#pragma once

#include "input/form.h"
#include "model/system.h"

namespace ohmfolio {

/// The equipment of the system must be known, and where north is on the plan. Equipment on a roof
/// is added to the site plan.
void read_roofs(const Form& description, System& system, Findings& findings);

} // namespace ohmfolio
