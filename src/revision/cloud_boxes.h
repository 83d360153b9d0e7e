/// Inside the revision room: where the clouds of a sheet go.
#pragma once

#include <vector>

#include "drawing/geometry.h"

namespace ohmfolio::revision {

struct CloudRoom {
    std::vector<Box> lettering; ///< that no cloud may run through
    Box border;                 ///< that clouds keep within
    Length bulge;               ///< of the arcs with their pen, beyond their box
    Size near;                  ///< what is closer than this shares a cloud
};

/// Boxes for clouds around all of `changed`: between each and its box grown by the bulge there is
/// no lettering. No cloud spans what did not change; only where that would stand between two do
/// their arcs touch.
std::vector<Box> cloud_boxes(const std::vector<Box>& changed, const CloudRoom& room);

} // namespace ohmfolio::revision
