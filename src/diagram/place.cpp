/// Where blocks and taps of a page stand. Rows first, then columns, then the room that is left over
/// is shared out.
#include <algorithm>

#include "diagram/interior.h"
#include "diagram/rows.h"

namespace ohmfolio::diagram {

namespace {

void set_bodies(Plan& plan, const std::vector<Length>& centres, Length shift) {
    for (Block& block : plan.blocks) {
        block.line += shift;
        const Length left = centres[static_cast<std::size_t>(block.column)] - block.body_width / 2;
        block.body = {{left, block.line - block.body_up},
                      {left + block.body_width, block.line + block.body_down}};
    }
}

} // namespace

Excess place(Plan& plan) {
    Excess excess;
    // Rows as airy as the page allows, within reason; the widest gaps are for large pages only.
    const Length room = plan.area.height - plan.spacing.control_clear * 3;
    constexpr double widest_share = 0.7;
    Reach extent{};
    for (const double factor : {6.0, 4.5, 3.3, 2.2, 1.8, 1.5, 1.25, 1.0, 0.75, 0.5}) {
        const bool wide = factor > 2.2;
        if (wide && plan.area.height < inches(14)) {
            continue;
        }
        extent = stack_rows(plan, scaled(plan.spacing.row_gap, factor));
        if (extent.up + extent.down <= (wide ? scaled(room, widest_share) : room)) {
            break;
        }
    }
    // Control wiring needs a way over the topmost block.
    const Length margin = plan.controls.empty() ? Length{} : plan.spacing.control_clear * 2;
    const Length spare = plan.area.height - margin - extent.up - extent.down;
    if (spare < Length{}) {
        return {{}, -spare};
    }
    // What is left over lies above, in one piece, where a table may stand; more than a table needs
    // is shared with the foot.
    const Length below = std::max((spare - plan.spacing.table_room) / 2,
                                  std::min(spare, plan.spacing.control_clear));
    set_bodies(plan, column_centres(plan, excess.width), margin + extent.up + spare - below);
    return excess;
}

Point terminal_at(const Plan& plan, const Block& block, const Tap& tap) {
    if (block.form == Form::symbol && !tap.terminals.empty()) {
        const SymbolPort* port = symbol_of(plan, block.symbol).port(tap.terminals.front().name);
        if (port != nullptr) {
            return block.body.low + port->at;
        }
    }
    return {tap.side == Side::left ? block.body.low.x : block.body.high.x, block.line + tap.y};
}

Point control_at(const Plan& plan, const Block& block) {
    if (block.form == Form::symbol) {
        if (const SymbolPort* port = symbol_of(plan, block.symbol).port("control")) {
            return block.body.low + port->at;
        }
    }
    if (block.form == Form::match) {
        const bool left = block.taps.front().side == Side::right;
        return {left ? block.body.low.x : block.body.high.x, block.body.centre().y};
    }
    Length x = block.body.high.x - plan.spacing.control_clear;
    if (block.gateway) {
        const Point low = gateway_low(plan, block);
        return {block.body.high.x, (low + symbol_of(plan, "gateway").port("control")->at).y};
    }
    if (has_transformer(block)) {
        x = transformer_x(plan, block);
    }
    return {x, block.body.low.y};
}

} // namespace ohmfolio::diagram
