#include "study/work.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

namespace ohmfolio::workings {

Work::Work(const System& s, const CodeBook& b, Study& result)
    : system(s), book(b), study(result), sources(s.circuits.size()), sources_125(s.circuits.size()),
      phase_sources(s.circuits.size()), breaker_rating(s.breakers.size()), load(s.circuits.size()) {
    study.circuits.resize(s.circuits.size());
    study.runs.resize(s.runs.size());
    study.breakers.resize(s.breakers.size());
    study.walls.resize(s.walls.size());
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

Term<Ratio> count(Work& work, const std::string& subject, const std::string& name,
                  const std::string& symbol, const std::string& title, int value) {
    return state_once(work,
                      {.subject = subject,
                       .name = name,
                       .symbol = symbol,
                       .title = title,
                       .cite = {},
                       .source = "as stated in the description"},
                      Ratio{static_cast<double>(value)});
}

Term<Volts> nominal_voltage(Work& work) {
    return state_once(work,
                      {.subject = "site:service",
                       .name = "voltage",
                       .symbol = "V_nominal",
                       .title = "Nominal voltage",
                       .cite = {},
                       .source = "as stated in the description"},
                      work.system.site.voltage);
}

Term<Volts> power_voltage(Work& work) {
    const auto nominal = nominal_voltage(work);
    return lines_of(work.system.site.supply) == 3 ? root_three() * nominal : nominal;
}

void complain_of_missing(Work& work, std::string_view paragraph, const Complaint& complaint) {
    work.study.findings.push_back({.rule = complaint.rule,
                                   .severity = complaint.severity,
                                   .span = complaint.span,
                                   .subject = complaint.subject,
                                   .section = text(work.book.cite(paragraph)),
                                   .message = complaint.message,
                                   .expected = complaint.expected,
                                   .hint = complaint.hint,
                                   .remedies = {},
                                   .derivation = {}});
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

void complain_of_verdicts(Work& work, const RuleVerdicts& verdicts, const Complaint& complaint) {
    for (const RuleVerdict& verdict : verdicts) {
        if (verdict.passes)
            continue;
        Complaint one = complaint;
        one.rule = verdict.rule;
        one.message += ": " + verdict.statement;
        complain(work, verdict.line, one);
    }
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
    std::set<std::size_t> places; // a subject may be named twice
    for (const std::string& subject : subjects) {
        const auto& under = study.worksheet.under(subject);
        places.insert(under.begin(), under.end());
    }
    std::vector<std::string> ids;
    for (const std::size_t place : places) {
        ids.push_back(study.worksheet.all()[place].id);
    }
    return ids;
}

} // namespace ohmfolio::workings
