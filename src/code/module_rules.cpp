// Modules in series: cold and hot voltage, and how many an input takes.
#include <cmath>
#include <stdexcept>

#include "code/module_rules.h"

namespace ohmfolio {

namespace {

/// A quotient that misses a whole number by less is that number.
constexpr double whole_number_error = 1e-9;

Term<Celsius> reference_temperature(const Desk& desk) {
    return constant(Celsius{desk.book.number("module.reference_temperature")});
}

/// 1 + β × (T − 25 °C).
Term<Ratio> temperature_share(const Desk& desk, const Term<PerCelsius>& coefficient,
                              const Term<Celsius>& cell) {
    return factor(1) + coefficient * (cell - reference_temperature(desk));
}

/// A value of the module's nameplate; its line is written once.
template <class Q>
Term<Q> from_module(const Desk& desk, const std::string& name, const std::string& symbol,
                    const std::string& title, Q value) {
    return desk.sheet.state_once({.subject = desk.subject,
                                  .name = name,
                                  .symbol = symbol,
                                  .title = title,
                                  .cite = {{}, "equipment nameplate"},
                                  .source = "module nameplate"},
                                 value);
}

Term<Volts> open_circuit_voltage(const Desk& desk, Volts voc) {
    return from_module(desk, "voc", "V_oc", "Open-circuit voltage of one module", voc);
}

/// Of the cells: before sunrise that of the air.
Term<Celsius> coldest_cell(const Desk& desk, Celsius coldest) {
    return desk.sheet.state_once({.subject = "site:climate",
                                  .name = "coldest",
                                  .symbol = "T_cold",
                                  .title = "Lowest expected temperature",
                                  .cite = desk.book.cite("pv.voltage.coefficient")},
                                 coldest);
}

Term<Celsius> hottest_cell(const Desk& desk, Celsius hottest) {
    return desk.sheet.state_once({.subject = "site:climate",
                                  .name = "hot_cell",
                                  .symbol = "T_cell.hot",
                                  .title = "Hottest cell temperature",
                                  .cite = {{}, "common practice"}},
                                 hottest);
}

Term<Volts> in_series(const Desk& desk, int count, const Term<Volts>& of_one) {
    if (count == 1)
        return of_one;
    return desk.sheet.state_once({.subject = desk.subject,
                                  .name = "in_series",
                                  .symbol = "N",
                                  .title = "Modules in series"},
                                 Ratio{static_cast<double>(count)}) *
           of_one;
}

Term<Volts> cold_voltage_by_table(const Desk& desk, const ColdVoltageInput& input,
                                  const Heading& heading) {
    const auto found = desk.book.voltage_table_factor(input.coldest);
    if (!found) {
        throw std::logic_error(
            "Table 690.7(A) ends above this temperature: ask for the coefficient");
    }
    const auto share = desk.sheet.state(
        {.subject = desk.subject,
         .name = "voltage_correction",
         .symbol = "C_V",
         .title = "Voltage correction factor",
         .cite = desk.book.cite("pv.voltage.table"),
         .source = desk.book.table_name("voltage_correction") + " at " + shown(input.coldest)},
        Ratio{*found});
    return desk.sheet.define(
        heading, in_series(desk, input.in_series, open_circuit_voltage(desk, input.voc)) * share);
}

} // namespace

Term<Volts> cold_open_circuit_voltage(const Desk& desk, const ColdVoltageInput& input) {
    Heading heading{.subject = desk.subject,
                    .name = "cold_open_circuit_voltage",
                    .symbol = "V_oc.cold",
                    .title = "Highest open-circuit voltage, at " + shown(input.coldest)};
    if (!input.per_celsius) {
        heading.cite = desk.book.cite("pv.voltage.table");
        return cold_voltage_by_table(desk, input, heading);
    }
    heading.cite = desk.book.cite("pv.voltage.coefficient");
    const auto coefficient = from_module(desk, "voc_coefficient", "β",
                                         "Temperature coefficient of the open-circuit voltage",
                                         PerCelsius{*input.per_celsius});
    const auto warm = in_series(desk, input.in_series, open_circuit_voltage(desk, input.voc));
    return desk.sheet.define(
        heading, warm * temperature_share(desk, coefficient, coldest_cell(desk, input.coldest)));
}

Term<Volts> power_point_voltage(const Desk& desk, std::string name, Volts vmp, double per_celsius,
                                Celsius cell, std::string title) {
    const bool cold = cell.value < desk.book.number("module.reference_temperature");
    const auto rated =
        from_module(desk, "vmp", "V_mp", "Voltage of one module at maximum power", vmp);
    const auto coefficient = from_module(desk, "vmp_coefficient", "β_mp",
                                         "Temperature coefficient of the voltage at maximum power",
                                         PerCelsius{per_celsius});
    return desk.sheet.define(
        {.subject = desk.subject,
         .name = std::move(name),
         .symbol = cold ? "V_mp.cold" : "V_mp.hot",
         .title = std::move(title),
         .cite = {{}, "equipment nameplate"}},
        rated * temperature_share(desk, coefficient,
                                  cold ? coldest_cell(desk, cell) : hottest_cell(desk, cell)));
}

int most_in_series(const Desk& desk, const Term<Volts>& voltage_of_one, const Term<Volts>& limit,
                   const SeriesLine& line) {
    const auto quotient = limit / voltage_of_one;
    const double count = std::floor(quotient.value.value + whole_number_error);
    desk.sheet.define_rounded({.subject = desk.subject,
                               .name = line.line,
                               .symbol = line.symbol,
                               .title = line.title,
                               .cite = desk.book.cite("module.series"),
                               .rounding = "rounded down so that the limit holds",
                               .governs = line.governs},
                              quotient, Ratio{count});
    return static_cast<int>(count);
}

int most_in_series(const Desk& desk, const Term<Volts>& cold_voltage_of_one, Volts limit) {
    return most_in_series(desk, cold_voltage_of_one, given("V_limit", limit));
}

int fewest_in_series(const Desk& desk, const Term<Volts>& hot_voltage_of_one,
                     const Term<Volts>& floor, const std::string& governs) {
    const auto quotient = floor / hot_voltage_of_one;
    const double count = std::ceil(quotient.value.value - whole_number_error);
    desk.sheet.define_rounded({.subject = desk.subject,
                               .name = "fewest_in_series",
                               .symbol = "N_min",
                               .title = "Fewest modules in series",
                               .cite = desk.book.cite("module.series"),
                               .rounding = "rounded up so that the window is reached",
                               .governs = governs},
                              quotient, Ratio{count});
    return static_cast<int>(count);
}

int fewest_in_series(const Desk& desk, const Term<Volts>& hot_voltage_of_one, Volts floor) {
    return fewest_in_series(desk, hot_voltage_of_one, given("V_floor", floor));
}

} // namespace ohmfolio
