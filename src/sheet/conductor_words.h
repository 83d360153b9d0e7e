/// How conductors and raceways are written wherever they are named: "(2) 12 AWG CU THWN-2".
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "drawing/table.h"
#include "model/existing.h"
#include "model/system.h"
#include "study/study.h"

namespace ohmfolio::sheets {

/// Stands in a cell that has nothing to say.
inline const std::string none = "—";

/// A cell in the case of drawings; `none` stands in the middle of its column.
Cell cell_of(std::string_view text, std::string shows);

/// "(3) 3/0 AWG CU THWN-2, field verify": what exists is shown as fact only where it was stated.
std::string field_verify(std::string words, bool unverified);
/// "C16 (E)"
std::string tag_with_status(const System& system, const Circuit& circuit);

std::string ungrounded_words(const CircuitStudy& study, const Circuit& circuit);
std::string neutral_words(const CircuitStudy& study);
/// "(1) 12 AWG"; "(1) 12 AWG, shared in R1" where one serves all circuits of a raceway.
std::string equipment_ground_words(const System& system, const Circuit& circuit,
                                   const CircuitStudy& study);
/// "(1) 4 AWG CU GEC"
std::string electrode_conductor_words(const System& system, const Study& study);
/// 1/2" EMT
std::string raceway_words(const Run& run, const RunStudy& study);
/// R1: 1/2" EMT
std::string tagged_raceway_words(const Run& run, const RunStudy& study);

/// The conductors of these circuits in few words, for the sheet of the diagram itself: circuits
/// that are alike share a row. The utility's have none, and neither has the grounding electrode
/// conductor, whose size is written at its line.
Table conductor_key(const System& system, const Study& study, const std::vector<int>& circuits);

} // namespace ohmfolio::sheets
