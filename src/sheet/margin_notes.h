/// Call-outs in the margins of a plan: blocks of lettering left and right of the drawing, each with
/// a leader to what it names. Blocks stand in the order of their anchors, so that no two leaders
/// cross. Neighbors under one heading stand together, each with its leader.
#pragma once

#include <string>
#include <vector>

#include "drawing/frame.h"
#include "drawing/measure.h"

namespace ohmfolio::sheets {

struct NoteLine {
    std::string text, shows;
    bool bold = false;
};

struct MarginNote {
    Point anchor; ///< what the leader points to
    std::vector<NoteLine> lines;
    NoteLine heading = {}; ///< over the first of those that have it; no text: none
    Length mark = {}; ///< half the side of a mark at the anchor; zero: the leader ends in a dot
};

struct MarginStyle {
    TextStyle body, bold;
    Length gap;    ///< between drawing and lettering: room for leaders
    Length apart;  ///< between blocks
    Length height; ///< that a column may take; more goes to the other side
};

/// `drawing` with the notes at its sides. The result is wider, and taller where the notes need it;
/// what was at the origin of the drawing is at `origin` of the result.
struct Annotated {
    Frame frame;
    Point origin;
};
Annotated with_margin_notes(const Frame& drawing, const std::vector<MarginNote>& notes,
                            const MarginStyle& style, const TextMeasure& measure);

} // namespace ohmfolio::sheets
