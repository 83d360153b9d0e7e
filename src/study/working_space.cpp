// Working space and reach of what hangs on walls that the description draws.

#include <algorithm>

#include <fmt/format.h>

#include "code/working_space_rules.h"
#include "study/steps.h"

namespace ohmfolio::workings {

namespace {

Opposite opposite_of(const Wall& wall) {
    switch (wall.opposite) {
    case AcrossTheSpace::nothing:
        return Opposite::nothing;
    case AcrossTheSpace::grounded:
        return Opposite::grounded;
    case AcrossTheSpace::live:
        return Opposite::live;
    }
    return Opposite::live;
}

/// Storage units and meter sockets have no handle of ours, panels and combiners hold breakers.
bool holds_breakers(const Equipment& e) { return e.is<Panel>() || e.is<Combiner>() || e.is<Mid>(); }

/// Of the wall the space may take what it needs to either side of the equipment, so its width is
/// the wall's.
void check_placed(Work& work, const Wall& wall, const PlacedEquipment& placed) {
    const Equipment& e = work.system.at(placed.equipment);
    const Desk desk = work.desk("space:" + e.id);
    WorkingSpaceInput input{.to_ground = work.system.site.to_neutral,
                            .opposite = opposite_of(wall),
                            .equipment_width = placed.area.width,
                            .equipment_top = placed.area.top(),
                            .width = wall.length};
    if (wall.free_depth)
        input.depth = wall.free_depth->value;
    RuleVerdicts verdicts = judge_working_space(desk, input).verdicts;
    complain_of_verdicts(
        work, verdicts,
        {.rule = {},
         .span = wall.free_depth ? wall.free_depth->span : placed.span,
         .message = fmt::format("working space of {} at {}", e.id, wall.name),
         .expected = "the space of 110.26(A) kept free, or the equipment elsewhere",
         .subject = "equipment:" + e.id});
    if (!placed.handle)
        return;
    const auto reach = check_reach(
        desk, holds_breakers(e) ? HandleKind::breaker_handle : HandleKind::switch_handle,
        placed.handle->value);
    complain_of_verdicts(work, {reach},
                         {.rule = {},
                          .span = placed.handle->span,
                          .message = fmt::format("handle of {}", e.id),
                          .expected = "a handle within reach",
                          .hint = "hang it lower",
                          .subject = "equipment:" + e.id});
}

} // namespace

void check_working_spaces(Work& work) {
    for (const Wall& wall : work.system.walls) {
        for (const PlacedEquipment& placed : wall.equipment)
            check_placed(work, wall, placed);
    }
}

} // namespace ohmfolio::workings
