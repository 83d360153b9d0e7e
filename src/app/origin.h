/// Where what a mark shows comes from: the derivation, and the place in the description.
#pragma once

#include <string>
#include <string_view>

#include "base/source.h"
#include "model/system.h"
#include "study/study.h"

namespace ohmfolio {

struct Origin {
    Span place;             ///< unknown where nothing was written about it
    std::string derivation; ///< as `explain` tells it; empty where nothing was derived
};

/// `shows` as marks have it: "circuit:C3", "equipment:MSP".
Origin origin_of(const System& system, const Study& study, std::string_view shows);

} // namespace ohmfolio
