/// One line of a calculation as the checker reads it: what, how, result, paragraph, verdict.
#pragma once

#include <string>

#include "code/derivation.h"
#include "sheet/calculation_words.h"
#include "sheet/pages.h"

namespace ohmfolio::sheets {

/// A value that is stated or read from a table: symbol and value, then what it is, the paragraph at
/// the right. A value that is worked out: its title with the paragraph and the verdict at the
/// right; below it, unless one line holds all, formula, figures and result in bold. What rests on
/// the nameplate has no paragraph.
Frame calculation_entry(const Derivation& line, const TriedSteps& tried, Length width,
                        const Job& job);

} // namespace ohmfolio::sheets
