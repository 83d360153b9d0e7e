/// Where the house style meets the data files of a format: one function, applied after the layout
/// (the office's own file or the shipped one) was read.
#pragma once

#include "base/finding.h"
#include "drawing/measure.h"
#include "model/house.h"
#include "sheet/layout.h"
#include "sheet/texts.h"

namespace ohmfolio::sheets {

/// Lettering, pens, numbering and notes of `house` over those of the format. Names that nobody
/// knows, lettering that cities refuse and pens that a copier loses are findings at their place.
void apply_house(const House& house, const TextMeasure& measure, SheetLayout& layout,
                 SheetTexts& texts, Findings& findings);

} // namespace ohmfolio::sheets
