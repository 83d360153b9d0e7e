/// A simple plan of the building for placards: roofs, arrays, and where disconnects are. Not to a
/// scale that anybody measures by.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sheet/pages.h"

namespace ohmfolio::sheets {

struct BuildingPlan {
    Frame frame;
    std::vector<Point> marks; ///< where the equipment is, in its order; those without a place not
};

/// The building in `most`, the equipment named beside it in `lettering` where `named` is set.
/// Nothing when no building is described or none of the equipment has a place.
std::optional<BuildingPlan> building_plan(const std::vector<int>& equipment, bool named, Size most,
                                          const TextStyle& lettering, const std::string& shows,
                                          const Job& job);

} // namespace ohmfolio::sheets
