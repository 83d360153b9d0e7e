#include "revision/steps.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "sheet/calculation_words.h"

namespace ohmfolio::revision {

namespace {

std::string without_blanks(std::string words) {
    std::erase(words, ' ');
    return words;
}

/// What a sheet may print of each step, by id.
class Statements {
  public:
    explicit Statements(const Study& study) : study_(study) {
        for (const Derivation& line : study.worksheet.all())
            symbols_.insert(line.symbol);
        const auto tried = sheets::steps_not_chosen(study);
        for (const Derivation& line : study.worksheet.all())
            all_.emplace(line.id, statement(line, tried));
    }

    const std::string* of(const std::string& id) const {
        const auto found = all_.find(id);
        return found == all_.end() ? nullptr : &found->second;
    }

  private:
    /// A result without the figures it comes from, since those are steps with rows of their own.
    std::string statement(const Derivation& line, const sheets::TriedSteps& tried) const {
        const auto [before, how] = sheets::parts_of_rounding(line);
        std::string words =
            fmt::format("{}|{}|{}|{}|{}|{}|{}", line.title, line.symbol, line.formula, line.source,
                        sheets::place_of(line), how, line.governs);
        if (line.verdict)
            return words + "|" + sheets::shown_comparison(line, study_) + "|" +
                   sheets::full_verdict(line, study_, tried);
        if (!sheets::is_single_name(line.formula))
            words += "|" + before;
        words += "|" + sheets::shown_result(line);
        for (const sheets::Operand& operand : sheets::operands(line.formula, line.figures)) {
            if (!symbols_.contains(operand.name))
                words += fmt::format("|{} = {}", operand.name, operand.value);
        }
        return words;
    }

    const Study& study_;
    std::set<std::string> symbols_; ///< of all steps
    std::map<std::string, std::string> all_;
};

} // namespace

Steps::Steps(const Study& older, const Study& newer) {
    const Statements before(older), after(newer);
    for (const Study* study : {&older, &newer}) {
        for (const Derivation& line : study->worksheet.all()) {
            const std::string* old = before.of(line.id);
            const std::string* now = after.of(line.id);
            const bool stayed = old != nullptr && now != nullptr && *old == *now;
            of_subject_[line.subject].push_back(
                {without_blanks(drafting_case(line.title)), stayed});
        }
    }
}

bool Steps::stayed(const std::string& subject, std::string_view words) const {
    const auto found = of_subject_.find(subject);
    if (found == of_subject_.end())
        return false;
    bool any = false;
    for (const Step& step : found->second) {
        if (step.title.empty() || !words.starts_with(step.title))
            continue;
        if (!step.stayed)
            return false;
        any = true;
    }
    return any;
}

} // namespace ohmfolio::revision
