/// Many jobs in one command: each in a process of its own, so that none stops the others.
#pragma once

#include <filesystem>
#include <iosfwd>
#include <vector>

#include "app/commands.h"

namespace ohmfolio {

struct BatchOptions {
    std::vector<std::filesystem::path> systems;
    DrawOptions each; ///< for all of them; `out` gets a folder for each job, named by its stem
    int at_once = 0;  ///< processes; 0: as many as there are processors
};

/// Draws all jobs. Findings of jobs that are not clean go to `err`, a table of all to `out`, both
/// in the order of the options, whatever finished first. Returns the worst exit code. Two jobs of
/// one stem are refused, since one would be drawn over the other.
int draw_all(const BatchOptions& options, const Surroundings& where, std::ostream& out,
             std::ostream& err);

} // namespace ohmfolio
