/// Lines of a calculation as the checker reads it: what, how, result, paragraph, verdict.
#pragma once

#include <vector>

#include "code/derivation.h"
#include "sheet/calculation_words.h"
#include "sheet/pages.h"

namespace ohmfolio::sheets {

/// A value that is stated or read from a table: symbol and value, then what it is, the paragraph at
/// the right. A value that is worked out: its title with paragraph and verdict, each in a column of
/// its own at the right; below it formula, figures and result in bold. The relation signs of all
/// entries stand one below the other. What rests on the nameplate has no paragraph.
std::vector<Frame> calculation_entries(const std::vector<Derivation>& lines,
                                       const TriedSteps& tried, Length width, const Job& job);

} // namespace ohmfolio::sheets
