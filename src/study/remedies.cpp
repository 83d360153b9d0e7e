// Remedies are found, not guessed: a change is made to the description, the whole calculation is
// run again, and the change is offered only when the violation is gone and no other has come.

#include <algorithm>
#include <array>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "study/calculation.h"
#include "study/topology.h"
#include "study/waivers.h"

namespace ohmfolio::workings {

namespace {

constexpr std::size_t most_remedies = 4;

struct Candidate {
    std::string change; ///< "7 modules on PV-2"
    System system;      ///< the description, so changed
};

struct Situation {
    const System& system;
    const CodeBook& book;
    const Study& study;
    const Finding& finding;

    std::string key() const { return finding.subject.substr(finding.subject.find(':') + 1); }
    int equipment() const { return system.find(key()); }
    template <class T> int tagged(const std::vector<T>& all) const {
        const auto found = std::ranges::find(all, key(), &T::tag);
        return found == all.end() ? -1 : static_cast<int>(found - all.begin());
    }
};

using Candidates = std::vector<Candidate>;

/// The nearest smaller count that the branch's own limit allows.
Candidates fewer_modules(const Situation& here) {
    const int index = here.equipment();
    const Derivation* most = here.study.worksheet.find(here.key() + ".most");
    if (index < 0 || most == nullptr || most->value < 1)
        return {};
    Candidate candidate{fmt::format("{} modules on {}", most->value, here.key()), here.system};
    std::get<BranchArray>(at(candidate.system.equipment, index).detail).count =
        static_cast<int>(most->value);
    return {candidate};
}

/// Standard ratings above the breaker's, smallest first.
Candidates larger_breakers(const Situation& here, int breaker) {
    Candidates candidates;
    if (breaker < 0 || !at(here.system.breakers, breaker).stated)
        return candidates;
    auto rating = at(here.system.breakers, breaker).stated->value;
    while (candidates.size() < most_remedies) {
        const auto next = here.book.standard_rating_up(Amps{rating.value + 1});
        if (!next)
            break;
        rating = *next;
        Candidate candidate{
            fmt::format("{} for {}", shown(rating), at(here.system.breakers, breaker).tag),
            here.system};
        at(candidate.system.breakers, breaker).stated->value = rating;
        candidates.push_back(std::move(candidate));
    }
    return candidates;
}

Candidates larger_branch_breaker(const Situation& here) {
    const int index = here.equipment();
    const auto circuits = index < 0 ? std::vector<int>{} : circuits_from(here.system, index);
    return circuits.empty()
               ? Candidates{}
               : larger_breakers(here, protecting_breaker(here.system, circuits.front()));
}

Candidates larger_breaker(const Situation& here) {
    return larger_breakers(here, here.tagged(here.system.breakers));
}

/// Every stated breaker of the finding's place left to be sized.
Candidates breaker_left_out(const Situation& here) {
    Candidates candidates;
    for (std::size_t i = 0; i < here.system.breakers.size(); ++i) {
        const Breaker& breaker = here.system.breakers[i];
        if (!breaker.stated || breaker.stated->span != here.finding.span)
            continue;
        Candidate candidate{fmt::format("the rating of {} left to be sized", breaker.tag),
                            here.system};
        candidate.system.breakers[i].stated.reset();
        candidates.push_back(std::move(candidate));
    }
    return candidates;
}

Candidates smallest_conductor(const Situation& here) {
    const int index = here.tagged(here.system.circuits);
    if (index < 0 || !at(here.system.circuits, index).stated_size)
        return {};
    const WireSize size = at(here.study.circuits, index).smallest;
    Candidate candidate{fmt::format("{} for {}", name(size), here.key()), here.system};
    at(candidate.system.circuits, index).stated_size->value = size;
    return {candidate};
}

Candidates ground_left_out(const Situation& here) {
    const int index = here.tagged(here.system.circuits);
    if (index < 0)
        return {};
    Candidate candidate{
        fmt::format("equipment grounding conductor of {} left to be sized", here.key()),
        here.system};
    at(candidate.system.circuits, index).stated_equipment_ground.reset();
    return {candidate};
}

Candidates larger_raceway(const Situation& here) {
    const int index = here.tagged(here.system.runs);
    if (index < 0 || !at(here.system.runs, index).stated_trade_size)
        return {};
    Candidates candidates;
    for (int step = at(here.system.runs, index).stated_trade_size->value.step + 1;
         step < static_cast<int>(trade_size_names.size()); ++step) {
        Candidate candidate{fmt::format("{} in for {}", name(TradeSize{step}), here.key()),
                            here.system};
        at(candidate.system.runs, index).stated_trade_size->value = TradeSize{step};
        candidates.push_back(std::move(candidate));
    }
    return candidates;
}

/// Standard ratings below the main breaker's, largest first, down to half the busbar.
Candidates smaller_main(const Situation& here) {
    const int index = here.equipment();
    const auto* panel = index < 0 ? nullptr : at(here.system.equipment, index).as<Panel>();
    if (panel == nullptr || !panel->main)
        return {};
    Candidates candidates;
    const double present = panel->main->value.value;
    for (double amps = present - 5; amps >= present / 2; amps -= 5) {
        if (!here.book.is_standard_rating(Amps{amps}))
            continue;
        Candidate candidate{fmt::format("a {} main breaker in {}, if its loads allow",
                                        shown(Amps{amps}), here.key()),
                            here.system};
        std::get<Panel>(at(candidate.system.equipment, index).detail).main->value = Amps{amps};
        candidates.push_back(std::move(candidate));
    }
    return candidates;
}

Candidates other_end(const Situation& here) {
    const int index = here.equipment();
    const auto* panel = index < 0 ? nullptr : at(here.system.equipment, index).as<Panel>();
    if (panel == nullptr || panel->opposite_end)
        return {};
    Candidate candidate{
        fmt::format("the source breaker at the end of the busbar of {} opposite the main",
                    here.key()),
        here.system};
    std::get<Panel>(at(candidate.system.equipment, index).detail).opposite_end = true;
    return {candidate};
}

/// The breaker that protects the bus of the finding, or through which its sources arrive, left to
/// be sized: the smallest that complies leaves the most room.
Candidates smaller_feeder(const Situation& here) {
    Candidates candidates;
    const int index = here.equipment();
    for (std::size_t i = 0; index >= 0 && i < here.system.breakers.size(); ++i) {
        const Breaker& breaker = here.system.breakers[i];
        const Circuit& circuit = at(here.system.circuits, breaker.circuit);
        const bool near = breaker.at == index || here.system.child_of(circuit) == index;
        if (!near || !breaker.stated)
            continue;
        Candidate candidate{fmt::format("the rating of {} left to be sized", breaker.tag),
                            here.system};
        candidate.system.breakers[i].stated.reset();
        candidates.push_back(std::move(candidate));
    }
    return candidates;
}

/// Any other product of the catalogue of the same kind in the place of the finding's.
Candidates other_product(const Situation& here) {
    Candidates candidates;
    const int index = here.equipment();
    const int present = index < 0 ? -1 : at(here.system.equipment, index).record;
    if (present < 0)
        return candidates;
    const auto& records = here.system.catalogue.records;
    for (std::size_t i = 0; i < records.size(); ++i) {
        if (static_cast<int>(i) == present ||
            records[i].ratings.index() != at(records, present).ratings.index())
            continue;
        Candidate candidate{
            fmt::format("{} {} for {}", records[i].maker, records[i].model, here.key()),
            here.system};
        at(candidate.system.equipment, index).record = static_cast<int>(i);
        candidates.push_back(std::move(candidate));
    }
    return candidates;
}

/// Another module, or another microinverter, on every branch that has the pair of the finding.
Candidates other_pair(const Situation& here, int BranchArray::*part) {
    Candidates candidates;
    const int index = here.equipment();
    const auto* named = index < 0 ? nullptr : at(here.system.equipment, index).as<BranchArray>();
    const auto& records = here.system.catalogue.records;
    for (int i = 0; named != nullptr && i < static_cast<int>(records.size()); ++i) {
        if (named->*part == i ||
            at(records, named->*part).ratings.index() != at(records, i).ratings.index())
            continue;
        Candidate candidate{fmt::format("{} {}", at(records, i).maker, at(records, i).model),
                            here.system};
        for (Equipment& e : candidate.system.equipment) {
            auto* branch = std::get_if<BranchArray>(&e.detail);
            if (branch != nullptr && branch->module == named->module &&
                branch->microinverter == named->microinverter)
                branch->*part = i;
        }
        candidates.push_back(std::move(candidate));
    }
    return candidates;
}

Candidates other_module(const Situation& here) { return other_pair(here, &BranchArray::module); }
Candidates other_microinverter(const Situation& here) {
    return other_pair(here, &BranchArray::microinverter);
}

/// What is tried for which rule, in the order in which it is offered. A rule ending in a point
/// stands for all that begin with it.
struct Proposal {
    std::string_view rule;
    Candidates (*propose)(const Situation&);
};

constexpr std::array proposals = {
    Proposal{"module.", other_module},
    Proposal{"module.", other_microinverter},
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
    Proposal{"panel.", other_product},
    Proposal{"conductor.", smallest_conductor},
    Proposal{"circuit.ground", ground_left_out},
    Proposal{"raceway.fill", larger_raceway},
    Proposal{"connection.bus", other_end},
    Proposal{"connection.bus", smaller_main},
    Proposal{"connection.bus", smaller_feeder},
    Proposal{"connection.bus", other_product},
    Proposal{"disconnect.rating", other_product},
    Proposal{"fault.service", other_product},
};

bool is_for(const Proposal& proposal, const std::string& rule) {
    return proposal.rule.ends_with('.') ? rule.starts_with(proposal.rule) : rule == proposal.rule;
}

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
    const Study changed = calculate(candidate.system, here.book);
    const Keys after = violations(changed);
    const bool gone = !after.contains({here.finding.rule, here.finding.subject});
    const bool no_new = std::ranges::includes(before, after);
    if (!gone || !no_new)
        return {};
    return Remedy{candidate.change, consequence(changed, here.finding)};
}

std::vector<Remedy> remedies_for(const Situation& here, const Keys& before) {
    std::vector<Remedy> remedies;
    for (const Proposal& proposal : proposals) {
        if (!is_for(proposal, here.finding.rule))
            continue;
        for (const Candidate& candidate : proposal.propose(here)) {
            if (remedies.size() == most_remedies)
                return remedies;
            if (auto remedy = tried(here, before, candidate))
                remedies.push_back(std::move(*remedy));
        }
    }
    return remedies;
}

} // namespace

void find_remedies(const System& system, const CodeBook& book, Study& study) {
    const Keys before = violations(study);
    for (std::size_t i = 0; i < study.findings.size(); ++i) {
        if (study.findings[i].severity < Severity::violation)
            continue;
        study.findings[i].remedies = remedies_for({system, book, study, study.findings[i]}, before);
    }
}

} // namespace ohmfolio::workings
