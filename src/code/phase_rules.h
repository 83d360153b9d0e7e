/// Currents of the lines of a wye that sources load unequally: between two lines, between a line
/// and the neutral, on all three. Sources run at unity power factor.
///
/// A source between two lines is in phase with the voltage between them, so two of them meet in a
/// line at 60°: I_A² = I_AB² + I_CA² + I_AB × I_CA; where they are equal, I_A = √3 × I_AB. Against
/// those to neutral or on all lines they lie at up to 30°; here they are added as if they did not,
/// which is the safe side.
#pragma once

#include <array>
#include <optional>

#include "code/desk.h"

namespace ohmfolio {

/// Sums of output currents. Nothing where there are none.
struct PhaseSources {
    std::optional<Term<Amps>> three_phase;               ///< of each line
    std::array<std::optional<Term<Amps>>, 3> between;    ///< A-B, B-C, C-A
    std::array<std::optional<Term<Amps>>, 3> to_neutral; ///< A, B, C

    bool single_phase() const; ///< any of its sources
    bool any() const { return three_phase || single_phase(); }
    void add(const PhaseSources&);
};

/// Of lines A, B and C, as "line_a" to "line_c".
std::array<Term<Amps>, 3> line_currents(const Desk&, const PhaseSources&);
/// Of the line that carries most, "line_greatest"; where all carry the same, that alone. Needs at
/// least one source.
Term<Amps> greatest_line_current(const Desk&, const PhaseSources&);

} // namespace ohmfolio
