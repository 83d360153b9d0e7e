/// One wall seen from the front at one scale: grade or floor, enclosures, what else is on the wall,
/// dimensions, the working space that is to be kept free, and how high handles may be.
#pragma once

#include <string>
#include <vector>

#include "sheet/pages.h"

namespace ohmfolio::sheets {

struct WallView {
    Frame frame;
    std::vector<std::string> unplaced; ///< lettering that found no place, nor a number for it
};

/// `wall` is an index into System::walls.
WallView draw_wall(const Job& job, std::size_t wall, const DrawingScale& scale);

} // namespace ohmfolio::sheets
