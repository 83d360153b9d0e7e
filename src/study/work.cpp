#include "study/work.h"

#include <algorithm>

#include <fmt/format.h>

namespace ohmfolio::workings {

Work::Work(const System& s, const CodeBook& b, Study& result)
    : system(s), book(b), study(result), sources(s.circuits.size()), sources_125(s.circuits.size()),
      breaker_rating(s.breakers.size()), load(s.circuits.size()) {
    study.circuits.resize(s.circuits.size());
    study.runs.resize(s.runs.size());
    study.breakers.resize(s.breakers.size());
}

Citation nameplate() { return {{}, "equipment nameplate"}; }
Citation common_practice() { return {{}, "common practice"}; }

std::string nameplate_of(const Record& record) {
    return fmt::format("{} {}, nameplate", record.maker, record.model);
}

std::string_view key_of(std::string_view subject) {
    const auto colon = subject.find(':');
    return colon == std::string_view::npos ? subject : subject.substr(colon + 1);
}

Term<Ratio> count(std::string symbol, int value) {
    return given(std::move(symbol), Ratio{static_cast<double>(value)});
}

void complain(Work& work, const std::string& id, const Complaint& complaint) {
    const Derivation& shown_by = work.study.derivation(id);
    work.study.findings.push_back(
        {.rule = complaint.rule,
         .severity = complaint.severity,
         .span = complaint.span,
         .subject = complaint.subject.empty() ? shown_by.subject : complaint.subject,
         .section = text(shown_by.cite),
         .message = complaint.message,
         .expected = complaint.expected,
         .hint = complaint.hint,
         .remedies = {},
         .derivation = id});
}

std::vector<std::string> ids_since(const Study& study, std::size_t count) {
    std::vector<std::string> ids;
    const auto& all = study.worksheet.all();
    for (std::size_t i = count; i < all.size(); ++i) {
        ids.push_back(all[i].id);
    }
    return ids;
}

std::vector<std::string> ids_under(const Study& study, const std::vector<std::string>& subjects) {
    std::vector<std::string> ids;
    for (const Derivation& d : study.worksheet.all()) {
        if (std::ranges::find(subjects, d.subject) != subjects.end())
            ids.push_back(d.id);
    }
    return ids;
}

} // namespace ohmfolio::workings
