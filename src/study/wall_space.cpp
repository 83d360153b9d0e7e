#include "study/wall_space.h"

#include <algorithm>

namespace ohmfolio::workings {

namespace {

constexpr double touch = 1e-6; // of a foot: edges that meet do not overlap

bool within(const WallArea& area, const SpaceOnWall& space) {
    return area.left.value + touch < space.along.right.value &&
           space.along.left.value + touch < area.right().value &&
           area.bottom.value + touch < space.height.value;
}

/// Takes from `free` what an area beside the equipment takes.
void cut(WallStretch& free, const WallArea& placed, const WallArea& other, Feet height) {
    if (other.bottom.value + touch >= height.value)
        return;
    if (other.right().value <= placed.left.value + touch)
        free.left = std::max(free.left, other.right());
    else if (other.left.value + touch >= placed.right().value)
        free.right = std::min(free.right, other.left);
}

} // namespace

Feet stands_beyond(const PlacedEquipment& one, const PlacedEquipment& other) {
    if (one.depth <= Feet{0} || other.depth <= Feet{0})
        return {};
    return std::max(other.depth - one.depth, Feet{0});
}

WallStretch free_stretch(const Wall& wall, const PlacedEquipment& placed, Feet height,
                         Feet allowed) {
    WallStretch free{{}, wall.length};
    for (const WallObject& object : wall.objects) {
        if (object.depth > Feet{0})
            cut(free, placed.area, object.area, height);
    }
    for (const PlacedEquipment& other : wall.equipment) {
        if (stands_beyond(placed, other).value > allowed.value + touch)
            cut(free, placed.area, other.area, height);
    }
    return free;
}

WallStretch place_space(const Wall& wall, const PlacedEquipment& placed, Feet width,
                        const WallStretch& free) {
    const bool fits = free.width().value + touch >= width.value;
    const WallStretch room = fits ? free : WallStretch{{}, wall.length};
    const Feet middle = placed.area.left + placed.area.width / 2;
    const Feet last = std::max(room.right - width, room.left);
    const Feet left = std::clamp(middle - width / 2, room.left, last);
    return {left, left + width};
}

std::vector<const WallObject*> objects_within(const Wall& wall, const SpaceOnWall& space) {
    std::vector<const WallObject*> found;
    for (const WallObject& object : wall.objects) {
        if (object.depth > Feet{0} && within(object.area, space))
            found.push_back(&object);
    }
    return found;
}

std::vector<const PlacedEquipment*>
enclosures_within(const Wall& wall, const PlacedEquipment& placed, const SpaceOnWall& space) {
    std::vector<const PlacedEquipment*> found;
    for (const PlacedEquipment& other : wall.equipment) {
        if (&other != &placed && within(other.area, space))
            found.push_back(&other);
    }
    return found;
}

} // namespace ohmfolio::workings
