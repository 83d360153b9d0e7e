#include "drawn/displacement.h"

#include <algorithm>
#include <map>
#include <vector>

#include "drawing/strokes.h"
#include "drawn/bodies.h"

namespace ohmfolio::drawn {
namespace {

struct Place {
    std::size_t page;
    Point centre;
};

std::map<std::string, Place> places_of(const DrawnJob& job) {
    std::map<std::string, Place> places;
    const auto sheets = job.diagram_sheets();
    for (std::size_t page = 0; page < sheets.size(); ++page) {
        for (const auto& [id, box] : bodies_of(sheets[page]->frame)) {
            places.emplace(id, Place{page, box.centre()}); // where it is drawn first
        }
    }
    return places;
}

} // namespace

Displacement displacement(const DrawnJob& before, const DrawnJob& after) {
    Displacement result;
    const auto earlier = places_of(before);
    const auto later = places_of(after);
    const double width = before.packet.sheets.front().frame.size.width.in_inches();
    std::vector<double> moved;
    for (const auto& [id, place] : earlier) {
        const auto found = later.find(id);
        if (found == later.end()) {
            continue;
        }
        if (found->second.page != place.page) {
            ++result.other_page;
            moved.push_back(1);
            continue;
        }
        moved.push_back(distance(place.centre, found->second.centre).in_inches() / width);
        result.farthest = std::max(result.farthest, moved.back());
    }
    result.symbols = static_cast<int>(moved.size());
    if (!moved.empty()) {
        std::ranges::nth_element(moved, moved.begin() + static_cast<long>(moved.size() / 2));
        result.median = moved[moved.size() / 2];
    }
    return result;
}

} // namespace ohmfolio::drawn
