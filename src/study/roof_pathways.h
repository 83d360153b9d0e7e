/// Where on a roof plane the pathway for the fire service runs, and what lies in it. Private to the
/// room; sheets read the outcome in Study::pathways.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/system.h"

namespace ohmfolio::workings {

/// A raceway or a piece of equipment on a roof plane.
struct OnRoof {
    std::string name; ///< "R1", "JB-1"
    Span span;
    std::vector<RoofArea> areas; ///< of a raceway one for each of its legs
};

struct PlacedPathway {
    RoofArea area;
    Feet free{}; ///< width of the strip that it runs in, free of modules and objects
    std::vector<OnRoof> obstructions = {};
};

/// `width` wide, in the widest strip that is free of raceways and equipment too; in the widest of
/// all where none of those is wide enough. Nothing where modules and objects leave no strip.
std::optional<PlacedPathway> place_pathway(const System&, std::size_t plane, Feet width);

} // namespace ohmfolio::workings
