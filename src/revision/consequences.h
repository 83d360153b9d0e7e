/// What followed from the changes, as the letter tells it.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "revision/comparison.h"

namespace ohmfolio::revision {

/// A line for each rule and for each row of the schedules that is not as it was, whichever comment
/// asked for the change; rows that changed alike share one: "C5, C6: fill % 21.9 to 32.1". Without
/// the material list, which is no matter of a plan check.
std::vector<std::string> consequences(const Comparison& comparison);

/// How many rows of the material list are not as they were.
std::size_t material_rows(const Comparison& comparison);

} // namespace ohmfolio::revision
