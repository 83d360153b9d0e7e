// Where storage stands, by the residential code as adopted: a tally of each location, and the
// distance between units.

#include <algorithm>

#include <fmt/format.h>

#include "base/text.h"
#include "code/storage_siting_rules.h"
#include "study/adopted_code.h"
#include "study/steps.h"

namespace ohmfolio::workings {

namespace {

const std::string siting_subject = "site:siting";
/// Taken where the description names no residential code; its limits are those of its successors.
const std::string usual_code = "IRC 2021";

std::optional<SitingPlace> siting_place(StoragePlace place) {
    switch (place) {
    case StoragePlace::not_stated:
        return {};
    case StoragePlace::attached_garage:
        return SitingPlace::attached_garage;
    case StoragePlace::detached_garage:
        return SitingPlace::detached_structure;
    case StoragePlace::exterior_wall:
        return SitingPlace::exterior_wall;
    case StoragePlace::outdoors:
        return SitingPlace::outdoors_on_ground;
    case StoragePlace::utility_closet:
        return SitingPlace::utility_space;
    }
    return {};
}

std::vector<const Equipment*> units_of(const System& system) {
    std::vector<const Equipment*> units;
    for (const Equipment& e : system.equipment) {
        if (e.is<Battery>())
            units.push_back(&e);
    }
    return units;
}

void advise_of_missing(Work& work, const std::vector<const Equipment*>& units) {
    std::vector<std::string> without;
    const Equipment* first = nullptr;
    for (const Equipment* unit : units) {
        if (siting_place(unit->as<Battery>()->place.value))
            continue;
        first = first == nullptr ? unit : first;
        without.push_back(unit->id);
    }
    if (first == nullptr)
        return;
    complain_of_missing(work, "storage.siting.energy",
                        {.rule = "storage.siting.missing",
                         .severity = Severity::advice,
                         .span = first->span,
                         .message = fmt::format(
                             "{}: the place is not stated, so neither the energy of the location "
                             "nor the distance between units is checked",
                             join(without, ", ")),
                         .expected = "the place of each unit and its distance to the next",
                         .hint = "place = \"attached garage\", spacing = \"3 ft\"",
                         .subject = siting_subject});
}

/// Distance that the listing allows, where all units state one.
std::optional<Feet> tested_spacing(const System& system,
                                   const std::vector<const Equipment*>& units) {
    Feet most{};
    for (const Equipment* unit : units) {
        const Feet own = system.ratings<BatteryRatings>(*unit)->spacing;
        if (own <= Feet{0})
            return {};
        most = std::max(most, own);
    }
    return most > Feet{0} ? std::optional(most) : std::nullopt;
}

SitingInput input_for(const System& system, const std::vector<const Equipment*>& units,
                      const std::string& code) {
    SitingInput input{.code = code, .tested_spacing = tested_spacing(system, units)};
    for (const Equipment* unit : units) {
        const auto& battery = *unit->as<Battery>();
        StorageUnit one{.name = unit->id,
                        .energy = system.ratings<BatteryRatings>(*unit)->energy,
                        .place = *siting_place(battery.place.value)};
        if (battery.spacing)
            one.to_next = battery.spacing->value;
        if (battery.to_opening)
            one.to_opening = battery.to_opening->value;
        input.units.push_back(one);
    }
    return input;
}

Span span_of(const std::vector<const Equipment*>& units, const RuleVerdict& verdict) {
    for (const Equipment* unit : units) {
        if (verdict.line == std::string(key_of(siting_subject)) + "." + unit->id + "_spacing")
            return unit->as<Battery>()->spacing->span;
        if (verdict.line == std::string(key_of(siting_subject)) + "." + unit->id + "_opening")
            return unit->as<Battery>()->to_opening->span;
        if (verdict.line == std::string(key_of(siting_subject)) + "." + unit->id + "_energy")
            return unit->span;
    }
    return units.front()->as<Battery>()->place.span;
}

std::string expected_by(const RuleVerdict& verdict) {
    return verdict.rule == "storage.siting.opening"
               ? "the unit farther from doors and windows that enter the dwelling"
               : "less energy at the location, or units farther apart";
}

void state_code(Work& work, const AdoptedCode& code) {
    work.study.worksheet.choose(
        {.subject = siting_subject,
         .name = "code",
         .title = "Residential code that the siting is held against",
         .cite = {},
         .source = code.stated ? "as adopted, in the description"
                               : "none is named in the description; this one is taken"},
        code.id, {});
}

/// What the code asks beyond what the description tells, in one line.
void state_unchecked(Work& work, const SitingResult& result) {
    std::vector<std::string> rest = result.not_stated;
    rest.emplace_back("detection, lining and protection from vehicles");
    work.study.worksheet.choose({.subject = siting_subject,
                                 .name = "not_checked",
                                 .title = "Not checked here",
                                 .cite = {},
                                 .source = "to be seen on site"},
                                join(rest, "; "), {});
}

} // namespace

void check_storage_siting(Work& work) {
    auto units = units_of(work.system);
    if (units.empty() || !is_dwelling(work.system))
        return;
    advise_of_missing(work, units);
    std::erase_if(units, [](const Equipment* unit) {
        return !siting_place(unit->as<Battery>()->place.value);
    });
    if (units.empty())
        return;
    const AdoptedCode code = adopted_code(work.system, siting_codes("dwelling"), usual_code);
    state_code(work, code);
    const auto result =
        judge_siting(work.desk(siting_subject), input_for(work.system, units, code.id));
    for (const RuleVerdict& verdict : result.verdicts) {
        complain_of_verdicts(
            work, {verdict},
            {.rule = {},
             .severity = code.stated ? Severity::violation : Severity::warning,
             .span = span_of(units, verdict),
             .message =
                 fmt::format("{}, by {}", work.study.derivation(verdict.line).title, code.id),
             .expected = expected_by(verdict),
             .hint = code.stated ? "" : "name the adopted code in [project] other_codes"});
    }
    state_unchecked(work, result);
}

} // namespace ohmfolio::workings
