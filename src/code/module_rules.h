/// Modules in series and the input of their inverter (690.7, equipment limits).
#pragma once

#include <optional>
#include <string>

#include "code/desk.h"

namespace ohmfolio {

struct ColdVoltageInput {
    Volts voc;
    std::optional<double> per_celsius =
        {}; ///< fraction per C, negative; nothing: use Table 690.7(A)
    Celsius coldest;
    int in_series = 1;
};
/// Highest open-circuit voltage of modules in series, by coefficient or by table. Without a
/// coefficient the table must reach to `coldest`: ask `CodeBook::voltage_table_factor` first.
Term<Volts> cold_open_circuit_voltage(const Desk&, const ColdVoltageInput&);
/// How the line of a number of modules is named, where a string has several such lines.
struct SeriesLine {
    std::string line = "most_in_series";
    std::string symbol = "N_max";
    std::string title = "Most modules in series";
    std::string governs = {}; ///< "building limit governs"
};
/// Most modules in series whose voltage stays within `limit` (rounded down).
int most_in_series(const Desk&, const Term<Volts>& voltage_of_one, const Term<Volts>& limit,
                   const SeriesLine& = {});
int most_in_series(const Desk&, const Term<Volts>& cold_voltage_of_one, Volts limit);
/// Fewest modules in series whose hot voltage reaches `floor` (rounded up).
int fewest_in_series(const Desk&, const Term<Volts>& hot_voltage_of_one, const Term<Volts>& floor,
                     const std::string& governs = {});
int fewest_in_series(const Desk&, const Term<Volts>& hot_voltage_of_one, Volts floor);
/// Voltage at maximum power at a cell temperature.
Term<Volts> power_point_voltage(const Desk&, std::string name, Volts vmp, double per_celsius,
                                Celsius cell, std::string title);

} // namespace ohmfolio
