/// Records that name other records: the breakers of a panel's label, the trunk cables of a
/// microinverter.
#pragma once

#include "base/finding.h"
#include "model/catalogue.h"

namespace ohmfolio {

/// Each named record is there, of the right kind, and a trunk cable is as its microinverter says.
void check_named_records(const Catalogue& catalogue, Findings& findings);

} // namespace ohmfolio
