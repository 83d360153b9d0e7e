/// Scales of views: what a foot of the building is on paper. Which ones a sheet format draws to
/// stands in its layout file.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/length.h"
#include "base/quantity.h"
#include "drawing/dimension.h"

namespace ohmfolio::sheets {

struct DrawingScale {
    std::string words; ///< "1/2\" = 1'-0\"", "1:20"
    double ratio = 0;  ///< length on paper by length of the building
    bool metric = false;

    Length on_paper(Feet length) const;
};

/// Inches to the foot, "3/4\" = 1'-0\"", an inch to many feet, "1\" = 20'-0\"", or a ratio, "1:20";
/// nothing when it is none of these.
std::optional<DrawingScale> parse_scale(std::string_view words);

/// A length of the building as the scale's drawings letter it: "2'-6\"", or "762" millimetres.
std::string dimension_figure(Feet length, const DrawingScale& scale,
                             Nearest nearest = Nearest::sixteenth);

} // namespace ohmfolio::sheets
