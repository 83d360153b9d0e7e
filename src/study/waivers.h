/// Findings that the drafter accepts with a written reason, and remedies for those that stand.
#pragma once

#include "code/code_book.h"
#include "model/system.h"
#include "study/study.h"

namespace ohmfolio::workings {

/// A finding that a waiver names (rule and subject) becomes advice with the reason; a waiver that
/// names none is a finding itself.
void apply_waivers(const System&, Study&);

/// Tries changes to the description for each violation and keeps those after which the whole study
/// has that violation no more and no new one.
void find_remedies(const System&, const CodeBook&, Study&);

} // namespace ohmfolio::workings
