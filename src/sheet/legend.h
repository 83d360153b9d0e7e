/// The legend of the general sheet: the symbols and lines that this set is drawn with, in one grid.
#pragma once

#include <string>
#include <vector>

#include "drawing/frame.h"
#include "drawing/measure.h"
#include "sheet/pages.h"

namespace ohmfolio::sheets {

/// The circle of a keyed note with its number, as beside the equipment; its middle is the frame's.
Frame keyed_circle(std::string_view number, const TextStyle& style, const TextMeasure& measure);

/// The rows of the legend, all of one height: `columns` items in each, read down the first column.
std::vector<Frame> legend_rows(const std::vector<std::string>& symbols, Length width, int columns,
                               const Job& job);

} // namespace ohmfolio::sheets
