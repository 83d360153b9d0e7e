#include "code/judgement.h"

namespace ohmfolio {

Judgement judged_by(const Desk& desk, const Citation& cite, std::string_view rule_id,
                    std::string name, std::string title, std::string statement, bool passes,
                    const std::vector<std::string>& from) {
    desk.sheet.judge(line_for(desk, std::move(name), "", std::move(title), cite), statement, passes,
                     from);
    return {std::string(rule_id), true, passes, std::move(statement)};
}

Judgement judged(const Desk& desk, std::string_view rule_id, std::string name, std::string title,
                 std::string statement, bool passes, const std::vector<std::string>& from) {
    const Rule& rule = desk.book.rule(rule_id);
    if (!rule.exists)
        return not_applicable(rule_id, "not in " + ohmfolio::name(desk.book.edition()));
    return judged_by(desk, rule.cite, rule_id, std::move(name), std::move(title),
                     std::move(statement), passes, from);
}

} // namespace ohmfolio
