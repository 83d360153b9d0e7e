#include "drawn/bodies.h"

#include <string_view>

namespace ohmfolio::drawn {

std::map<std::string, Box> bodies_of(const Frame& frame) {
    constexpr std::string_view kind = "equipment:";
    std::map<std::string, Box> bodies;
    for (const Mark& mark : frame.marks) {
        const auto* path = std::get_if<Path>(&mark.item);
        if (path == nullptr || !mark.shows.starts_with(kind) ||
            (mark.role != Role::symbol && mark.role != Role::enclosure)) {
            continue;
        }
        const Box box = bounds(*path);
        const auto [found, added] = bodies.emplace(mark.shows.substr(kind.size()), box);
        if (!added) {
            found->second = united(found->second, box);
        }
    }
    return bodies;
}

} // namespace ohmfolio::drawn
