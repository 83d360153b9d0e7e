#include "code/dwelling_load_rules.h"

#include "code/load_terms.h"
#include "code/verdict_line.h"

namespace ohmfolio {

namespace {

LoadResult barred(std::string reason) {
    LoadResult result;
    result.applies = false;
    result.passes = false;
    result.reason = std::move(reason);
    return result;
}

Term<Watts> appliance_load(const MethodDesk& method, const GeneralLoads& general,
                           const std::vector<Term<Watts>>& further, std::string_view rule_id) {
    std::vector<Term<Watts>> loads = general.appliances;
    if (!general.vehicles_whole)
        loads.insert(loads.end(), general.vehicles.begin(), general.vehicles.end());
    loads.insert(loads.end(), further.begin(), further.end());
    return method.desk.sheet.define(
        method.line("appliances", "S_appl", "Appliances by nameplate", rule_id), sum_of(loads));
}

/// First so many volt-amperes whole, a share of the rest; `further` counts as an appliance.
Term<Watts> general_demand(const MethodDesk& method, const GeneralLoads& general,
                           const std::vector<Term<Watts>>& further, std::string_view rule_id,
                           std::string_view first_id, std::string_view share_id) {
    Worksheet& sheet = method.desk.sheet;
    const auto floor = floor_load(method, general.floor);
    const auto circuits =
        circuit_load(method, general.small_appliance_circuits, general.laundry_circuits);
    const auto appliances = appliance_load(method, general, further, rule_id);
    const auto whole = sheet.define(method.line("general", "S_general", "General loads", rule_id),
                                    floor + circuits + appliances);
    return sheet.define(method.line("demand", "S_demand", "General loads at their demand", rule_id),
                        banded(whole, {{Watts{method.number(first_id)}, 1},
                                       {std::nullopt, method.number(share_id)}}));
}

/// One of the ways in which heating and cooling may load the service; a line each.
void add_way(const MethodDesk& method, std::vector<Term<Watts>>& ways, std::string_view name,
             std::string symbol, std::string title, std::string_view rule_id,
             const Term<Watts>& load) {
    ways.push_back(method.desk.sheet.define(
        method.line(name, std::move(symbol), std::move(title), rule_id), load));
}

Term<Watts> with_supplemental(const MethodDesk& method, const ClimateLoads& climate) {
    const auto heat =
        factor(method.number("load.optional.supplemental")) * *climate.supplemental_heat;
    return climate.heat_pump && !climate.compressor_locked_out ? *climate.heat_pump + heat : heat;
}

bool many_units(const MethodDesk& method, const ClimateLoads& climate) {
    return climate.space_heating_units >= method.number("load.optional.space_number");
}

Term<Watts> space_heating(const MethodDesk& method, const ClimateLoads& climate) {
    const bool many = many_units(method, climate);
    return factor(method.number(many ? "load.optional.space_many" : "load.optional.space_few")) *
           *climate.space_heating;
}

/// The largest of the ways; nothing where there is neither heating nor cooling.
std::optional<Term<Watts>> largest(const MethodDesk& method, const std::vector<Term<Watts>>& ways,
                                   std::string_view rule_id) {
    if (ways.empty())
        return std::nullopt;
    Term<Watts> most = ways.front();
    for (std::size_t i = 1; i < ways.size(); ++i)
        most = larger(most, ways[i]);
    return method.desk.sheet.define(
        method.line("climate", "S_climate", "Heating and cooling, the largest way", rule_id), most);
}

/// 220.82(C): the six ways, each at its own share.
std::optional<Term<Watts>> optional_climate(const MethodDesk& method, const ClimateLoads& climate) {
    constexpr std::string_view rule_id = "load.optional.climate";
    std::vector<Term<Watts>> ways;
    if (climate.cooling)
        add_way(method, ways, "cooling", "S_cool", "Cooling", rule_id, *climate.cooling);
    if (climate.heat_pump && (!climate.supplemental_heat || climate.compressor_locked_out))
        add_way(method, ways, "heat_pump", "S_hp", "Heat pump", rule_id, *climate.heat_pump);
    if (climate.supplemental_heat) {
        add_way(method, ways, "supplemental", "S_hp.sup", "Heat pump with supplemental heat",
                rule_id, with_supplemental(method, climate));
    }
    if (climate.space_heating) {
        add_way(method, ways, "space", "S_space", "Electric space heating", rule_id,
                space_heating(method, climate));
    }
    if (climate.thermal_storage) {
        add_way(method, ways, "storage_heat", "S_store", "Thermal storage heating", rule_id,
                *climate.thermal_storage);
    }
    return largest(method, ways, rule_id);
}

Term<Watts> whole_vehicles(const GeneralLoads& general, const Term<Watts>& total) {
    return general.vehicles_whole && !general.vehicles.empty() ? total + sum_of(general.vehicles)
                                                               : total;
}

LoadResult total_load(const MethodDesk& method, const Term<Watts>& demand,
                      const std::optional<Term<Watts>>& climate, const GeneralLoads& general,
                      std::string_view rule_id, const ServiceInput& service) {
    const auto together = climate ? demand + *climate : demand;
    return conclude(
        method,
        method.desk.sheet.define(method.line("load", "S_load", "Calculated load", rule_id),
                                 whole_vehicles(general, together)),
        service);
}

} // namespace

LoadResult optional_dwelling_load(const Desk& desk, const OptionalInput& input,
                                  const ServiceInput& service) {
    if (!input.one_dwelling_unit)
        return barred("the optional method is for one dwelling unit");
    if (!input.three_wire)
        return barred("the optional method is for a 3-wire service of 120/240 V or 208Y/120 V");
    const MethodDesk method{desk, "optional"};
    if (service.rating) {
        const RuleVerdict large =
            check_by(desk,
                     {"optional_ampacity", "Service is large enough for the optional method",
                      "load.optional.conditions"},
                     *service.rating, "≥", constant(Amps{method.number("load.optional.ampacity")}));
        if (!large.passes)
            return barred("the optional method is for 100 A or more: " + large.statement);
    }
    const auto demand = general_demand(method, input.general, {}, "load.optional",
                                       "load.optional.first", "load.optional.share");
    const auto climate = optional_climate(method, input.climate);
    return total_load(method, demand, climate, input.general, "load.optional", service);
}

namespace {

/// Heating as it stands on the nameplates: of 220.83 no part is left out, nothing runs at a share.
std::optional<Term<Watts>> heating_whole(const ClimateLoads& climate, bool space_too) {
    std::vector<Term<Watts>> ways;
    if (climate.heat_pump)
        ways.push_back(*climate.heat_pump);
    if (climate.supplemental_heat && climate.compressor_locked_out && climate.heat_pump) {
        ways.back() = larger(ways.back(), *climate.supplemental_heat);
    } else if (climate.supplemental_heat) {
        ways.push_back(*climate.supplemental_heat);
    }
    if (climate.space_heating && space_too)
        ways.push_back(*climate.space_heating);
    if (climate.thermal_storage)
        ways.push_back(*climate.thermal_storage);
    return ways.empty() ? std::nullopt : std::optional(sum_of(ways));
}

/// The larger of heating and cooling, never both.
std::optional<Term<Watts>> existing_climate(const MethodDesk& method, const ClimateLoads& climate,
                                            bool space_too, std::string_view rule_id) {
    std::vector<Term<Watts>> ways;
    if (climate.cooling)
        add_way(method, ways, "cooling", "S_cool", "Cooling", rule_id, *climate.cooling);
    if (const auto heating = heating_whole(climate, space_too))
        add_way(method, ways, "heating", "S_heat", "Heating", rule_id, *heating);
    return largest(method, ways, rule_id);
}

} // namespace

LoadResult existing_dwelling_load(const Desk& desk, const ExistingInput& input,
                                  const ServiceInput& service) {
    if (!input.three_wire)
        return barred("the method is for a 3-wire service of 120/240 V or 208Y/120 V");
    const MethodDesk method{desk, "existing"};
    const std::string rule_id = input.climate_added ? "load.existing.climate" : "load.existing";
    // (B) names space heating with fewer than four units; more units stay among the other loads.
    const bool apart = input.climate_added && many_units(method, input.climate);
    const auto climate = existing_climate(method, input.climate, !apart, rule_id);
    std::vector<Term<Watts>> further;
    if (climate && !input.climate_added)
        further.push_back(*climate);
    if (apart && input.climate.space_heating)
        further.push_back(*input.climate.space_heating);
    const auto demand = general_demand(method, input.general, further, rule_id,
                                       "load.existing.first", "load.existing.share");
    return total_load(method, demand, input.climate_added ? climate : std::nullopt, input.general,
                      rule_id, service);
}

} // namespace ohmfolio
