/// Where equipment stands on a drawing, read from its marks.
#pragma once

#include <map>
#include <string>

#include "drawing/frame.h"

namespace ohmfolio::drawn {

/// By id, the box around symbol and enclosure of each piece of equipment. What is drawn once for
/// several stands under the id that it shows.
std::map<std::string, Box> bodies_of(const Frame& frame);

} // namespace ohmfolio::drawn
