/// Finds room in a drawing for a block that may stand anywhere, such as a table or a list of notes.
#pragma once

#include <optional>
#include <vector>

#include "drawing/frame.h"
#include "drawing/measure.h"

namespace ohmfolio {

/// Boxes that the marks take up. A square wire is taken leg by leg: its bounding box is mostly
/// free.
std::vector<Box> taken_boxes(const Frame& frame, const TextMeasure& measure);

/// Where the upper left corner of a block of this size may stand within the frame, `clear` away
/// from every mark: of all such places the one nearest to the upper right corner. Nothing when
/// there is no room. The inside of a closed outline counts as taken.
std::optional<Point> free_room(const Frame& frame, Size block, Length clear,
                               const TextMeasure& measure);

} // namespace ohmfolio
