/// Walls with the equipment that hangs on them, seen from the front. Lengths across run from the
/// left end of the wall, heights from grade or floor.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/quantity.h"
#include "base/source.h"
#include "model/site_plan.h"

namespace ohmfolio {

/// A rectangle on a wall.
struct WallArea {
    Feet left{}, bottom{}, width{}, height{};
    Feet right() const { return left + width; }
    Feet top() const { return bottom + height; }
};

struct PlacedEquipment {
    int equipment = -1;                  ///< index into System::equipment
    WallArea area;                       ///< its size is that of its catalogue record
    Feet depth{};                        ///< zero: the record states none
    std::optional<Spanned<Feet>> handle; ///< grip of its highest handle in the highest position
    Span span;
};

/// A door, a window, or what else takes up a part of the wall.
struct WallObject {
    std::string name; ///< "DOOR"
    WallArea area;
    Feet depth{}; ///< how far it stands out from the wall; zero: flush
    bool enters_dwelling = false;
    Span span;
};

/// What heights run from, in the order of the words of the key `stands_on`.
enum class WallDatum { grade, floor };

/// In the order of the words of the key `opposite`.
enum class AcrossTheSpace { nothing, grounded, live };

struct Wall {
    std::string name; ///< "WEST WALL OUTSIDE"
    Feet length{}, height{};
    std::optional<Spanned<Feet>> free_depth; ///< in front of it, to what is opposite
    AcrossTheSpace opposite = AcrossTheSpace::nothing;
    WallDatum stands_on = WallDatum::grade;
    std::optional<Spanned<Feet>> ceiling;   ///< its height; nothing: open to the sky, or not stated
    std::vector<PlacedEquipment> equipment; ///< from the left
    std::vector<WallObject> objects;
    /// Its ends on the site plan: the left one, as seen by who faces it, and the right one.
    std::optional<Spanned<PlanPoint>> from, to;
    Span span;
};

} // namespace ohmfolio
