/// The marks of a revision: the cloud around what was changed, and the delta, a triangle with the
/// number of the revision in it. US National CAD Standard, drafting conventions for revisions.
#pragma once

#include <string>

#include "drawing/frame.h"
#include "drawing/measure.h"

namespace ohmfolio {

struct CloudStyle {
    /// Of an arc, about: a small cloud has small arcs, so that it is not taken for a ring.
    Length shortest_chord = points(6), longest_chord = points(11);
    Length bulge = points(2.2); ///< how far arcs reach beyond the box
    Stroke stroke = {medium_pen};
};

/// Arcs around the box, each bulging outward.
Path cloud(const Box& box, const CloudStyle& style);

/// The triangle with `number` in it; its size is that of the frame.
Frame delta(const std::string& number, const TextStyle& style, const std::string& shows,
            const TextMeasure& measure);
Size delta_size(const std::string& number, const TextStyle& style, const TextMeasure& measure);

} // namespace ohmfolio
