#include "model/elevation.h"

#include <algorithm>

namespace ohmfolio {

bool share_stretch(const WallArea& a, const WallArea& b) {
    constexpr double touch = 1e-6; // edges that meet do not overlap
    return a.left.value + touch < b.right().value && b.left.value + touch < a.right().value;
}

WallStretch free_stretch(const Wall& wall, const PlacedEquipment& placed, Feet height) {
    WallStretch free{Feet{0}, wall.length};
    for (const WallObject& object : wall.objects) {
        const bool in_the_way = object.depth > Feet{0} && object.area.bottom < height;
        if (!in_the_way || share_stretch(object.area, placed.area))
            continue;
        if (object.area.left < placed.area.left)
            free.left = std::max(free.left, object.area.right());
        else
            free.right = std::min(free.right, object.area.left);
    }
    return free;
}

WallStretch space_before(const Wall& wall, const PlacedEquipment& placed, Feet width, Feet height) {
    const WallStretch free = free_stretch(wall, placed, height);
    const Feet middle = placed.area.left + placed.area.width / 2;
    const Feet most = std::max(free.right - width, free.left);
    const Feet left = std::clamp(middle - width / 2, free.left, most);
    return {left, left + width};
}

} // namespace ohmfolio
