/// The roof seen from above: planes, their edges, modules, pathways, obstructions and equipment.
#pragma once

#include <vector>

#include "model/roof_geometry.h"
#include "sheet/plan_view.h"

namespace ohmfolio::sheets {

inline constexpr Length hatch_pitch = inches(0.11); ///< of pathways
inline constexpr Length drop_radius = inches(0.04); ///< of the mark where a raceway leaves the roof

/// The planes that are described, as indices into Site::roofs.
std::vector<std::size_t> described_planes(const System& system);

/// "5.1:12", the rise for a run of twelve.
std::string pitch_words(double tilt);

/// What the lines and marks of the plan stand for; only what occurs.
Frame roof_legend(Length width, const Job& job);

Frame draw_roofs(const DrawingScale& scale, const Job& job);

} // namespace ohmfolio::sheets
