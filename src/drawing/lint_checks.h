/// Inside the drawing room: the checks that lint is made of.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "drawing/lint.h"

namespace ohmfolio {

/// A text on the sheet and the area its ink may touch.
struct LetteredBox {
    std::size_t mark;
    const Text* text;
    Box ink;
    Box letters; ///< the ink above the baseline: where an underline does not reach
};

/// One sheet under inspection.
struct Inspection {
    Inspection(const Sheet& inspected, const TextMeasure& text_measure,
               const LintRules& lint_rules);

    /// A finding about `mark`; the message gets the sheet's number and the place in front.
    Finding finding(std::string_view rule, Severity severity, std::size_t mark, Point at,
                    const std::string& message) const;

    const Sheet& sheet;
    const TextMeasure& measure;
    const LintRules& rules;
    std::vector<LetteredBox> texts;
};

void check_lettering(const Inspection& inspection, Findings& findings);
void check_text_overlaps(const Inspection& inspection, Findings& findings);
void check_lines_through_text(const Inspection& inspection, Findings& findings);
void check_wires_through_symbols(const Inspection& inspection, Findings& findings);
void check_wire_ends(const Inspection& inspection, Findings& findings);
void check_wire_crossings(const Inspection& inspection, Findings& findings);
void check_frame(const Inspection& inspection, Findings& findings);

} // namespace ohmfolio
