/// Parts of the step `place`: heights first, then columns.
#pragma once

#include <vector>

#include "diagram/plan.h"

namespace ohmfolio::diagram {

/// How far something reaches up and down from a line.
struct Reach {
    Length up, down;
};

/// Gives every block and tap its height, rows at least `row_gap` apart. Returns how far the whole
/// reaches from zero.
Reach stack_rows(Plan& page, Length row_gap);
/// Centres of the columns, the rightmost first, with room left over shared among the gaps; and by
/// how much they are wider than the page. Heights must be known: only blocks that stand beside one
/// another keep each other apart.
std::vector<Length> column_centres(const Plan& page, Length& excess);

} // namespace ohmfolio::diagram
