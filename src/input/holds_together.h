/// Does the description hold together? References lead to equipment of the right kind, everything
/// reaches the utility by one way, terminals are not taken twice, and what is stated has a place.
#pragma once

#include <vector>

#include "base/finding.h"
#include "input/declared.h"
#include "model/system.h"

namespace ohmfolio {

/// Ids: characters, words that the drawing uses itself, repetition, look-alikes.
void check_ids(const std::vector<Declared>& all, Findings& findings);

/// Finds the parent of each piece of equipment and the panels that MIDs back up.
void resolve_neighbours(std::vector<Declared>& all, Findings& findings);

/// One tree, rooted at the utility, with sources behind everything that passes power on. Needs
/// neighbours. False when equipment feeds itself in a circle: then the tree cannot be walked.
bool check_tree(const std::vector<Declared>& all, Findings& findings);

/// Terminals taken twice, and breakers, runs and electrodes stated where there is no place for
/// them or missing where there is. `system` holds the equipment of `all`, at the same indices.
void check_terminals(const System& system, const std::vector<Declared>& all, Findings& findings);

} // namespace ohmfolio
