// Remedies are found, not guessed: a change is made to the description, the whole calculation is
// run again, and the change is offered only when the violation is gone and no other has come.

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "study/calculation.h"
#include "study/changes.h"
#include "study/waivers.h"

namespace ohmfolio::workings {

namespace {

/// What is tried for which rule, in the order in which it is offered. A rule ending in a point
/// stands for all that begin with it.
struct Proposal {
    std::string_view rule;
    Candidates (*propose)(const Situation&);
};

constexpr std::array proposals = {
    Proposal{"module.", other_module},
    Proposal{"module.", other_microinverter},
    Proposal{"module.series", other_string_length},
    Proposal{"pv.voltage.", other_string_length},
    Proposal{"inverter.input.", other_string_length},
    Proposal{"inverter.input.", fewer_strings},
    Proposal{"string.fuse", fused_strings},
    Proposal{"string.fuse", fewer_strings},
    Proposal{"branch.inverters", fewer_modules},
    Proposal{"branch.inverters", larger_branch_breaker},
    Proposal{"branch.breaker.limit", breaker_left_out},
    Proposal{"breaker.rating", larger_breaker},
    Proposal{"breaker.rating", breaker_left_out},
    Proposal{"combiner.", breaker_left_out},
    Proposal{"combiner.", other_product},
    Proposal{"mid.", breaker_left_out},
    Proposal{"mid.", other_product},
    Proposal{"storage.", breaker_left_out},
    Proposal{"storage.", other_product},
    Proposal{"panel.main", smaller_main},
    Proposal{"panel.bus", smaller_feeder},
    Proposal{"service.main", smaller_main},
    Proposal{"panel.", other_product},
    Proposal{"conductor.", smallest_conductor},
    Proposal{"circuit.ground", ground_left_out},
    Proposal{"raceway.fill", larger_raceway},
    Proposal{"connection.bus", other_end},
    Proposal{"connection.bus", one_load_less},
    Proposal{"connection.bus", smaller_main},
    Proposal{"connection.bus", other_end_and_smaller_main},
    Proposal{"connection.bus", smaller_feeder},
    Proposal{"connection.bus", power_controlled},
    Proposal{"connection.bus", other_product},
    Proposal{"disconnect.rating", other_product},
    Proposal{"disconnect.protection", protection_left_out},
    Proposal{"disconnect.protection", other_product},
    Proposal{"fault.", other_product},
    Proposal{"shutdown.initiator", marked_for_shutdown},
    Proposal{"storage.disconnect", marked_for_storage},
    Proposal{"voltage.rise", larger_conductors},
};

/// Steps of one kind stop at the first that is enough: a second size would say nothing new.
/// Products are not steps.
bool offers_several(const Proposal& proposal) {
    return proposal.propose == other_product || proposal.propose == other_module ||
           proposal.propose == other_microinverter;
}

bool is_for(const Proposal& proposal, const std::string& rule) {
    return proposal.rule.ends_with('.') ? rule.starts_with(proposal.rule) : rule == proposal.rule;
}

/// Where a rule is broken in many places, what mends the first mends the others.
constexpr int most_of_one_rule = 2;
/// Each trial is a whole calculation: a large system with much amiss would take minutes.
constexpr int most_trials = 60;

using Keys = std::set<std::pair<std::string, std::string>>; ///< rule and subject

Keys violations(const Study& study) {
    Keys keys;
    for (const Finding& finding : study.findings) {
        if (finding.severity >= Severity::violation)
            keys.emplace(finding.rule, finding.subject);
    }
    return keys;
}

/// The same line of the calculation, as it reads after the change.
std::string consequence(const Study& changed, const Finding& finding) {
    const Derivation* line = changed.worksheet.find(finding.derivation);
    return line == nullptr || line->comparison.empty() ? std::string("then it complies")
                                                       : "then " + line->comparison;
}

std::optional<Remedy> tried(const Situation& here, const Keys& before, const Candidate& candidate) {
    const Study changed = find_violations(candidate.system, here.book);
    const Keys after = violations(changed);
    const bool gone = std::ranges::none_of(changed.findings, [&](const Finding& finding) {
        return finding.rule == here.finding.rule && finding.subject == here.finding.subject;
    });
    const bool no_new = std::ranges::includes(before, after);
    if (!gone || !no_new)
        return {};
    return Remedy{candidate.change, consequence(changed, here.finding)};
}

std::vector<Remedy> remedies_for(const Situation& here, const Keys& before, int& trials) {
    std::vector<Remedy> remedies;
    for (const Proposal& proposal : proposals) {
        if (!is_for(proposal, here.finding.rule))
            continue;
        for (const Candidate& candidate : proposal.propose(here)) {
            if (remedies.size() == most_remedies || trials == most_trials)
                return remedies;
            ++trials;
            auto remedy = tried(here, before, candidate);
            if (!remedy)
                continue;
            remedies.push_back(std::move(*remedy));
            if (!offers_several(proposal))
                break;
        }
    }
    return remedies;
}

/// Violations, and of the advice what a size can mend; not what a waiver has turned into advice.
bool wants_remedy(const Study& study, const Finding& finding) {
    if (finding.severity >= Severity::violation)
        return true;
    return finding.rule == "voltage.rise" &&
           std::ranges::none_of(study.waived, [&](const WaivedFinding& waived) {
               return waived.finding.rule == finding.rule &&
                      waived.finding.subject == finding.subject;
           });
}

} // namespace

void find_remedies(const System& system, const CodeBook& book, Study& study) {
    const Keys before = violations(study);
    std::map<std::string, int> sought;
    int trials = 0;
    for (std::size_t i = 0; i < study.findings.size(); ++i) {
        if (!wants_remedy(study, study.findings[i]) ||
            ++sought[study.findings[i].rule] > most_of_one_rule)
            continue;
        study.findings[i].remedies =
            remedies_for({system, book, study, study.findings[i]}, before, trials);
    }
}

} // namespace ohmfolio::workings
