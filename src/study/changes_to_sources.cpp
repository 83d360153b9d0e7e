// Sources changed: held by a power control system, strings of another length, fewer, or fused.

#include <algorithm>

#include <fmt/format.h>

#include "study/changes.h"
#include "study/topology.h"

namespace ohmfolio::workings {

namespace {

std::optional<Amps> bus_of(const System& system, int index) {
    const Equipment& e = at(system.equipment, index);
    if (const auto* panel = system.ratings<PanelRatings>(e))
        return panel->bus;
    if (const auto* mid = system.ratings<MidRatings>(e))
        return mid->bus;
    return {};
}

const StringArray* string_of_finding(const Situation& here) {
    const int index = here.equipment();
    return index < 0 ? nullptr : at(here.system.equipment, index).as<StringArray>();
}

StringArray& string_in(Candidate& candidate, int index) {
    return std::get<StringArray>(at(candidate.system.equipment, index).detail);
}

} // namespace

/// A setting for all that flows on the busbar, at its rating.
Candidates power_controlled(const Situation& here) {
    const int index = here.equipment();
    const auto bus = index < 0 ? std::nullopt : bus_of(here.system, index);
    if (!bus || std::ranges::find(here.system.power_controls, index, &PowerControl::at) !=
                    here.system.power_controls.end())
        return {};
    Candidate candidate{fmt::format("a listed power control system that holds the busbar of {} to "
                                    "its {}",
                                    here.key(), shown(*bus)),
                        here.system};
    candidate.system.power_controls.push_back({.at = index,
                                               .sources = {},
                                               .bus = Spanned<Amps>{*bus, {}},
                                               .listing = "to be chosen",
                                               .by = index,
                                               .span = {}});
    return {candidate};
}

/// The nearest number of modules in series that the calculation allows.
Candidates other_string_length(const Situation& here) {
    const StringArray* array = string_of_finding(here);
    const Derivation* most = here.study.worksheet.find(here.key() + ".most_in_series");
    const Derivation* fewest = here.study.worksheet.find(here.key() + ".fewest_in_series");
    if (array == nullptr || most == nullptr)
        return {};
    const int least = fewest == nullptr ? 1 : static_cast<int>(fewest->value);
    const int greatest = static_cast<int>(most->value);
    if (greatest < least)
        return {};
    const int nearest = std::clamp(array->in_series, least, greatest);
    Candidate candidate{fmt::format("{} modules in series on {}", nearest, here.key()),
                        here.system};
    string_in(candidate, here.equipment()).in_series = nearest;
    return {candidate};
}

/// The smallest fuse that carries the string.
Candidates fused_strings(const Situation& here) {
    const StringArray* array = string_of_finding(here);
    if (array == nullptr)
        return {};
    const auto& module =
        std::get<ModuleRatings>(at(here.system.catalogue.records, array->module).ratings);
    const double share = here.book.number("pv.irradiance") * here.book.number("source.continuous");
    const auto rating = here.book.standard_rating_up(share * module.isc, DeviceKind::fuse);
    if (!rating)
        return {};
    Candidate candidate{fmt::format("a {} fuse in each string of {}", shown(*rating), here.key()),
                        here.system};
    string_in(candidate, here.equipment()).fuse = Spanned<Amps>{*rating, {}};
    return {candidate};
}

/// One string after another taken off the input.
Candidates fewer_strings(const Situation& here) {
    Candidates candidates;
    const StringArray* array = string_of_finding(here);
    for (int strings = array == nullptr ? 0 : array->strings - 1; strings >= 1; --strings) {
        Candidate candidate{
            fmt::format("{} string{} on {}", strings, strings == 1 ? "" : "s", here.key()),
            here.system};
        string_in(candidate, here.equipment()).strings = strings;
        candidates.push_back(std::move(candidate));
    }
    return candidates;
}

} // namespace ohmfolio::workings
