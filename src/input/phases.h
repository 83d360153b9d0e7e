/// Which circuits have one, two or three lines, on which phases of a bus they sit, and whether
/// equipment suits the supply it is on.
#pragma once

#include <vector>

#include "base/finding.h"
#include "input/declared.h"
#include "model/system.h"

namespace ohmfolio {

/// Ungrounded conductors of the `n`-th circuit from `child` toward the utility: by the nameplate of
/// a source or a bus; through switches and splices, what comes from behind.
int lines_from(const System&, int child, int n);

/// Circuits of fewer lines than their bus has are taken to sit on it in turn, as the poles of a
/// panelboard do: A-B, C-A, B-C. Loads come after sources and feeders. What lies between them and
/// their source sits on the same lines.
void assign_phases(System&);

/// Three-phase equipment on fewer lines, and sources of another voltage.
void check_phases(const System&, const std::vector<Declared>&, Findings&);

} // namespace ohmfolio
