/// The steps of a group sorted for printing: by what they are about, nameplates first; what is
/// worked out alike for several subjects is gathered, so that it can be set as one table.
#pragma once

#include <string>
#include <vector>

#include "model/system.h"
#include "study/study.h"

namespace ohmfolio::sheets {

/// Steps of one subject.
struct CalculationSection {
    std::string subject; ///< "equipment:PV-1", "record:wickhollow-340"
    std::vector<const Derivation*> lines;
    bool is_nameplate() const { return subject.starts_with("record:"); }
};

/// One section, or several with the same steps.
struct CalculationBlock {
    std::vector<CalculationSection> sections;
};

/// "C5" of "circuit:C5".
std::string key_of(std::string_view subject);
bool is_circuit(const CalculationGroup& group);
/// A group all of whose steps are about raceways.
bool is_raceways(const CalculationGroup& group, const Study& study);
/// A group all of whose steps are about the fault current at some place.
bool is_fault_currents(const CalculationGroup& group, const Study& study);
/// A group all of whose steps are about the working space of some equipment.
bool is_working_spaces(const CalculationGroup& group, const Study& study);

std::vector<CalculationSection> sections_of(const CalculationGroup& group, const Study& study);
std::vector<CalculationBlock> blocks_of(const CalculationGroup& group, const Study& study);

/// The steps as lines: a value that a nameplate gives twice stands once, and successive steps that
/// differ only in the breaker they are about are one, "Q1, Q2 within the combiner's limit".
std::vector<Derivation> printed_lines(const CalculationSection& section, const System& system);

/// Product and maker for a nameplate, the key for anything else; empty for the group's own steps.
std::string title_of(const CalculationSection& section, const CalculationGroup& group,
                     const System& system);

} // namespace ohmfolio::sheets
