/// What a job says of the material list: how much is ordered beyond what is drawn.
#pragma once

#include <map>
#include <optional>
#include <string>

#include "base/quantity.h"
#include "base/source.h"

namespace ohmfolio {

struct MaterialStatement {
    std::optional<Spanned<double>> waste; ///< fraction added to wire and raceway; none: practice
    /// Length of the grounding electrode conductor; none: measured on site.
    std::optional<Spanned<Feet>> electrode_conductor;
    int spare_drops = 0; ///< of trunk cable, for each branch
    /// More of each item of a kind: "microinverters" to 1. The kinds are those of
    /// [material.spares].
    std::map<std::string, int, std::less<>> spares;
};

} // namespace ohmfolio
