/// Inside the render room: line types, one definition for every output.
#pragma once

#include <vector>

#include "drawing/frame.h"

namespace ohmfolio {

/// Lengths of dash, gap, dash, gap ... in points; empty for a solid line. After ISO 128-20, line
/// types 02 (dashed), 10 (dashed dotted), 12 (dashed double-dotted, as phantom lines) and 07
/// (dotted), in multiples of the pen width.
std::vector<double> dash_pattern(const Stroke& stroke);
/// Dots, like pen points, are round; the ends of dashes are square, so that gaps stay open.
bool round_ends(const Stroke& stroke);

} // namespace ohmfolio
