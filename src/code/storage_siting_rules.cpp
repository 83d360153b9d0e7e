// Where storage may stand: a tally of each location, then each unit.
#include "code/storage_siting_rules.h"

#include <algorithm>
#include <stdexcept>

#include "code/tables.h"
#include "code/verdict_line.h"

namespace ohmfolio {

namespace {

constexpr double watt_hours_per_kilowatt_hour = 1000;

TableRow code_row(const std::string& id, std::string_view kind) {
    for (const TableRow& row : code_tables().file("storage_siting").rows("code")) {
        if (row.text("id") == id && row.text("kind") == kind)
            return row;
    }
    throw std::logic_error("the siting table has no " + std::string(kind) + " code " + id);
}

/// One limit of an adopted code: nothing, a bare paragraph, or a number with it.
struct Limit {
    double value;
    Citation cite;
};

Limit limit_of(const std::string& code, const TableRow& row) {
    return {row.number_if_any("limit").value_or(0),
            {code, row.text("cite"), row.flag("unverified")}};
}

std::optional<Limit> find_limit(const std::string& code, std::string_view kind,
                                std::string_view key) {
    const auto row = code_row(code, kind).group_if_any(key);
    return row ? std::optional(limit_of(code, *row)) : std::nullopt;
}

std::optional<Limit> location_limit(const std::string& code, SitingPlace place) {
    for (const TableRow& row : code_row(code, "dwelling").rows_if_any("locations")) {
        if (row.text("place") == name(place))
            return limit_of(code, row);
    }
    return std::nullopt;
}

std::string kind_of(SitingPlace place) { return std::string(name(place)); }

bool indoors(SitingPlace place) {
    return place != SitingPlace::exterior_wall && place != SitingPlace::outdoors_on_ground;
}

bool together(const StorageUnit& a, const StorageUnit& b) {
    return a.place == b.place && a.location == b.location;
}

bool stands_alone(const SitingInput& input, const StorageUnit& unit) {
    return std::count_if(input.units.begin(), input.units.end(),
                         [&](const StorageUnit& other) { return together(unit, other); }) == 1;
}

// Units.

RuleVerdict place_check(const Desk& desk, const std::string& code, const StorageUnit& unit) {
    const Limit limit = find_limit(code, "dwelling", "place").value(); // all of them speak of it
    const bool passes =
        unit.place != SitingPlace::habitable_space && unit.place != SitingPlace::sleeping_room;
    return judge_by(
        desk,
        {unit.name + "_place", "Place of unit " + unit.name, "storage.siting.place", limit.cite},
        unit.name + ": " + kind_of(unit.place), passes);
}

std::optional<RuleVerdict> energy_check(const Desk& desk, const std::string& code,
                                        const StorageUnit& unit) {
    const auto limit = find_limit(code, "dwelling", "unit");
    if (!limit)
        return std::nullopt;
    return check_by(
        desk,
        {unit.name + "_energy", "Energy of unit " + unit.name, "storage.siting.unit", limit->cite},
        given("E_" + unit.name, unit.energy, "energy of the unit"), "≤",
        constant(WattHours{watt_hours_per_kilowatt_hour * limit->value}));
}

std::optional<RuleVerdict> spacing_check(const Desk& desk, const SitingInput& input,
                                         const StorageUnit& unit) {
    const auto limit = find_limit(input.code, "dwelling", "spacing");
    if (!limit || !unit.to_next)
        return std::nullopt;
    auto least = constant(Feet{limit->value});
    if (input.tested_spacing) {
        const auto tested = given("d_test", *input.tested_spacing, "spacing of its fire test");
        least = std::ranges::min(least, tested, {}, &Term<Feet>::value);
    }
    return check_by(desk,
                    {unit.name + "_spacing", "Distance of unit " + unit.name + " from the next",
                     "storage.siting.spacing", limit->cite},
                    given("d_" + unit.name, *unit.to_next, "distance to the next unit, as stated"),
                    "≥", least);
}

std::optional<RuleVerdict> opening_check(const Desk& desk, const std::string& code,
                                         const StorageUnit& unit) {
    const auto limit = find_limit(code, "dwelling", "opening");
    if (!limit || !unit.to_opening || indoors(unit.place))
        return std::nullopt;
    return check_by(desk,
                    {unit.name + "_opening",
                     "Distance of unit " + unit.name + " from doors and windows",
                     "storage.siting.opening", limit->cite},
                    given("d_opening", *unit.to_opening, "distance to openings, as stated"), "≥",
                    constant(Feet{limit->value}));
}

std::optional<RuleVerdict> provision_check(const Desk& desk, const std::string& code,
                                           const StorageUnit& unit, const std::string& what,
                                           bool asked, std::optional<bool> there,
                                           const std::string& words) {
    const auto limit = find_limit(code, "dwelling", what);
    if (!limit || !asked || !there)
        return std::nullopt;
    return judge_by(
        desk,
        {unit.name + "_" + what, words + ", " + unit.name, "storage.siting." + what, limit->cite},
        unit.name + ": " + words + (*there ? " stated" : " not stated"), *there);
}

RuleVerdicts unit_verdicts(const Desk& desk, const SitingInput& input, const StorageUnit& unit) {
    const bool detection =
        unit.place == SitingPlace::attached_garage || unit.place == SitingPlace::utility_space;
    return those_given(
        {place_check(desk, input.code, unit), energy_check(desk, input.code, unit),
         spacing_check(desk, input, unit), opening_check(desk, input.code, unit),
         provision_check(desk, input.code, unit, "impact", unit.vehicle_path, unit.impact_protected,
                         "protection from vehicles"),
         provision_check(desk, input.code, unit, "detection", detection, unit.detection,
                         "smoke or heat detection"),
         provision_check(desk, input.code, unit, "lining", unit.place == SitingPlace::utility_space,
                         unit.lined, "finished walls and ceiling")});
}

/// Distances that would decide and are not stated are said, not passed over.
std::vector<std::string> missing_distances(const SitingInput& input) {
    const bool spacing = find_limit(input.code, "dwelling", "spacing").has_value();
    const bool opening = find_limit(input.code, "dwelling", "opening").has_value();
    std::vector<std::string> missing;
    for (const StorageUnit& unit : input.units) {
        if (spacing && !unit.to_next && !stands_alone(input, unit))
            missing.push_back(unit.name + ": distance from the next unit is not stated");
        if (opening && !unit.to_opening && !indoors(unit.place))
            missing.push_back(unit.name + ": distance from doors and windows is not stated");
    }
    return missing;
}

// Locations.

LocationTally& tally_for(std::vector<LocationTally>& tallies, const StorageUnit& unit) {
    const auto same = [&](const LocationTally& one) {
        return one.place == unit.place && one.location == unit.location;
    };
    const auto place = std::find_if(tallies.begin(), tallies.end(), same);
    if (place != tallies.end())
        return *place;
    return tallies.emplace_back(LocationTally{.place = unit.place, .location = unit.location});
}

std::string location_words(const LocationTally& tally) {
    return tally.location.empty() ? kind_of(tally.place) : tally.location;
}

RuleVerdict location_check(const Desk& desk, const Limit& limit, LocationTally& tally) {
    tally.limit = WattHours{watt_hours_per_kilowatt_hour * limit.value};
    const std::string words = location_words(tally);
    const std::string line = as_line("location " + kind_of(tally.place) + " " + tally.location);
    RuleVerdict check = check_by(
        desk, {line, "Storage: " + words, "storage.siting.energy", limit.cite},
        given("ΣE", tally.energy, "energy of the units there"), "≤", constant(*tally.limit));
    tally.passes = check.passes;
    check.statement = words + ": " + check.statement;
    return check;
}

/// The stricter reading: no more in all than the largest limit of a location.
std::optional<RuleVerdict> dwelling_check(const Desk& desk, const SitingInput& input,
                                          WattHours total) {
    std::vector<Limit> limits;
    for (const TableRow& row : code_row(input.code, "dwelling").rows_if_any("locations"))
        limits.push_back(limit_of(input.code, row));
    if (limits.empty())
        return std::nullopt;
    const Limit largest = std::ranges::max(limits, {}, &Limit::value);
    return check_by(
        desk,
        {"location_all", "Storage of the whole dwelling", "storage.siting.energy", largest.cite},
        given("ΣE", total, "energy of all units"), "≤",
        constant(WattHours{watt_hours_per_kilowatt_hour * largest.value}));
}

} // namespace

std::string_view name(SitingPlace place) {
    switch (place) {
    case SitingPlace::utility_space:
        return "utility space";
    case SitingPlace::attached_garage:
        return "attached garage";
    case SitingPlace::detached_structure:
        return "detached structure";
    case SitingPlace::exterior_wall:
        return "exterior wall";
    case SitingPlace::outdoors_on_ground:
        return "outdoors on the ground";
    case SitingPlace::habitable_space:
        return "habitable space";
    case SitingPlace::sleeping_room:
        return "sleeping room";
    }
    return "";
}

std::vector<std::string> siting_codes(std::string_view kind) {
    std::vector<std::string> ids;
    for (const TableRow& row : code_tables().file("storage_siting").rows("code")) {
        if (row.text("kind") == kind)
            ids.push_back(row.text("id"));
    }
    return ids;
}

SitingResult judge_siting(const Desk& desk, const SitingInput& input) {
    SitingResult result;
    result.tally = code_row(input.code, "dwelling").text("tally");
    for (const StorageUnit& unit : input.units) {
        LocationTally& tally = tally_for(result.locations, unit);
        ++tally.units;
        tally.energy = tally.energy + unit.energy;
        result.total = result.total + unit.energy;
    }
    for (LocationTally& tally : result.locations) {
        if (const auto limit = location_limit(input.code, tally.place))
            result.verdicts.push_back(location_check(desk, *limit, tally));
    }
    if (input.reading == TallyReading::whole_dwelling) {
        if (const auto check = dwelling_check(desk, input, result.total))
            result.verdicts.push_back(*check);
    }
    for (const StorageUnit& unit : input.units) {
        const RuleVerdicts of_unit = unit_verdicts(desk, input, unit);
        result.verdicts.insert(result.verdicts.end(), of_unit.begin(), of_unit.end());
    }
    result.not_stated = missing_distances(input);
    result.passes = all_pass(result.verdicts);
    return result;
}

RuleVerdicts judge_fire_area(const Desk& desk, const FireAreaInput& input) {
    RuleVerdicts verdicts;
    const auto energy = [&](std::string_view key, std::string_view rule_id, std::string title,
                            WattHours value) {
        const Limit limit = find_limit(input.code, "fire", key).value(); // all of them have both
        verdicts.push_back(check_by(
            desk, {"fire_" + std::string(key), std::move(title), std::string(rule_id), limit.cite},
            given("E_" + std::string(key), value, "energy there"), "≤",
            constant(WattHours{watt_hours_per_kilowatt_hour * limit.value})));
    };
    const auto distance = [&](std::string_view key, std::string_view rule_id, std::string title,
                              const std::optional<Feet>& value) {
        const auto limit = find_limit(input.code, "fire", key);
        if (limit && value) {
            verdicts.push_back(check_by(
                desk,
                {"fire_" + std::string(key), std::move(title), std::string(rule_id), limit->cite},
                given("d", *value, "distance, as stated"), "≥", constant(Feet{limit->value})));
        }
    };
    if (!input.outdoors)
        energy("total", "storage.siting.total", "Storage of the fire area", input.total);
    energy("group", "storage.siting.group", "Storage of a group", input.largest_group);
    distance("group_spacing", "storage.siting.group", "Distance between groups",
             input.between_groups);
    if (input.outdoors) {
        distance("exposure", "storage.siting.exposure", "Distance from exposures",
                 input.to_exposure);
    }
    return verdicts;
}

} // namespace ohmfolio
