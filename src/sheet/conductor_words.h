/// How conductors and raceways are written wherever they are named: "(2) 12 AWG CU THWN-2".
#pragma once

#include <string>

#include "drawing/table.h"
#include "model/system.h"
#include "study/study.h"

namespace ohmfolio::sheets {

/// Stands in a cell that has nothing to say.
inline const std::string none = "-";

std::string ungrounded_words(const CircuitStudy& study, const Circuit& circuit);
std::string neutral_words(const CircuitStudy& study);
std::string equipment_ground_words(const CircuitStudy& study);
std::string raceway_words(const Run& run, const RunStudy& study);

/// The conductors of every run in few words, for the sheet of the diagram itself: circuits that are
/// alike share a row.
Table conductor_key(const System& system, const Study& study);

} // namespace ohmfolio::sheets
