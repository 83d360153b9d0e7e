/// Numbers that the trade uses and no code section gives. Each is printed as "common practice".
#pragma once

#include "base/quantity.h"

namespace ohmfolio::practice {

/// Cells of modules mounted parallel to a roof with a hand's breadth of air below run about this
/// much hotter than the air in full sun.
inline constexpr CelsiusDelta roof_mount_rise{35};

} // namespace ohmfolio::practice
