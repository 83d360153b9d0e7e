/// Where lines of a drawing cross that do not join.
#pragma once

#include "drawing/frame.h"

namespace ohmfolio::drawn {

struct Crossings {
    int of_power = 0;   ///< power wires with power wires; a tree needs none
    int by_control = 0; ///< control wiring with power wires or with other control wiring
};

Crossings crossings(const Frame& frame);

} // namespace ohmfolio::drawn
