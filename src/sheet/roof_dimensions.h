/// Dimensions of a roof plane that lies square on the sheet: along its eave and up its slope.
#pragma once

#include "sheet/roof_drawing.h"

namespace ohmfolio::sheets {

/// Outside the roof. Nothing for a plane that lies slanting on the sheet, or that has neither
/// modules nor a pathway from the street; `pathway` may be nullptr.
void dimension_plane(Frame& frame, const RoofPlane& plane, const RoofPathway* pathway,
                     const PlanView& view, const Job& job);

} // namespace ohmfolio::sheets
