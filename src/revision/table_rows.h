/// Inside the revision room: where the rows of tables and the paragraphs stand on a sheet.
#pragma once

#include <vector>

#include "drawing/measure.h"
#include "drawing/sheet.h"

namespace ohmfolio::revision {

/// The rows of all tables, from rule to rule and over the whole width of their table; a title that
/// stands between rules is one of them. A row without rules is as large as its lettering.
std::vector<Box> table_rows(const Frame& frame, const TextMeasure& measure);

/// The lettering of each paragraph.
std::vector<Box> paragraphs(const Frame& frame, const TextMeasure& measure);

} // namespace ohmfolio::revision
