/// Columns: as tight as the blocks beside one another allow, then evenly wider.
#include <algorithm>
#include <cstdint>

#include "diagram/rows.h"

namespace ohmfolio::diagram {

namespace {

bool beside(const Block& a, const Block& b) {
    return a.line - a.up < b.line + b.down && b.line - b.up < a.line + a.down;
}

bool wired(const Plan& plan, const Block& a, const Block& b) {
    return (a.parent >= 0 && &plan.block(a.parent) == &b) ||
           (b.parent >= 0 && &plan.block(b.parent) == &a);
}

/// Least distance between the centres of two blocks that stand beside one another: their lettering
/// stays apart, and a wire between them is long enough for a tag.
Length pitch(const Plan& plan, const Block& a, const Block& b) {
    const Length lettering = (a.width + b.width) / 2 + plan.spacing.block_gap;
    if (!wired(plan, a, b)) {
        return lettering;
    }
    Length room = plan.spacing.wire_room;
    const bool a_below = a.parent >= 0 && &plan.block(a.parent) == &b;
    for (const int index : (a_below ? a : b).wires) {
        const Wire& wire = plan.wire(index);
        const Length tag = tag_size(plan, wire.tag).width;
        room = std::max(room, tag + plan.spacing.tag_clear * 2 + wire.beside_tag);
    }
    return std::max(lettering, (a.body_width + b.body_width) / 2 + room);
}

int column_count(const Plan& plan) {
    int count = 0;
    for (const Block& block : plan.blocks) {
        count = std::max(count, block.column + 1);
    }
    return count;
}

/// The blocks of each column, from the rightmost.
std::vector<std::vector<const Block*>> columns_of(const Plan& plan) {
    std::vector<std::vector<const Block*>> columns(static_cast<std::size_t>(column_count(plan)));
    for (const Block& block : plan.blocks) {
        columns[static_cast<std::size_t>(block.column)].push_back(&block);
    }
    return columns;
}

/// Distance of each column's centre from the right edge of the drawing, as tight as the blocks
/// allow with `share` added between neighbours. The last entry is the width of the whole.
std::vector<Length> tight_columns(const Plan& plan, Length share) {
    const auto columns = columns_of(plan);
    std::vector<Length> centres(columns.size() + 1);
    for (std::size_t column = 0; column < columns.size(); ++column) {
        Length& centre = centres[column];
        for (const Block* block : columns[column]) {
            centre = std::max(centre, block->width / 2);
            for (std::size_t right = 0; right < column; ++right) {
                const Length gaps = share * static_cast<std::int64_t>(column - right);
                for (const Block* other : columns[right]) {
                    if (beside(*block, *other) || wired(plan, *block, *other)) {
                        centre =
                            std::max(centre, centres[right] + pitch(plan, *block, *other) + gaps);
                    }
                }
            }
        }
        for (const Block* block : columns[column]) {
            centres.back() = std::max(centres.back(), centre + block->width / 2);
        }
    }
    return centres;
}

} // namespace

std::vector<Length> column_centres(const Plan& plan, Length& excess) {
    const Length room = plan.area.width - plan.spacing.text_gap * 2;
    const Length spare = room - tight_columns(plan, {}).back();
    excess = std::max(-spare, Length{});
    const int gaps = std::max(column_count(plan) - 1, 1);
    const Length widest = std::max(inches(0.9), plan.area.width / 16);
    const Length share = std::clamp(spare / gaps, Length{}, widest);
    std::vector<Length> centres = tight_columns(plan, share);
    const Length margin = std::max(plan.area.width - centres.back(), Length{}) / 2;
    centres.pop_back();
    for (Length& centre : centres) {
        centre = plan.area.width - margin - centre;
    }
    return centres;
}

} // namespace ohmfolio::diagram
