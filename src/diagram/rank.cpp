/// Second step: which column each block stands in. Power reads from the sources at the left to the
/// utility at the right, so a block stands one column left of its parent; what a MID backs up
/// stands one column right of it, beside its own supply.
#include <algorithm>

#include "diagram/plan.h"

namespace ohmfolio::diagram {

bool is_backed_up(const Plan& plan, int equipment) {
    for (const Circuit& c : plan.system.circuits) {
        if (plan.system.child_of(c) == equipment) {
            return c.use == CircuitUse::backup_feeder;
        }
    }
    return false;
}

namespace {

void rank_below(Plan& plan, int equipment, int column) {
    plan.block(equipment).column = column;
    for (const int child : plan.system.children(equipment)) {
        rank_below(plan, child, is_backed_up(plan, child) ? column - 1 : column + 1);
    }
}

} // namespace

void rank(Plan& plan) {
    rank_below(plan, plan.system.root(), 0);
    int lowest = 0;
    for (const Block& block : plan.blocks) {
        lowest = std::min(lowest, block.column);
    }
    for (Block& block : plan.blocks) {
        block.column -= lowest;
    }
}

} // namespace ohmfolio::diagram
