/// How the whole drawing is divided into pieces, one a page.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "diagram/plan.h"

namespace ohmfolio::diagram {

/// A connected part of the whole. Blocks are those of the whole.
struct Piece {
    int root = -1;          ///< nearest to the utility
    std::set<int> cut = {}; ///< blocks that go on, with all below them, on a page of their own
    bool continued = false; ///< the bus of the root began on another page
    /// Of a block whose bus is divided: the children that this piece shows, first and past the
    /// last.
    struct Range {
        std::size_t first = 0, last = 0;
    };
    std::map<int, Range> shown = {};

    Range children_of(const Plan& whole, int block) const;
};

/// The page of some pieces, one under another: their blocks, and match marks for what stands
/// elsewhere.
Plan page_of(const Plan& whole, const std::vector<Piece>& pieces, const Spacing& spacing);

struct Fitted {
    Plan page;
    Excess excess;
};
/// The page measured, ranked and placed at the first spacing at which it fits; else at the last.
Fitted fitted(const Plan& whole, const std::vector<Piece>& pieces);

} // namespace ohmfolio::diagram
