#include "code/judgement.h"

namespace ohmfolio {

Judgement judged(const Desk& desk, std::string_view rule_id, std::string name, std::string title,
                 std::string statement, bool passes, const std::vector<std::string>& from) {
    const Rule& rule = desk.book.rule(rule_id);
    if (!rule.exists)
        return not_applicable(rule_id, "not in " + ohmfolio::name(desk.book.edition()));
    desk.sheet.judge(line_for(desk, std::move(name), "", std::move(title), rule.cite), statement,
                     passes, from);
    return {rule.id, true, passes, std::move(statement)};
}

} // namespace ohmfolio
