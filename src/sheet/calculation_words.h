/// The words of a derivation as a calculation sheet prints them: paragraphs without the edition,
/// fractions as percentages. Nothing is worked out anew.
#pragma once

#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "code/derivation.h"
#include "study/study.h"

namespace ohmfolio::sheets {

/// Ids of steps that belong to rules which were tried and not chosen: what they miss is no failure.
using TriedSteps = std::set<std::string, std::less<>>;
TriedSteps steps_not_chosen(const Study& study);

/// "PASS", "FAIL" or nothing; "NOT MET" for a rule that was tried and not chosen.
std::string_view verdict_word(const Derivation& line, const TriedSteps& tried);
/// The name of a pass or of the rule that was chosen where `line` belongs to one that was not:
/// "NOT MET, SEE 705.12(B)(3)".
std::string full_verdict(const Derivation& line, const Study& study, const TriedSteps& tried);

inline constexpr std::string_view nameplate = "NAMEPLATE";
/// "705.28(B)": the edition stands once on the sheet. "NAMEPLATE" for a limit of the equipment.
std::string paragraph(const Citation& citation);

/// The paragraph, or "STATED" for what the drafter wrote.
std::string place_of(const Derivation& line);

/// The result as printed: "21.84 A", "0.53 %", "22 kA", "0.80".
std::string shown_result(const Derivation& line);
/// Figures and comparison, their operands printed as the steps that they come from.
std::string shown_figures(const Derivation& line, const Study& study);
std::string shown_comparison(const Derivation& line, const Study& study);
/// "I_z = MIN(I_cor, I_term)" rather than "lesser of I_cor and I_term", where neither side holds
/// another choice.
std::string shown_formula(std::string_view formula);
/// "14.20 ≤ 25" where both sides bear the same unit, else as it is.
std::string without_units(std::string_view comparison);

/// A name of a formula with the value that stands for it: {"N", "8"}.
struct Operand {
    std::string name, value;
    friend bool operator==(const Operand&, const Operand&) = default;
};
/// What a formula names, in order, numbers left out; empty when figures do not match the formula.
std::vector<Operand> operands(std::string_view formula, std::string_view figures);
/// True for "I_z": a formula that only names another step.
bool is_single_name(std::string_view formula);

/// "11.2676" and "rounded down" of the rounding "11.2676, rounded down".
std::pair<std::string, std::string> parts_of_rounding(const Derivation& line);

} // namespace ohmfolio::sheets
