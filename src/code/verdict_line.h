/// Lines that leave a verdict. Private to the room.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "code/line.h"
#include "code/verdict.h"

namespace ohmfolio {

/// A line of a rule: how it is named and headed.
struct VerdictLine {
    std::string name;  ///< "disconnect_count"
    std::string title; ///< "Number of disconnecting means"
    std::string rule;
    /// Another authority than the paragraph of the rule: a nameplate, an adopted fire code.
    std::optional<Citation> cite = {};
    ShownAs as = ShownAs::plain;
};

inline Heading heading_of(const Desk& desk, const VerdictLine& line) {
    Heading heading = line_for(desk, line.name, {}, line.title,
                               line.cite ? *line.cite : desk.book.cite(line.rule));
    heading.as = line.as;
    return heading;
}

/// Records a comparison by the paragraph of the rule, which the edition must have.
template <class Q>
RuleVerdict check_by(const Desk& desk, const VerdictLine& line, const Term<Q>& left,
                     std::string_view relation, const Term<Q>& right) {
    const bool passes = desk.sheet.check(heading_of(desk, line), left, relation, right);
    const Derivation& written = desk.sheet.all().back();
    return {line.rule, passes, written.comparison, written.id};
}

/// The verdicts that were given, in order: a rule that does not apply gives none.
inline RuleVerdicts those_given(const std::vector<std::optional<RuleVerdict>>& verdicts) {
    RuleVerdicts result;
    for (const std::optional<RuleVerdict>& verdict : verdicts) {
        if (verdict)
            result.push_back(*verdict);
    }
    return result;
}

/// Records a verdict on what is not a number.
inline RuleVerdict judge_by(const Desk& desk, const VerdictLine& line, std::string statement,
                            bool passes, const std::vector<std::string>& from = {}) {
    desk.sheet.judge(heading_of(desk, line), statement, passes, from);
    return {line.rule, passes, std::move(statement), desk.sheet.all().back().id};
}

/// A requirement that is stated to be met, or not; nothing where the edition lacks it.
inline std::optional<RuleVerdict> stated_by(const Desk& desk, const VerdictLine& line,
                                            std::string_view what, bool stated) {
    if (!desk.book.rule(line.rule).exists)
        return std::nullopt;
    return judge_by(desk, line, std::string(what) + (stated ? " is stated" : " is not stated"),
                    stated);
}

} // namespace ohmfolio
