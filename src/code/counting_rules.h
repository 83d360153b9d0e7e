/// How many conductors of a raceway carry current, for the adjustment of bundled conductors
/// (310.15(C)(1) and (E); in 2017 310.15(B)(3)(a) and (B)(5)). Equipment grounding conductors never
/// count.
#pragma once

#include <vector>

#include "code/desk.h"

namespace ohmfolio {

/// The conductors of a circuit and the system they belong to.
enum class CircuitWiring {
    two_wire,            ///< two lines, or a line and its neutral: both carry the same current
    split_phase,         ///< 120/240 V: two lines and the neutral
    two_lines_of_wye,    ///< two lines and the neutral of a wye
    three_phase,         ///< three lines
    three_phase_neutral, ///< three lines and the neutral of a wye
    high_leg_delta,      ///< three lines and the neutral of a 120/240 V delta
    direct_current,      ///< two wires
};

struct CountedCircuit {
    CircuitWiring wiring = CircuitWiring::two_wire;
    bool nonlinear =
        false;    ///< most of the load is nonlinear: the neutral of a wye carries harmonics
    int sets = 1; ///< of conductors in parallel in this raceway
};

/// One line for each circuit, with why its neutral counts or not, and their sum as
/// "current_carrying".
Term<Ratio> count_current_carrying(const Desk&, const std::vector<CountedCircuit>&);

/// Of one set, without the lines.
int current_carrying_of(const CountedCircuit&);

} // namespace ohmfolio
