/// The rows of the revision block in the title block.
#pragma once

#include <vector>

#include "drawing/frame.h"
#include "drawing/measure.h"
#include "model/revision.h"
#include "sheet/layout.h"

namespace ohmfolio::sheets {

/// `rows` under their heading, each number in its delta, and empty rows up to `room` of them. Where
/// the strip is narrow the description stands below the date. The marks tell of the issue.
Frame revision_block(const std::vector<Revision>& rows, int room, Length width,
                     const SheetLayout& layout, const TextMeasure& measure);

} // namespace ohmfolio::sheets
