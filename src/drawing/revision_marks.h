/// The marks of a revision: the cloud around what was changed, and the delta, a triangle with the
/// number of the revision in it. US National CAD Standard, drafting conventions for revisions.
#pragma once

#include <string>

#include "drawing/frame.h"
#include "drawing/measure.h"

namespace ohmfolio {

struct CloudStyle {
    Length chord = points(13);  ///< of an arc, about
    Length bulge = points(3.2); ///< how far arcs reach beyond the box
    Stroke stroke = {medium_pen};
};

/// Arcs around the box, each bulging outward.
Path cloud(const Box& box, const CloudStyle& style);

/// The triangle with `number` in it; its size is that of the frame.
Frame delta(const std::string& number, const TextStyle& style, const std::string& shows,
            const TextMeasure& measure);
Size delta_size(const std::string& number, const TextStyle& style, const TextMeasure& measure);

} // namespace ohmfolio
