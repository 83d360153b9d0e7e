#include "diagram/diagram.h"

#include <set>

#include "diagram/plan.h"

namespace ohmfolio {

namespace {

std::vector<std::string> symbols_used(const diagram::Plan& plan) {
    std::set<std::string> names;
    for (const diagram::Block& block : plan.blocks) {
        const std::vector<std::string> needed = diagram::symbols_needed(block);
        names.insert(needed.begin(), needed.end());
    }
    return {names.begin(), names.end()};
}

} // namespace

Diagram draw_diagram(const System& system, const Study& study, const SymbolSet& symbols,
                     const DiagramStyle& style, Size area, const TextMeasure& measure,
                     Findings& findings) {
    diagram::Plan plan{system, study, symbols, style, measure, {}, area, {}, {}, {}, {}};
    diagram::nest(plan, findings);
    if (plan.blocks.empty()) {
        Diagram empty;
        empty.frame.size = area;
        return empty;
    }
    diagram::rank(plan);
    diagram::place(plan, findings);
    diagram::route(plan);
    Frame frame = diagram::ink(plan);
    diagram::route_controls(plan, frame, findings);
    diagram::letter(plan, frame, findings);
    return {std::move(frame), symbols_used(plan), plan.notes};
}

} // namespace ohmfolio
