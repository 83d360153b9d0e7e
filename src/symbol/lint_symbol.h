/// What a master drafter would say about a symbol that can be read: its terminals, and whether it
/// may stand where another stood.
#pragma once

#include "base/finding.h"
#include "symbol/symbol.h"

namespace ohmfolio {

/// Terminals stand on this grid, or in the middle of an edge, so that runs meet without a step.
inline constexpr Length drafting_grid = millimetres(0.5);

/// Warnings: symbol.port_grid; symbol.port_loose, a terminal that no line of the symbol reaches;
/// symbol.port_height, a run that would step from the left to the right terminal.
void lint_symbol(const Symbol& symbol, Findings& findings);

/// symbol.replaces, an error: `symbol` lacks a terminal or a text slot of the one whose place it
/// takes, has it on another side, or is a mark where that is none.
void check_replacement(const Symbol& symbol, const Symbol& replaced, Findings& findings);

} // namespace ohmfolio
