/// Equipment that a table names by its id.
#pragma once

#include <optional>

#include "input/form.h"
#include "model/system.h"

namespace ohmfolio {

/// Its index; -1, with a finding, when there is none.
int named_equipment(const System& system, const std::string& id, Span span, Findings& findings);

} // namespace ohmfolio
