/// Where along a wall the working space of equipment stands, and what stands in it. Private to the
/// room; sheets read the outcome in Study::walls.
#pragma once

#include <vector>

#include "model/elevation.h"

namespace ohmfolio::workings {

/// Of a wall, from its left end.
struct WallStretch {
    Feet left{}, right{};
    Feet width() const { return right - left; }
};

/// From floor or grade.
struct SpaceOnWall {
    WallStretch along;
    Feet height{};
};

/// How far `other` stands out beyond the front of `one`; zero where a record states no depth.
Feet stands_beyond(const PlacedEquipment& one, const PlacedEquipment& other);

/// What is free for `placed` up to `height`: between what stands out to its left and to its right,
/// objects at all and enclosures by more than `allowed` beyond its front, or the ends of the wall.
/// What stands above or below it takes nothing of the width; it is found in the space.
WallStretch free_stretch(const Wall&, const PlacedEquipment& placed, Feet height, Feet allowed);

/// The space need not stand in the middle of the equipment: it moves aside within what is free.
/// Where that is less than `width` it stands where it would if nothing were there.
WallStretch place_space(const Wall&, const PlacedEquipment& placed, Feet width,
                        const WallStretch& free);

std::vector<const WallObject*> objects_within(const Wall&, const SpaceOnWall&);
/// Without `placed` itself.
std::vector<const PlacedEquipment*> enclosures_within(const Wall&, const PlacedEquipment& placed,
                                                      const SpaceOnWall&);

} // namespace ohmfolio::workings
