/// What the program has to say about the user's description: faults of the text, violations of the
/// code, advice. Findings are collected, never thrown; every stage adds what it sees and goes on.
#pragma once

#include <string>
#include <vector>

#include "base/source.h"

namespace ohmfolio {

enum class Severity {
    advice,    ///< legal, but a thoughtful drafter would want to know
    warning,   ///< likely a slip; does not stop the packet
    violation, ///< breaks a rule of the code edition or a limit of the equipment
    error      ///< the description cannot be understood
};

struct Remedy {
    std::string change;      ///< "main breaker 175 A"
    std::string consequence; ///< "then the 120 % rule carries 65 A"
};

struct Finding {
    std::string rule{}; ///< stable id of the rule, "branch.inverters"
    Severity severity = Severity::error;
    Span span{};            ///< where in the text, if anywhere
    std::string subject{};  ///< what it is about, "circuit:C3"
    std::string section{};  ///< "NEC 2023 690.8(B)(1)", empty where no code section applies
    std::string message{};  ///< what is wrong
    std::string expected{}; ///< what would be right
    std::string hint{};     ///< a likely fix
    std::vector<Remedy> remedies{};
    std::string derivation{}; ///< id of the derivation that shows it
};

using Findings = std::vector<Finding>;

bool has(const Findings& findings, Severity at_least);
/// By place in the text, then severity (worst first), then rule: the order to print in.
void sort_for_print(Findings& findings);
/// Readable text with file:line:column, the source line and a mark under the value.
std::string print(const Finding& finding, const SourceFiles& sources, bool colour);
std::string_view name(Severity severity);

} // namespace ohmfolio
