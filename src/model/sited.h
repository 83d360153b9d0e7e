/// Where a piece of equipment stands on the site plan.
#pragma once

#include <algorithm>

#include "model/site_plan.h"

namespace ohmfolio {

/// nullptr when the plan gives it no place.
inline const SitedEquipment* sited(const SitePlan& plan, int equipment) {
    const auto found = std::ranges::find(plan.equipment, equipment, &SitedEquipment::equipment);
    return found == plan.equipment.end() ? nullptr : &*found;
}

} // namespace ohmfolio
