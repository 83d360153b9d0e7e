/// The logo of the house in the title block: a drawing in the manner of symbols/, or a picture.
#pragma once

#include <memory>
#include <string>

#include "base/finding.h"
#include "drawing/frame.h"
#include "drawing/measure.h"
#include "model/house.h"
#include "symbol/symbol.h"

namespace ohmfolio::sheets {

/// One of both, or neither where the house has no logo.
struct Logo {
    std::optional<Symbol> drawing;
    std::shared_ptr<const std::string> png;
    Size size; ///< gives the proportions

    bool empty() const { return !drawing && !png; }
};

/// Reads the logo of `house`. A drawing may hold outlines only, since letters keep their size while
/// a logo does not; what is at fault becomes a finding, and the logo stays away.
Logo read_logo(const House& house, const SourceFiles& sources, Findings& findings);

/// The logo as large as `room` allows, in its proportions, its upper left corner at the origin.
Frame logo_frame(const Logo& logo, Size room);

} // namespace ohmfolio::sheets
