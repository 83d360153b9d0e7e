/// Lettering set into frames: lines, paragraphs, headed blocks. Heights run from the top of the
/// first capital to the last baseline; what is put below leaves room for commas and brackets.
#pragma once

#include <string>
#include <string_view>

#include "drawing/frame.h"
#include "drawing/measure.h"
#include "sheet/layout.h"

namespace ohmfolio::sheets {

struct Look {
    TextStyle style;
    Align align = Align::left;
    Color color = black;
    std::string shows = {};
};

/// Height of `lines` lines of lettering.
Length lettering_height(int lines, const TextStyle& style, const TextMeasure& measure);
/// One line whose capitals have their top at `at`, which is the left end, centre or right end.
void write_line(Frame& frame, Point at, std::string_view text, const Look& look,
                const TextMeasure& measure);
/// Wraps `text` into `width` from `at`; returns the height taken.
Length write_paragraph(Frame& frame, Point at, Length width, std::string_view text,
                       const Look& look, const TextMeasure& measure);
/// The narrowest width that breaks `text` into no more lines than `width` does: with it lines are
/// of nearly one length, and no word stands alone in the last.
Length balanced_width(std::string_view text, const TextStyle& style, Length width,
                      const TextMeasure& measure);
/// The bold heading of a block with the line under it; the frame is as wide as `width`.
Frame block_heading(std::string_view title, Length width, const SheetLayout& layout,
                    const TextMeasure& measure);
/// Makes `text` in `frame` lead to `target`; does nothing for an empty target.
void add_link(Frame& frame, const Box& area, const std::string& target);

} // namespace ohmfolio::sheets
