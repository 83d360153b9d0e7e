/// The tables that Articles 220 and 430 give for loads. Each says what holds in the edition of the
/// book; `book.cite_table("range_demand")` names the table.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "code/code_book.h"

namespace ohmfolio {

/// What lies below `through` counts at `share`; the last band has no end.
struct DemandBand {
    std::optional<Watts> through;
    double share = 1;
};
/// Lighting, small-appliance and laundry loads of dwellings (Table 220.42, from 2023 on 220.45).
std::vector<DemandBand> lighting_bands(const CodeBook&);

/// Share of the nameplates of so many clothes dryers (Table 220.54).
double dryer_share(const CodeBook&, int dryers);

/// Household cooking appliances (Table 220.55): columns A and B are shares of the nameplates,
/// column C is a load.
struct CookingRow {
    double share_a = 1, share_b = 1;
    Watts column_c;
};
CookingRow cooking_row(const CodeBook&, int appliances);

/// Volt-amperes for each horsepower with the rotor locked, the upper end of the code letter's range
/// (Table 430.7(B)); nothing: no such letter, or one whose range has no end.
std::optional<Watts> locked_rotor_per_horsepower(const CodeBook&, const std::string& letter);

} // namespace ohmfolio
