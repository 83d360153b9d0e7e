/// Inside the revision room: which sheet of the earlier set a sheet is, whatever its number is now.
#pragma once

#include <vector>

#include "drawing/sheet.h"
#include "revision/pieces.h"

namespace ohmfolio::revision {

/// For each sheet of `newer` the place in `older` of the one that it was, or -1: a sheet of the
/// same kind, an appended one of the same document. Of several sheets of one kind those that say
/// the most alike belong together, in the order in which they are bound.
std::vector<int> sheet_partners(const Packet& older, const Packet& newer,
                                const std::vector<Piece>& old_pieces,
                                const std::vector<Piece>& new_pieces);

} // namespace ohmfolio::revision
