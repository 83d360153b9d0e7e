#include "diagram/diagram.h"

#include <algorithm>
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

/// The distances of the style, and tighter ones for a system that is wide for its sheet. Lettering
/// never shrinks; it is broken into more lines.
std::vector<diagram::Spacing> spacings() {
    diagram::Spacing tight;
    tight.wire_room = inches(0.39);
    tight.block_gap = inches(0.08);
    diagram::Spacing tightest = tight;
    tightest.caption_overhang = inches(0.10);
    return {{}, tight, tightest};
}

bool fits(const Findings& findings) {
    return std::none_of(findings.begin(), findings.end(),
                        [](const Finding& f) { return f.rule == "diagram.too_wide"; });
}

/// The plan with all steps done that place something, at the first spacing at which it fits.
diagram::Plan laid_out(const System& system, const Study& study, const SymbolSet& symbols,
                       const DiagramStyle& style, Size area, const TextMeasure& measure,
                       Findings& findings) {
    const std::vector<diagram::Spacing> choices = spacings();
    for (std::size_t i = 0;; ++i) {
        diagram::Plan plan{system, study, symbols, style, measure, choices[i],
                           area,   {},    {},      {},    {}};
        Findings tried;
        diagram::nest(plan, tried);
        if (!plan.blocks.empty()) {
            diagram::rank(plan);
            diagram::place(plan, tried);
            diagram::route(plan);
        }
        if (fits(tried) || i + 1 == choices.size()) {
            findings.insert(findings.end(), tried.begin(), tried.end());
            return plan;
        }
    }
}

} // namespace

Diagram draw_diagram(const System& system, const Study& study, const SymbolSet& symbols,
                     const DiagramStyle& style, Size area, const TextMeasure& measure,
                     Findings& findings) {
    diagram::Plan plan = laid_out(system, study, symbols, style, area, measure, findings);
    if (plan.blocks.empty()) {
        Diagram empty;
        empty.frame.size = area;
        return empty;
    }
    Frame frame = diagram::ink(plan);
    diagram::route_controls(plan, frame, findings);
    diagram::letter(plan, frame, findings);
    return {std::move(frame), symbols_used(plan), plan.notes};
}

} // namespace ohmfolio
