/// Lines that leave a verdict. Private to the room.
#pragma once

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
};

/// Records a comparison by the paragraph of the rule.
template <class Q>
RuleVerdict check_by(const Desk& desk, const VerdictLine& line, const Term<Q>& left,
                     std::string_view relation, const Term<Q>& right) {
    const bool passes =
        desk.sheet.check(line_for(desk, line.name, {}, line.title, desk.book.cite(line.rule)), left,
                         relation, right);
    const Derivation& written = desk.sheet.all().back();
    return {line.rule, passes, written.comparison, written.id};
}

/// Records a verdict on what is not a number.
inline RuleVerdict judge_by(const Desk& desk, const VerdictLine& line, std::string statement,
                            bool passes, const std::vector<std::string>& from = {}) {
    desk.sheet.judge(line_for(desk, line.name, {}, line.title, desk.book.cite(line.rule)),
                     statement, passes, from);
    return {line.rule, passes, std::move(statement), desk.sheet.all().back().id};
}

} // namespace ohmfolio
