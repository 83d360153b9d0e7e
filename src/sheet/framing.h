/// A page inside border and title block: a finished sheet with its number.
#pragma once

#include <string>
#include <vector>

#include "base/finding.h"
#include "drawing/measure.h"
#include "drawing/sheet.h"
#include "model/system.h"
#include "sheet/facts.h"
#include "sheet/layout.h"
#include "sheet/logo.h"
#include "sheet/pages.h"

namespace ohmfolio::sheets {

/// What all sheets of a set have in common.
struct Framing {
    const SheetLayout& layout;
    const Facts& facts; ///< for the title block
    const TextMeasure& measure;
    bool draft = false;
    const Logo* logo = nullptr; ///< of the house, for the title block; none: nullptr
};

/// Sheet 3 of 7.
struct SheetCount {
    int position = 1, count = 1;
};

/// "E-604": discipline, type digit and place in the series.
std::string sheet_number(const SheetEntry& entry, int sequence);
Sheet framed(const Frame& page, const IndexEntry& entry, SheetCount of,
             const std::vector<Revision>& revisions, const Framing& framing, Findings& findings);

} // namespace ohmfolio::sheets
