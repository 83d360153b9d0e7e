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

Facts facts_in_case(const Job& job, const std::vector<int>& at) {
    Facts facts;
    for (const auto& [key, value] : job.facts)
        facts[key] = drafting_case(value);
    facts["at"] = drafting_case(ids(job.system, at));
    facts["at_location"] = drafting_case(locations(job.system, at));
    return facts;
}

} // namespace

std::vector<NeededPlacard> needed_placards(const Job& job) {
    std::vector<NeededPlacard> list;
    for (const Placard& placard : job.texts.placards) {
        if (!is_needed(placard, job))
            continue;
        const auto at = places_of(placard, job);
        if (at.empty())
            continue;
        NeededPlacard needed{&placard,
                             at,
                             {},
                             section_text(placard, job.system.edition),
                             placard.unverified.contains(job.system.edition),
                             facts_in_case(job, at)};
        needed.where =
            drafting_case(filled(placard.where, needed.facts, job.findings).value_or(""));
        list.push_back(std::move(needed));
    }
    return list;
}

} // namespace ohmfolio::sheets
