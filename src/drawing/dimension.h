/// Dimensions as a drafter letters them: extension lines that start with a gap from what they
/// measure and run a little past the dimension line, ticks where both meet, the figure above the
/// line and centred on its stretch. All figures read from the bottom or from the right edge of the
/// sheet. After ASME Y14.5 (gap, overshoot, spacing) and the US National CAD Standard (ticks, feet
/// and inches).
///
/// Several stretches on one line are a chain. A figure too wide for its stretch stands on the side
/// of the line that is away from the object, with a leader to its stretch; neighbors move apart.
#pragma once

#include <string>
#include <vector>

#include "base/quantity.h"
#include "drawing/frame.h"
#include "drawing/measure.h"

namespace ohmfolio {

struct DimensionStyle {
    TextStyle lettering;
    Stroke line{fine_pen};
    Stroke tick{medium_pen};
    Length gap = inches(1.0 / 16);       ///< between object and extension line
    Length overshoot = inches(1.0 / 12); ///< of the extension line past the dimension line
    Length tick_size = inches(1.0 / 12); ///< of the slash, in each direction
    Length lettering_gap = points(2.5);  ///< between figure and line
};

/// Where an extension line meets the object: `along` the dimension line, and how far `across` the
/// object reaches there.
struct DimensionStop {
    Length along;
    Length object;
};

struct DimensionString {
    bool vertical = false;
    Length line;                      ///< where the dimension line runs: its y; its x if vertical
    std::vector<DimensionStop> stops; ///< at least two, `along` rising
    std::vector<std::string> figures; ///< one a stretch, between stops; empty: left undimensioned
    std::string shows = {};
};

/// Draws the string and returns how far across it reaches on the side away from the object, where
/// the next string may begin.
Length draw_dimensions(Frame& frame, const DimensionString& string, const DimensionStyle& style,
                       const TextMeasure& measure);

/// Distance from the object to the first dimension line, and from one line to the next: room for
/// the figures of a string.
Length dimension_pitch(const DimensionStyle& style, const TextMeasure& measure);

/// "2'-6 1/2\"", "6\"": to the nearest sixteenth or to the whole inch, less than a foot in inches
/// alone.
enum class Nearest { sixteenth, inch };
std::string feet_and_inches(Feet length, Nearest nearest = Nearest::sixteenth);
/// "762": whole millimetres without their unit, as metric drawings have it.
std::string whole_millimetres(Feet length);

} // namespace ohmfolio
