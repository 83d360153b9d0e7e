#include "code/load_terms.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "code/line.h"

namespace ohmfolio {

namespace {

/// What arithmetic may add to or take from an exact half.
constexpr double rounding_error = 1e-9;

} // namespace

Heading MethodDesk::line(std::string_view what, std::string symbol, std::string title,
                         std::string_view rule_id) const {
    Heading heading = line_for(desk, name + "_" + std::string(what), std::move(symbol),
                               std::move(title), desk.book.cite(rule_id));
    heading.as = ShownAs::apparent_power;
    return heading;
}

Term<Watts> volt_amperes(double value) {
    return {Watts{value}, shown_va(Watts{value}), shown_va(Watts{value}), Binding::atom, {}};
}

Term<Watts> nameplate_load(std::string_view name, Watts value) {
    std::string symbol = "S_" + std::string(name);
    std::replace(symbol.begin(), symbol.end(), ' ', '.');
    return given_va(std::move(symbol), value, std::string(name) + ", nameplate");
}

Term<Watts> sum_of(const std::vector<Term<Watts>>& loads) {
    if (loads.empty())
        return volt_amperes(0);
    Term<Watts> sum = loads.front();
    for (std::size_t i = 1; i < loads.size(); ++i)
        sum = sum + loads[i];
    return sum;
}

Term<Watts> banded(const Term<Watts>& total, const std::vector<DemandBand>& bands) {
    Term<Watts> sum;
    double from = 0;
    for (const DemandBand& band : bands) {
        const bool last = !band.through || total.value <= *band.through;
        const Term<Watts> upper = last ? total : volt_amperes(band.through->value);
        const Term<Watts> within = from == 0 ? upper : upper - volt_amperes(from);
        const Term<Watts> part = band.share == 1 ? within : factor(band.share) * within;
        sum = from == 0 ? part : sum + part;
        if (last)
            return sum;
        from = band.through->value;
    }
    throw std::logic_error("the last band of a demand table must have no end");
}

Term<Watts> floor_load(const MethodDesk& method, SquareFeet floor) {
    const auto unit = constant(WattsPerSquareFoot{method.number("load.floor")});
    return method.desk.sheet.define(method.line("floor", "S_floor",
                                                "General lighting and receptacles, by floor area",
                                                "load.floor"),
                                    unit * given("A", floor, "floor area"));
}

Term<Watts> circuit_load(const MethodDesk& method, int small_appliance, int laundry) {
    const auto circuits =
        given("N_small", Ratio{static_cast<double>(small_appliance)}, "small-appliance circuits") +
        given("N_laundry", Ratio{static_cast<double>(laundry)}, "laundry circuits");
    return method.desk.sheet.define(method.line("circuits", "S_circuits",
                                                "Small-appliance and laundry circuits",
                                                "load.circuits"),
                                    volt_amperes(method.number("load.circuit")) * circuits);
}

namespace {

/// Fractions under one half are dropped, which 220.5(B) permits and its examples do.
Term<Amps> whole_amperes(const MethodDesk& method, const Term<Watts>& total,
                         const ServiceInput& service) {
    const auto volts = given("V", service.voltage, "voltage of the service");
    const auto exact = service.three_phase ? total / (root_three() * volts) : total / volts;
    Heading heading = method.line("amps", "I_load", "Calculated load", "load.fraction");
    heading.rounding = "to the whole ampere";
    return method.desk.sheet.define_rounded(
        heading, exact, Amps{std::floor(exact.value.value + 0.5 + rounding_error)});
}

Term<Amps> least_rating(const MethodDesk& method, const Term<Amps>& amps,
                        const ServiceInput& service) {
    if (!service.one_family)
        return amps;
    return method.desk.sheet.define(
        method.line("least", "I_least", "Least rating of the service", "load.service.least"),
        larger(amps, constant(Amps{method.number("load.service.least")})));
}

void check_service(const MethodDesk& method, const ServiceInput& service, LoadResult& result) {
    Worksheet& sheet = method.desk.sheet;
    if (!service.rating) {
        result.reason = "the rating of the service is not stated";
        return;
    }
    const bool governed = result.amps.value < result.least.value;
    result.passes = sheet.check(method.line("service", "", "Service carries the calculated load",
                                            governed ? "load.service.least" : "load.service"),
                                *service.rating, "≥", result.least);
    result.reason = sheet.all().back().comparison;
}

} // namespace

LoadResult conclude(const MethodDesk& method, const Term<Watts>& total,
                    const ServiceInput& service) {
    LoadResult result;
    result.load = total;
    result.amps = whole_amperes(method, total, service);
    result.least = least_rating(method, result.amps, service);
    result.standard_rating = method.desk.book.standard_rating_up(result.least.value);
    check_service(method, service, result);
    return result;
}

} // namespace ohmfolio
