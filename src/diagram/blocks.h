/// Parts of the first step, `nest`: filling a block and measuring it.
#pragma once

#include "diagram/plan.h"

namespace ohmfolio::diagram {

/// Adds the block's taps, child by child in the order of the text, then supply, then loads.
void add_taps(const Plan& plan, Block& block);
/// Breaks the lettering into lines and measures zones, body and width.
void measure_block(const Plan& plan, Block& block);

} // namespace ohmfolio::diagram
