#include "sheet/placards.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "sheet/conditions.h"
#include "sheet/places.h"

namespace ohmfolio::sheets {

namespace {

/// The panels whose connection the paragraph `section` permits: a label that this paragraph asks
/// for goes on those and no others.
std::vector<int> panels_under(const std::string& section, const Study& study) {
    std::vector<int> panels;
    for (const ConnectionStudy& connection : study.connections) {
        if (std::any_of(connection.options.begin(), connection.options.end(),
                        [&](const ConnectionOption& option) {
                            return option.chosen && option.cite.section == section;
                        }))
            panels.push_back(connection.panel);
    }
    return panels;
}

bool is_needed(const Placard& placard, const Job& job) {
    const auto section = placard.sections.find(job.system.edition);
    if (section == placard.sections.end() || !placard.use.editions.contains(job.system.edition))
        return false;
    return all_hold(placard.use.needs, placard.use.unless, job.system, job.study);
}

std::vector<int> places_of(const Placard& placard, const Job& job) {
    std::vector<int> at = find_place(placard.at)->list(job.system, job.study);
    if (!placard.of_chosen_rule)
        return at;
    const auto panels = panels_under(placard.sections.at(job.system.edition), job.study);
    std::erase_if(at, [&](int equipment) {
        return std::find(panels.begin(), panels.end(), equipment) == panels.end();
    });
    return at;
}

std::string section_text(const Placard& placard, Edition edition) {
    return name(edition) + " " + placard.sections.at(edition);
}

Facts in_case(const Facts& facts) {
    Facts result;
    for (const auto& [key, value] : facts)
        result[key] = drafting_case(value);
    return result;
}

/// Of the job, and of the place where they differ.
Facts facts_for(const Placard& placard, int at, const Job& job) {
    Facts facts = facts_at(job.system, job.study, *find_place(placard.at), at);
    facts.insert(job.facts.begin(), job.facts.end());
    return in_case(facts);
}

/// All that a placard says with these facts.
std::vector<std::string> wording(const Placard& placard, const Facts& facts, const Job& job) {
    std::vector<std::string> lines;
    Findings told_when_drawn;
    for (const PlacardPanel& panel : placard.panels) {
        if (!panel.editions.contains(job.system.edition))
            continue;
        for (const std::string& line : panel.lines)
            lines.push_back(filled(line, facts, told_when_drawn).value_or(""));
    }
    return lines;
}

/// Places where a placard says the same share one; a current or voltage that differs makes another.
std::vector<NeededPlacard> told_apart(const Placard& placard, const Job& job) {
    std::vector<NeededPlacard> list;
    std::vector<std::vector<std::string>> wordings;
    for (const int at : places_of(placard, job)) {
        Facts facts = facts_for(placard, at, job);
        auto words = wording(placard, facts, job);
        const auto alike = std::ranges::find(wordings, words);
        if (alike != wordings.end()) {
            list[static_cast<std::size_t>(alike - wordings.begin())].at.push_back(at);
            continue;
        }
        wordings.push_back(std::move(words));
        list.push_back({&placard,
                        {at},
                        {},
                        {},
                        section_text(placard, job.system.edition),
                        placard.unverified.contains(job.system.edition),
                        std::move(facts)});
    }
    return list;
}

/// One for each place, or for each breaker of a source there.
std::optional<int> count_of(const NeededPlacard& needed, const System& system) {
    if (!needed.placard->quantity.empty())
        return std::nullopt;
    if (!needed.placard->for_each_source_breaker)
        return static_cast<int>(needed.at.size());
    int count = 0;
    for (const int panel : needed.at)
        count += static_cast<int>(source_breakers(system, panel).size());
    return count;
}

const std::string& where_template(const NeededPlacard& needed) {
    const Placard& placard = *needed.placard;
    return needed.count == 1 && !placard.where_one.empty() ? placard.where_one : placard.where;
}

void tell_where(NeededPlacard& needed, const Job& job) {
    needed.facts["at"] = drafting_case(ids(job.system, needed.at));
    needed.facts["at_location"] = drafting_case(locations(job.system, needed.at));
    needed.where =
        drafting_case(filled(where_template(needed), needed.facts, job.findings).value_or(""));
}

} // namespace

std::vector<NeededPlacard> needed_placards(const Job& job) {
    std::vector<NeededPlacard> list;
    for (const Placard& placard : job.texts.placards) {
        if (!is_needed(placard, job))
            continue;
        for (NeededPlacard& needed : told_apart(placard, job)) {
            needed.count = count_of(needed, job.system);
            tell_where(needed, job);
            list.push_back(std::move(needed));
        }
    }
    return list;
}

} // namespace ohmfolio::sheets
