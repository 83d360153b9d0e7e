/// Formulas of derivations as lettering: names such as I_req get a lowered subscript, a quotient is
/// set as a fraction, long lines break before an operator that stands in no brackets.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "drawing/frame.h"
#include "drawing/measure.h"

namespace ohmfolio::sheets {

/// A stretch of a formula in one position.
struct FormulaRun {
    std::string text;
    bool lowered = false;
    bool bears_subscript = false; ///< the letter before a subscript
    friend bool operator==(const FormulaRun&, const FormulaRun&) = default;
};
/// Subscripts keep the size of the lettering, which may not be smaller; so that I_int does not read
/// as a word they stand lower, and the letter that bears them is larger.
Length subscript_drop(const TextStyle& style);
TextStyle bearing_style(const TextStyle& style);

/// True when `next`, set right after `letter`, is the subscript that it bears.
bool is_subscript_of(const Text& letter, const Text& next);

std::vector<FormulaRun> formula_runs(std::string_view formula);
/// How far a line of a formula reaches: beyond its start, above the capitals of a plain line and
/// below one.
struct FormulaExtent {
    Length width, above, below;
};
FormulaExtent formula_extent(std::string_view formula, const TextStyle& style,
                             const TextMeasure& measure);
Length formula_width(std::string_view formula, const TextStyle& style, const TextMeasure& measure);
/// Where the first relation sign of a line stands, "=" or "≤": lines one below the other have it in
/// one column. npos when there is none.
std::size_t relation_in(std::string_view formula);
/// The formula in lines no wider than `width`; those after the first are narrower by `indent`.
std::vector<std::string> formula_lines(std::string_view formula, const TextStyle& style,
                                       Length width, const TextMeasure& measure,
                                       Length indent = {});
/// Sets one line with the top of its capitals at `at`; fractions reach above and below.
void write_formula(Frame& frame, Point at, std::string_view line, const TextStyle& style,
                   const std::string& shows, const TextMeasure& measure);

} // namespace ohmfolio::sheets
