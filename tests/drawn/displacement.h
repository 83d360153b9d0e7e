/// Does a reader find his way again after a change? How far what is in both drawings has moved.
#pragma once

#include <string>

#include "drawn/drawn_job.h"

namespace ohmfolio::drawn {

struct Displacement {
    int symbols = 0;     ///< pieces of equipment in both drawings
    int other_page = 0;  ///< of these, on a page of another number
    double median = 0;   ///< as a part of the sheet's width, of all symbols; 1 for another page
    double farthest = 0; ///< likewise, of those on the same page
};

/// On the sheet, as a reader sees it: a diagram that moves as a whole has moved.
Displacement displacement(const DrawnJob& before, const DrawnJob& after);

} // namespace ohmfolio::drawn
