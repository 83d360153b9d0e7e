/// The border of a sheet with its zones, and the areas that it leaves.
#pragma once

#include <string>

#include "drawing/frame.h"
#include "drawing/measure.h"
#include "drawing/sheet.h"
#include "sheet/layout.h"

namespace ohmfolio::sheets {

struct SheetAreas {
    Box outer;   ///< outer line; zone marks stand between it and the border
    Box border;  ///< inner, heavy line
    Box title;   ///< title block, at the right edge of the border or along its foot
    Box band;    ///< across the top of a draft; empty otherwise
    Box drawing; ///< what sheets fill
};

SheetAreas areas_of(const SheetLayout& layout, bool draft, const TextMeasure& measure);
Zones zones_of(const SheetLayout& layout);
/// "B3": the row's letter and the column's number, counted from the corner that the layout names.
std::string zone_at(const SheetLayout& layout, Point point);
void draw_border(Frame& frame, const SheetLayout& layout, const SheetAreas& areas,
                 const TextMeasure& measure);
void draw_draft_band(Frame& frame, const SheetLayout& layout, const SheetAreas& areas,
                     const TextMeasure& measure);

} // namespace ohmfolio::sheets
