/// The parcel, its buildings, and where equipment stands: on walls, on roofs, elsewhere.
#pragma once

#include "input/form.h"
#include "model/system.h"

namespace ohmfolio {

/// The equipment and the walls of the system must be known.
void read_site_plan(const Form& description, System& system, Findings& findings);
/// A raceway is no shorter than its way on the plan; runs must be known.
void check_route_lengths(const System& system, Findings& findings);
/// The ways of raceways between equipment whose places are known, those on roofs among them.
void read_routes(const Form& description, System& system, Findings& findings);

} // namespace ohmfolio
