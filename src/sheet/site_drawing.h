/// The parcel seen from above: property lines, streets, buildings with their roofs and modules,
/// equipment and raceways.
#pragma once

#include "sheet/plan_view.h"

namespace ohmfolio::sheets {

/// With dimensions at its foot and its right, call-outs in its margins no taller than `height`.
Frame draw_site(const DrawingScale& scale, Length height, const Job& job);

/// What the line types and marks of the plan stand for; only what occurs.
Frame site_legend(const Job& job);

} // namespace ohmfolio::sheets
