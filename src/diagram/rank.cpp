/// Which column each block of a page stands in. Power reads from the sources at the left to the
/// utility at the right, so a block stands one column left of its parent; what hangs at the right
/// of its parent stands one column right of it.
#include <algorithm>

#include "diagram/plan.h"

namespace ohmfolio::diagram {

namespace {

void rank_below(Plan& page, int index, int column) {
    page.block(index).column = column;
    for (const int child : page.block(index).children) {
        rank_below(page, child, page.block(child).hung ? column - 1 : column + 1);
    }
}

} // namespace

void rank(Plan& page) {
    for (const int root : page.roots) {
        rank_below(page, root, 0);
    }
    int lowest = 0;
    for (const Block& block : page.blocks) {
        lowest = std::min(lowest, block.column);
    }
    for (Block& block : page.blocks) {
        block.column -= lowest;
    }
}

} // namespace ohmfolio::diagram
