/// What a description says beside its equipment: project, site, limits, revisions, waivers.
#pragma once

#include "base/finding.h"
#include "input/form.h"
#include "model/system.h"

namespace ohmfolio {

void read_job(const Form& description, System& system, Findings& findings);

} // namespace ohmfolio
