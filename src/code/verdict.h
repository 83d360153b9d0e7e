/// What a rule found, in words that a finding can repeat. A rule with several requirements returns
/// one verdict for each; a requirement that the edition lacks returns none.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

namespace ohmfolio {

struct RuleVerdict {
    std::string rule; ///< "pv.disconnect.count"
    bool passes = true;
    std::string statement; ///< what holds: "22.50 A > 20 A"
    std::string line;      ///< id of its derivation
};
using RuleVerdicts = std::vector<RuleVerdict>;

inline bool all_pass(const RuleVerdicts& verdicts) {
    return std::all_of(verdicts.begin(), verdicts.end(),
                       [](const RuleVerdict& verdict) { return verdict.passes; });
}
/// The verdict by a rule; nothing where it was not asked.
inline const RuleVerdict* verdict_of(const RuleVerdicts& verdicts, std::string_view rule) {
    const auto found =
        std::find_if(verdicts.begin(), verdicts.end(),
                     [&](const RuleVerdict& verdict) { return verdict.rule == rule; });
    return found == verdicts.end() ? nullptr : &*found;
}
/// The first requirement that is not met; nothing where all are.
inline const RuleVerdict* first_fault(const RuleVerdicts& verdicts) {
    const auto found = std::find_if(verdicts.begin(), verdicts.end(),
                                    [](const RuleVerdict& verdict) { return !verdict.passes; });
    return found == verdicts.end() ? nullptr : &*found;
}
/// True when a requirement by the rule was asked and is not met.
inline bool fails(const RuleVerdicts& verdicts, std::string_view rule) {
    return std::any_of(verdicts.begin(), verdicts.end(), [&](const RuleVerdict& verdict) {
        return verdict.rule == rule && !verdict.passes;
    });
}

} // namespace ohmfolio
