/// One line of a calculation as the checker reads it: what, how, result, paragraph, verdict.
#pragma once

#include <set>
#include <string>
#include <string_view>

#include "code/derivation.h"
#include "sheet/pages.h"

namespace ohmfolio::sheets {

/// Ids of steps that belong to rules which were tried and not chosen: what they miss is no failure.
using TriedSteps = std::set<std::string, std::less<>>;
TriedSteps steps_not_chosen(const Study& study);

/// Title with the paragraph at the right; below it formula, figures and result in bold, with the
/// verdict at the right; then where a value was read and what decided a choice. A value that is
/// only stated or read from a table takes a single line where that has room.
Frame calculation_entry(const Derivation& line, const TriedSteps& tried, Length width,
                        const Job& job);

/// "PASS", "FAIL" or nothing; "NOT MET" for a rule that was tried and not chosen.
std::string_view verdict_word(const Derivation& line, const TriedSteps& tried);
/// The citation as printed; a star marks a paragraph that only one source or memory speaks for.
std::string printed(const Citation& citation);

} // namespace ohmfolio::sheets
