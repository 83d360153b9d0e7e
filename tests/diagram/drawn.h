/// What tests ask of a diagram: its plan at some step, what lint sees in it.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "diagram/divide.h"
#include "diagram/fixture.h"
#include "drawing/lint.h"

namespace ohmfolio::test {

inline diagram::Plan whole_of(Drawn& drawn, diagram::Folding folding = diagram::Folding::none) {
    diagram::Plan plan(diagram::Subject{drawn.system, drawn.study, drawn.symbols, drawn.style,
                                        *drawn.measure, drawn.area});
    diagram::nest(plan);
    diagram::order(plan);
    diagram::connect(plan);
    diagram::fold(plan, folding);
    diagram::caption(plan);
    return plan;
}

inline diagram::Plan placed(Drawn& drawn) {
    const diagram::Plan whole = whole_of(drawn);
    diagram::Fitted one = diagram::fitted(whole, {{.root = whole.roots.front()}});
    diagram::route(one.page);
    return std::move(one.page);
}

inline const diagram::Block& block(const diagram::Plan& plan, const std::string& id) {
    const int equipment = plan.system.find(id);
    return *std::find_if(plan.blocks.begin(), plan.blocks.end(), [equipment](const auto& b) {
        return b.equipment == equipment && b.form != diagram::Form::match;
    });
}

inline std::vector<const Frame*> frames_of(const Diagram& drawing) {
    std::vector<const Frame*> frames;
    for (const DiagramPage& page : drawing.pages) {
        frames.push_back(&page.frame);
    }
    return frames;
}

inline Findings faults(const Diagram& drawing, const Drawn& drawn) {
    Findings out;
    for (const DiagramPage& page : drawing.pages) {
        Sheet sheet;
        sheet.number = "E-601";
        sheet.frame = page.frame;
        sheet.border = sheet.drawing_area = box_at({}, page.frame.size);
        for (Finding& finding : lint(sheet, *drawn.measure)) {
            if (finding.severity != Severity::advice) {
                out.push_back(std::move(finding));
            }
        }
    }
    return out;
}

inline std::string said(const Findings& findings) {
    std::string text;
    for (const Finding& finding : findings) {
        text += finding.rule + " " + finding.subject + ": " + finding.message + "\n";
    }
    return text;
}

} // namespace ohmfolio::test
