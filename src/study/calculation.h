/// The calculation alone, without waivers and remedies: what a remedy is tried on.
#pragma once

#include "study/study.h"

namespace ohmfolio::workings {

/// All that can bring a finding, and no more: neither clipping nor totals nor the order for the
/// reader.
Study find_violations(const System& system, const CodeBook& book);
Study calculate(const System& system, const CodeBook& book);

} // namespace ohmfolio::workings
