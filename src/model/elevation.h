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
    Feet depth{};                ///< how far it stands out from the wall
    bool opens_dwelling = false; ///< a door or a window that enters the dwelling directly
    Span span;
};

/// In the order of the words of the key `opposite`.
enum class AcrossTheSpace { nothing, grounded, live };

struct Wall {
    std::string name; ///< "WEST WALL OUTSIDE"
    Feet length{}, height{};
    std::optional<Spanned<Feet>> free_depth; ///< in front of it, to what is opposite
    AcrossTheSpace opposite = AcrossTheSpace::nothing;
    bool on_floor = false;                  ///< heights run from a floor; else from grade
    std::optional<Spanned<Feet>> ceiling;   ///< its height; nothing: open above, or not stated
    std::vector<PlacedEquipment> equipment; ///< from the left
    std::vector<WallObject> objects;
    /// Its ends on the site plan: the left one, as seen by who faces it, and the right one.
    std::optional<Spanned<PlanPoint>> from, to;
    Span span;
};

/// A stretch along a wall.
struct WallStretch {
    Feet left{}, right{};
    Feet width() const { return right - left; }
};

/// What stands out from the wall leaves this much to either side of the equipment, up to `height`.
/// What is above or below the equipment does not part it.
WallStretch free_stretch(const Wall& wall, const PlacedEquipment& placed, Feet height);
/// Where a working space so wide is: about the equipment, moved as far as the free stretch asks.
WallStretch space_before(const Wall& wall, const PlacedEquipment& placed, Feet width, Feet height);
/// True when both take up a common stretch of the wall.
bool share_stretch(const WallArea& a, const WallArea& b);

} // namespace ohmfolio
