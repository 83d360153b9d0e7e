/// The outcome of one check of the book, for whoever turns it into a finding. The lines that led to
/// it are on the worksheet.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "code/desk.h"
#include "code/line.h"

namespace ohmfolio {

struct Judgement {
    std::string rule_id;
    bool applies = true; ///< false: `reason` says why not, and `passes` means nothing
    bool passes = true;
    std::string reason; ///< the comparison or statement
};

/// A judgement fails only where its rule applies.
inline bool passes(const std::vector<Judgement>& all) {
    return std::all_of(all.begin(), all.end(),
                       [](const Judgement& one) { return !one.applies || one.passes; });
}

inline Judgement not_applicable(std::string_view rule_id, std::string reason) {
    return {std::string(rule_id), false, false, std::move(reason)};
}

/// Compares by another authority than the electrical code: an adopted code, a nameplate.
template <class Q>
Judgement compared_by(const Desk& desk, const Citation& cite, std::string_view rule_id,
                      std::string name, std::string title, const Term<Q>& left,
                      std::string_view relation, const Term<Q>& right,
                      ShownAs as = ShownAs::plain) {
    Heading heading = line_for(desk, std::move(name), "", std::move(title), cite);
    heading.as = as;
    const bool passes = desk.sheet.check(heading, left, relation, right);
    return {std::string(rule_id), true, passes, desk.sheet.all().back().comparison};
}
/// Compares by the paragraph of `rule_id`, or says that the edition has no such rule.
template <class Q>
Judgement compared(const Desk& desk, std::string_view rule_id, std::string name, std::string title,
                   const Term<Q>& left, std::string_view relation, const Term<Q>& right,
                   ShownAs as = ShownAs::plain) {
    const Rule& rule = desk.book.rule(rule_id);
    if (!rule.exists)
        return not_applicable(rule_id, "not in " + ohmfolio::name(desk.book.edition()));
    return compared_by(desk, rule.cite, rule_id, std::move(name), std::move(title), left, relation,
                       right, as);
}

/// The same for what is not a number.
Judgement judged_by(const Desk&, const Citation&, std::string_view rule_id, std::string name,
                    std::string title, std::string statement, bool passes,
                    const std::vector<std::string>& from = {});
Judgement judged(const Desk&, std::string_view rule_id, std::string name, std::string title,
                 std::string statement, bool passes, const std::vector<std::string>& from = {});

} // namespace ohmfolio
