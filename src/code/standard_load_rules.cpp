#include "code/standard_load_rules.h"

#include <algorithm>

#include "code/load_terms.h"

namespace ohmfolio {

namespace {

MethodDesk standard(const Desk& desk) { return {desk, "standard"}; }

Term<Watts> each_of(int units, const Term<Watts>& of_one) {
    return units == 1
               ? of_one
               : given("N_units", Ratio{static_cast<double>(units)}, "dwelling units") * of_one;
}

} // namespace

Term<Watts> lighting_demand(const Desk& desk, const StandardInput& input) {
    const MethodDesk method = standard(desk);
    const auto floor = floor_load(method, input.floor);
    const auto circuits =
        circuit_load(method, input.small_appliance_circuits, input.laundry_circuits);
    const auto whole = desk.sheet.define(method.line("lighting", "S_whole",
                                                     "Lighting, small-appliance and laundry loads",
                                                     "load.lighting"),
                                         each_of(input.dwelling_units, floor + circuits));
    Heading heading =
        method.line("lighting_demand", "S_light",
                    "Lighting, small-appliance and laundry loads at their demand", "load.lighting");
    heading.source = desk.book.table_name("general_lighting");
    return desk.sheet.define(heading, banded(whole, lighting_bands(desk.book)));
}

Term<Watts> appliance_demand(const Desk& desk, const std::vector<Term<Watts>>& appliances) {
    const MethodDesk method = standard(desk);
    const double least = method.number("load.appliances.least");
    std::vector<Term<Watts>> counted, small;
    for (const Term<Watts>& one : appliances)
        (one.value.value >= least ? counted : small).push_back(one);
    const bool many =
        static_cast<double>(counted.size()) >= method.number("load.appliances.number");
    Term<Watts> load = sum_of(appliances);
    if (many) {
        load = factor(method.number("load.appliances")) * sum_of(counted);
        if (!small.empty())
            load = load + sum_of(small);
    }
    Heading heading =
        method.line("appliances", "S_appl", "Appliances fastened in place", "load.appliances");
    heading.governs = many ? "four or more appliances" : "fewer than four appliances";
    return desk.sheet.define(heading, load);
}

Term<Watts> dryer_demand(const Desk& desk, const std::vector<Term<Watts>>& dryers) {
    const MethodDesk method = standard(desk);
    const auto least = volt_amperes(method.number("load.dryer.least"));
    std::vector<Term<Watts>> counted;
    for (const Term<Watts>& one : dryers)
        counted.push_back(one.value < least.value ? larger(one, least) : one);
    const double share = dryer_share(desk.book, static_cast<int>(dryers.size()));
    const auto whole = sum_of(counted);
    Heading heading = method.line("dryers", "S_dry", "Clothes dryers", "load.dryers");
    heading.source = desk.book.table_name("dryer_demand") + ", " + shown_percent(Ratio{share}) +
                     " for " + std::to_string(dryers.size());
    return desk.sheet.define(heading, share == 1 ? whole : factor(share) * whole);
}

namespace {

/// A load that the climate may bring, and the largest motor that then runs.
struct ClimateCase {
    Term<Watts> load;
    std::optional<Term<Watts>> motor;
};

std::optional<Term<Watts>> larger_motor(const std::optional<Term<Watts>>& a,
                                        const std::optional<Term<Watts>>& b) {
    if (!a || !b)
        return a ? a : b;
    return std::ranges::max(*a, *b, {}, &Term<Watts>::value);
}

Term<Watts> with_motor(const ClimateCase& one, double share) {
    return one.motor ? one.load + factor(share) * *one.motor : one.load;
}

Term<Watts> climate_line(const Desk& desk, std::string_view what, std::string symbol,
                         std::string title, const ClimateCase& one) {
    const MethodDesk method = standard(desk);
    return desk.sheet.define(method.line(what, std::move(symbol), std::move(title), "load.motor"),
                             with_motor(one, method.number("load.motor")));
}

} // namespace

std::optional<Term<Watts>> climate_demand(const Desk& desk, const StandardInput& input) {
    const MethodDesk method = standard(desk);
    if (!input.heating && !input.cooling) {
        if (!input.largest_motor)
            return std::nullopt;
        return desk.sheet.define(
            method.line("motor", "S_motor", "25 % of the largest motor", "load.motor"),
            factor(method.number("load.motor")) * *input.largest_motor);
    }
    // Of what does not run together, each case is worked out with the motor that then is largest.
    const ClimateCase heating{input.heating.value_or(volt_amperes(0)), input.largest_motor};
    const ClimateCase cooling{input.cooling.value_or(volt_amperes(0)),
                              larger_motor(input.cooling, input.largest_motor)};
    const auto heat =
        climate_line(desk, "heating", "S_heat.case", "Heating and largest motor", heating);
    const auto cool =
        climate_line(desk, "cooling", "S_cool.case", "Cooling and largest motor", cooling);
    const double compared = method.number("load.noncoincident.motor");
    const bool cooling_counts =
        with_motor(heating, compared).value < with_motor(cooling, compared).value;
    Heading heading = method.line("climate", "S_climate", "Heating or cooling, with largest motor",
                                  "load.noncoincident");
    heading.governs = cooling_counts ? "cooling is larger" : "heating is larger";
    return desk.sheet.define(heading, cooling_counts ? cool : heat);
}

LoadResult standard_dwelling_load(const Desk& desk, const StandardInput& input,
                                  const ServiceInput& service) {
    std::vector<Term<Watts>> parts = {lighting_demand(desk, input)};
    if (!input.appliances.empty())
        parts.push_back(appliance_demand(desk, input.appliances));
    if (!input.dryers.empty())
        parts.push_back(dryer_demand(desk, input.dryers));
    if (!input.cooking.empty())
        parts.push_back(cooking_demand(desk, input.cooking));
    if (const auto climate = climate_demand(desk, input))
        parts.push_back(*climate);
    parts.insert(parts.end(), input.vehicles.begin(), input.vehicles.end());
    parts.insert(parts.end(), input.others.begin(), input.others.end());
    const MethodDesk method = standard(desk);
    return conclude(
        method,
        desk.sheet.define(method.line("load", "S_load", "Calculated load", "load.service"),
                          sum_of(parts)),
        service);
}

NeutralLoad neutral_load(const Desk& desk, const NeutralInput& input) {
    const MethodDesk method{desk, "neutral"};
    const double share = method.number("load.neutral");
    Term<Watts> sum = input.lighting;
    for (const auto* part : {&input.cooking, &input.drying}) {
        if (*part)
            sum = sum + factor(share) * **part;
    }
    if (!input.others.empty())
        sum = sum + sum_of(input.others);
    NeutralLoad result;
    result.load = desk.sheet.define(
        method.line("load", "S_N", "Largest unbalanced load", "load.neutral"), sum);
    result.amps =
        desk.sheet.define(method.line("amps", "I_unbal", "Load of the neutral", "load.neutral"),
                          result.load / given("V", input.voltage, "voltage"));
    const Amps beyond{method.number("load.neutral.limit")};
    if (beyond < result.amps.value) {
        result.amps = desk.sheet.define(
            method.line("beyond", "I_N", "Load of the neutral, its part beyond 200 A at its share",
                        "load.neutral.beyond"),
            constant(beyond) + factor(share) * (result.amps - constant(beyond)));
    }
    return result;
}

} // namespace ohmfolio
