/// Runs, circuits and overcurrent devices that follow from a description that holds together.
#pragma once

#include <vector>

#include "input/declared.h"
#include "model/system.h"

namespace ohmfolio {

/// Adds them to `system`, which holds the equipment of `all` at the same indices, and gives them
/// their tags: sources first, in the order of the drawing.
void wire(System& system, const std::vector<Declared>& all);

} // namespace ohmfolio
