/// The calculation alone, without waivers and remedies: what a remedy is tried on.
#pragma once

#include "study/study.h"

namespace ohmfolio::workings {

Study calculate(const System& system, const CodeBook& book);

} // namespace ohmfolio::workings
