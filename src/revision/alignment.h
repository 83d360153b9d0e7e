/// Inside the revision room: which entry of a newer list is which of an older one.
#pragma once

#include <vector>

namespace ohmfolio::revision {

/// For each entry of `newer` the place of its partner in `older`, or -1. Entries are partners only
/// when they are equal. Order counts: what stands in the same order in both lists is paired first,
/// then what has moved: at once where `may_move` says so, else only as one of several neighbours
/// that have moved together, since a value alone might be any other of the same figure.
std::vector<int> partners(const std::vector<int>& older, const std::vector<int>& newer,
                          const std::vector<bool>& may_move);

} // namespace ohmfolio::revision
