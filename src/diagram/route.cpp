/// Power wires. Rows and stretched enclosures make nearly all of them straight; where
/// two terminals differ in height, the wire steps in the gap between their columns, in a channel of
/// its own.
#include <algorithm>
#include <map>

#include "diagram/plan.h"

namespace ohmfolio::diagram {

namespace {

/// Wires that must step between the same two columns, from the top down.
using Gap = std::pair<int, int>;

Gap gap_of(const Plan& plan, const Wire& wire) {
    return {plan.block(wire.child).column, plan.block(wire.parent).column};
}

Length channel(Length from, Length to, std::size_t index, std::size_t count) {
    return from + (to - from) * static_cast<std::int64_t>(index + 1) /
                      static_cast<std::int64_t>(count + 1);
}

} // namespace

void route(Plan& plan) {
    std::map<Gap, std::vector<Wire*>> stepping;
    for (Wire& wire : plan.wires) {
        const Point from = terminal_at(plan, plan.block(wire.child), plan.child_tap(wire));
        const Point to = terminal_at(plan, plan.block(wire.parent), plan.parent_tap(wire));
        wire.points = {from, to};
        if (from.y != to.y) {
            stepping[gap_of(plan, wire)].push_back(&wire);
        }
    }
    for (auto& [gap, wires] : stepping) {
        // The wire that falls furthest takes the channel nearest its source, so that none cross.
        std::sort(wires.begin(), wires.end(), [](const Wire* a, const Wire* b) {
            return a->points.back().y > b->points.back().y;
        });
        for (std::size_t i = 0; i < wires.size(); ++i) {
            const Point from = wires[i]->points.front(), to = wires[i]->points.back();
            const Length x = channel(from.x, to.x, i, wires.size());
            wires[i]->points = {from, {x, from.y}, {x, to.y}, to};
        }
    }
}

} // namespace ohmfolio::diagram
