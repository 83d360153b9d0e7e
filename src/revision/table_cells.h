/// Inside the revision room: cells of tables that are printed anew and say nothing new.
#pragma once

#include <vector>

#include "revision/pieces.h"
#include "revision/steps.h"

namespace ohmfolio::revision {

/// What is left of `unpaired`, which are pieces of `all` that the other issue has not printed. On
/// calculation sheets a value is held against that of the same step of the same circuit: it may
/// have stood in a column with others that read alike, or beside words that were common to the row.
/// A dash in a row that is new says nothing by itself.
std::vector<Piece> without_what_stayed(std::vector<Piece> unpaired, const std::vector<Piece>& all,
                                       const Steps& steps);

} // namespace ohmfolio::revision
