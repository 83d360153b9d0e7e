/// Sources on the lines of a wye: which lines of a circuit or a bus they load, and how unequally.
#pragma once

#include "study/work.h"

namespace ohmfolio::workings {

/// What arrives by `circuits`, each on the lines that it sits on.
PhaseSources phase_sources_of(const Work&, const std::vector<int>& circuits);

/// Whether a circuit of three lines is fed by single-phase sources, so that its lines differ.
bool meets_unequally(const Work&, int circuit);
/// The line that carries most of such a circuit.
std::optional<Term<Amps>> current_of_lines(Work&, int circuit);
/// Remembers for the next circuit what makes up the sources of this one.
void keep_phase_sources(Work&, int circuit);

} // namespace ohmfolio::workings
