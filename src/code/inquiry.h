/// Several requirements asked one after the other. Private to the room.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "code/verdict_line.h"

namespace ohmfolio {

/// Gathers the verdicts; a rule that the edition does not have is not asked. What is not stated
/// counts as not so, and the line says that it was not stated.
class Inquiry {
  public:
    explicit Inquiry(const Desk& desk) : desk_(desk) {}

    bool asks(std::string_view rule_id) const { return desk_.book.rule(rule_id).exists; }
    /// A comparison; `relation` as in Worksheet::check.
    template <class Q>
    bool compare(std::string_view rule_id, std::string line, std::string title, const Term<Q>& left,
                 std::string_view relation, const Term<Q>& right) {
        return !asks(rule_id) ||
               keep(check_by(desk_, {std::move(line), std::move(title), std::string(rule_id)}, left,
                             relation, right));
    }
    /// A verdict on what is no number: `statement` is what holds.
    bool judge(std::string_view rule_id, std::string line, std::string title, std::string statement,
               bool passes) {
        return !asks(rule_id) ||
               keep(judge_by(desk_, {std::move(line), std::move(title), std::string(rule_id)},
                             std::move(statement), passes));
    }
    /// The same for what the description states or leaves out.
    bool stated(std::string_view rule_id, std::string line, std::string title,
                const std::string& what, bool is_stated) {
        return judge(rule_id, std::move(line), std::move(title),
                     (is_stated ? "stated: " : "not stated: ") + what, is_stated);
    }
    const RuleVerdicts& verdicts() const { return verdicts_; }

  private:
    bool keep(RuleVerdict verdict) {
        verdicts_.push_back(std::move(verdict));
        return verdicts_.back().passes;
    }

    const Desk& desk_;
    RuleVerdicts verdicts_;
};

} // namespace ohmfolio
