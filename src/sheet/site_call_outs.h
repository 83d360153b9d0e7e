/// What the margins of the site plan say: equipment by its wall or by itself, arrays, raceways.
#pragma once

#include <map>
#include <vector>

#include "sheet/margin_notes.h"
#include "sheet/plan_view.h"

namespace ohmfolio::sheets {

/// Where the modules of a plane are on paper. For look-up only: pointers have no order.
using ArrayBoxes = std::map<const RoofPlane*, Box>;

/// What hangs on a wall, as a line along it on the side from which it is seen.
struct WallRow {
    Point from, to;
    Point middle() const { return {(from.x + to.x) / 2, (from.y + to.y) / 2}; }
};
/// Nothing where the wall is not on the plan or nothing hangs on it.
std::optional<WallRow> row_of(const Wall& wall, const PlanView& view, const Job& job);

std::vector<MarginNote> call_outs(const PlanView& view, const ArrayBoxes& arrays, const Job& job);

} // namespace ohmfolio::sheets
