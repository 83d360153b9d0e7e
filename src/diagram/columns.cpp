/// Columns: as tight as the blocks beside one another allow, then evenly wider.
#include <algorithm>

#include "base/text.h"
#include "diagram/rows.h"

namespace ohmfolio::diagram {

namespace {

bool beside(const Block& a, const Block& b) {
    return a.line - a.up < b.line + b.down && b.line - b.up < a.line + a.down;
}

bool wired(const Plan& plan, const Block& a, const Block& b) {
    return std::any_of(plan.wires.begin(), plan.wires.end(), [&](const Wire& w) {
        return (w.child == a.equipment && w.parent == b.equipment) ||
               (w.child == b.equipment && w.parent == a.equipment);
    });
}

/// Least distance between the centres of two blocks that stand beside one another: their lettering
/// stays apart, and a wire between them is long enough for a tag.
Length pitch(const Plan& plan, const Block& a, const Block& b) {
    const Length lettering = (a.width + b.width) / 2 + plan.spacing.block_gap;
    const Length wire = (a.body_width + b.body_width) / 2 + plan.spacing.wire_room;
    return wired(plan, a, b) ? std::max(lettering, wire) : lettering;
}

int column_count(const Plan& plan) {
    int count = 0;
    for (const Block& block : plan.blocks) {
        count = std::max(count, block.column + 1);
    }
    return count;
}

/// Distance of each column's centre from the right edge of the drawing, as tight as the blocks
/// allow with `share` added between neighbours. The last entry is the width of the whole.
std::vector<Length> tight_columns(const Plan& plan, Length share) {
    const int count = column_count(plan);
    std::vector<Length> centres(static_cast<std::size_t>(count) + 1);
    for (int column = 0; column < count; ++column) {
        Length& centre = centres[static_cast<std::size_t>(column)];
        for (const Block& block : plan.blocks) {
            if (block.column != column) {
                continue;
            }
            centre = std::max(centre, block.width / 2);
            for (const Block& right : plan.blocks) {
                if (right.column < column && (beside(block, right) || wired(plan, block, right))) {
                    const Length gaps = share * (column - right.column);
                    centre = std::max(centre, centres[static_cast<std::size_t>(right.column)] +
                                                  pitch(plan, block, right) + gaps);
                }
            }
        }
        for (const Block& block : plan.blocks) {
            if (block.column == column) {
                centres.back() = std::max(centres.back(), centre + block.width / 2);
            }
        }
    }
    return centres;
}

} // namespace

std::vector<Length> column_centres(const Plan& plan, Findings& findings) {
    const Length room = plan.area.width - plan.spacing.text_gap * 2;
    const Length spare = room - tight_columns(plan, {}).back();
    if (spare < Length{}) {
        findings.push_back({.rule = "diagram.too_wide",
                            .severity = Severity::error,
                            .message = "the diagram is wider than the sheet by " +
                                       decimal((-spare).in_inches(), 1) + " in",
                            .expected = "a larger sheet format"});
    }
    const int gaps = std::max(column_count(plan) - 1, 1);
    const Length share = std::clamp(spare / gaps, Length{}, inches(0.9));
    std::vector<Length> centres = tight_columns(plan, share);
    const Length margin = std::max(plan.area.width - centres.back(), Length{}) / 2;
    centres.pop_back();
    for (Length& centre : centres) {
        centre = plan.area.width - margin - centre;
    }
    return centres;
}

} // namespace ohmfolio::diagram
