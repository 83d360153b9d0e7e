/// Calculations gathered for printing. What reads alike for several circuits, raceways or branches
/// is printed once, as typical of them all.
#pragma once

#include <string>
#include <vector>

#include "model/system.h"
#include "study/study.h"

namespace ohmfolio::sheets {

/// Steps of one subject, and the subjects for which they read the same.
struct CalculationSection {
    std::vector<std::string> subjects;
    std::vector<const Derivation*> lines;
};

/// Groups of the study that read the same but for the names of their circuits.
struct PrintedGroup {
    std::vector<const CalculationGroup*> groups;
    std::vector<CalculationSection> sections; ///< one where the group has a subject of its own
};

std::vector<PrintedGroup> printed_groups(const Study& study);

/// "CIRCUITS C1, C2: PV-1 TO JB-1, PV-2 TO JB-1" from the titles of its groups.
std::string title_of(const PrintedGroup& group);
/// "R1, R2: JB-1 TO CP-1" for runs, the model for a nameplate, the id for equipment.
std::string title_of(const CalculationSection& section, const System& system);

} // namespace ohmfolio::sheets
