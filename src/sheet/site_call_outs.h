/// What the margins of the site plan say: equipment by its wall or by itself, arrays, raceways.
#pragma once

#include <map>
#include <vector>

#include "sheet/margin_notes.h"
#include "sheet/plan_view.h"

namespace ohmfolio::sheets {

/// Where the modules of a plane are on paper. For look-up only: pointers have no order.
using ArrayBoxes = std::map<const RoofPlane*, Box>;

/// Half the side of the square that marks equipment; smaller where two would meet.
inline constexpr Length usual_mark_half = inches(0.03);
Length mark_half(const PlanView& view, const Job& job);

std::vector<MarginNote> call_outs(const PlanView& view, const ArrayBoxes& arrays, const Job& job);

} // namespace ohmfolio::sheets
