/// Third step: where blocks and taps stand. Rows first, then columns, then the room that is left
/// over is shared out.
#include <algorithm>

#include "base/text.h"
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

void place(Plan& plan, Findings& findings) {
    // Rows as airy as the sheet allows, within reason.
    Reach extent{};
    for (const double factor : {2.2, 1.8, 1.5, 1.25, 1.0, 0.75, 0.5}) {
        extent = stack_rows(plan, scaled(plan.spacing.row_gap, factor));
        if (extent.up + extent.down <= plan.area.height - plan.spacing.control_clear * 3) {
            break;
        }
    }
    const Length spare = plan.area.height - extent.up - extent.down;
    if (spare < Length{}) {
        findings.push_back({.rule = "diagram.too_high",
                            .severity = Severity::error,
                            .message = "the diagram is higher than the sheet by " +
                                       decimal((-spare).in_inches(), 1) + " in",
                            .expected = "a larger sheet format"});
    }
    // What is left over lies above, in one piece, where a table may stand.
    const Length below = plan.spacing.control_clear;
    set_bodies(plan, column_centres(plan, findings), extent.up + std::max(spare - below, Length{}));
}

Point terminal_at(const Plan& plan, const Block& block, std::string_view terminal) {
    const Tap& tap = *block.tap(terminal);
    if (block.form == Form::symbol) {
        const SymbolPort* port = symbol_of(plan, block.symbol).port(terminal);
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
    Length x = block.body.high.x - plan.spacing.control_clear;
    if (block.gateway) {
        const Point low = gateway_low(plan, block);
        return {block.body.high.x, (low + symbol_of(plan, "gateway").port("control")->at).y};
    }
    if (block.form == Form::bus &&
        std::any_of(block.taps.begin(), block.taps.end(),
                    [](const Tap& tap) { return !tap.transformer.empty(); })) {
        x = transformer_x(plan, block);
    }
    return {x, block.body.low.y};
}

} // namespace ohmfolio::diagram
