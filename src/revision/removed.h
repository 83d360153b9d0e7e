/// Inside the revision room: what was taken out of a view to scale.
#pragma once

#include <vector>

#include "drawing/sheet.h"
#include "revision/pieces.h"

namespace ohmfolio::revision {

/// One of both issues: all of its pieces, and those that the other does not have.
struct IssuePieces {
    const Packet& packet;
    const std::vector<Piece>& all;
    const std::vector<Piece>& unpaired;
};

/// What stood in views of the older issue and is gone, at its place in the same view of the newer
/// one. Only where most of the view is as it was, so that the place is the same; what was moved
/// within the view is not removed.
std::vector<Piece> removed_from_views(const IssuePieces& older, const IssuePieces& newer);

} // namespace ohmfolio::revision
