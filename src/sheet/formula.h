/// Formulas of derivations as lettering: names such as I_req get a lowered subscript, long lines
/// break before "=" and at blanks.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "drawing/frame.h"
#include "drawing/measure.h"

namespace ohmfolio::sheets {

/// A stretch of a formula in one position. Subscripts keep the size of the lettering, which may
/// not be smaller, and stand lower.
struct FormulaRun {
    std::string text;
    bool lowered = false;
    friend bool operator==(const FormulaRun&, const FormulaRun&) = default;
};
/// How far the baseline of a subscript lies under that of its name.
Length subscript_drop(const TextStyle& style);
std::vector<FormulaRun> formula_runs(std::string_view formula);
Length formula_width(std::string_view formula, const TextStyle& style, const TextMeasure& measure);
/// The formula in lines no wider than `width`.
std::vector<std::string> formula_lines(std::string_view formula, const TextStyle& style,
                                       Length width, const TextMeasure& measure);
/// Sets one line with the top of its capitals at `at`.
void write_formula(Frame& frame, Point at, std::string_view line, const TextStyle& style,
                   const std::string& shows, const TextMeasure& measure);

} // namespace ohmfolio::sheets
