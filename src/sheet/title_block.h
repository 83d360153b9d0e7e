/// The title block: a strip at the right edge or along the foot of the border, in columns of cells
/// from the layout file, the sheet number in the lower right corner.
#pragma once

#include <string>
#include <vector>

#include "base/finding.h"
#include "drawing/frame.h"
#include "drawing/measure.h"
#include "model/system.h"
#include "sheet/facts.h"
#include "sheet/layout.h"
#include "sheet/logo.h"

namespace ohmfolio::sheets {

struct TitleBlockText {
    const Facts& facts;
    const std::vector<Revision>& revisions;
    std::string sheet_title, sheet_number;
    int position = 1, count = 1; ///< sheet 3 of 7
    bool draft = false;
    const Logo* logo = nullptr; ///< of the house
};

/// Draws the strip into `frame`, which is the whole sheet. A column of cells that needs more than
/// the height of the strip is a finding.
void draw_title_block(Frame& frame, const Box& strip, const TitleBlockText& text,
                      const SheetLayout& layout, const TextMeasure& measure, Findings& findings);

} // namespace ohmfolio::sheets
