// Household cooking appliances: Table 220.55 and its notes.
#include <algorithm>
#include <cmath>

#include "code/load_terms.h"
#include "code/standard_load_rules.h"

namespace ohmfolio {

namespace {

constexpr double watts_per_kilowatt = 1000;
/// What arithmetic may take from an exact half.
constexpr double rounding_error = 1e-9;

using Loads = std::vector<Term<Watts>>;

/// The appliances by the columns in which they may stand.
struct Sorted {
    Loads uncounted; ///< too small or too large for the table: the nameplate counts
    Loads column_a, column_b, column_c;
    Loads all_of_table() const {
        Loads all = column_a;
        all.insert(all.end(), column_b.begin(), column_b.end());
        all.insert(all.end(), column_c.begin(), column_c.end());
        return all;
    }
};

Sorted sorted(const MethodDesk& method, const Loads& appliances) {
    Sorted result;
    for (const Term<Watts>& one : appliances) {
        const double value = one.value.value;
        if (value <= method.number("load.cooking.least") ||
            value > method.number("load.cooking.largest")) {
            result.uncounted.push_back(one);
        } else if (value < method.number("load.cooking.column_b")) {
            result.column_a.push_back(one);
        } else if (value <= method.number("load.cooking.column_c")) {
            result.column_b.push_back(one);
        } else {
            result.column_c.push_back(one);
        }
    }
    return result;
}

std::string row_source(const MethodDesk& method, std::string_view column, std::size_t count) {
    return method.desk.book.table_name("range_demand") + ", column " + std::string(column) + ", " +
           std::to_string(count) + (count == 1 ? " appliance" : " appliances");
}

/// Whole kilowatts by which the average rating exceeds 12 kW, a major fraction counting as one; a
/// smaller range counts as 12 kW (notes 1 and 2).
std::optional<Term<Ratio>> kilowatts_above(const MethodDesk& method, const std::string& name,
                                           const Loads& ranges) {
    const auto basis = volt_amperes(method.number("load.cooking.basis"));
    Loads counted;
    for (const Term<Watts>& one : ranges)
        counted.push_back(std::ranges::max(one, basis, {}, &Term<Watts>::value));
    const auto sum = sum_of(counted);
    const auto average =
        ranges.size() == 1 ? sum : sum / factor(static_cast<double>(ranges.size()));
    if (average.value <= basis.value)
        return std::nullopt;
    Heading heading = method.line(name + "_above", "n_kW", "Kilowatts above the basis of column C",
                                  "load.cooking");
    heading.rounding = "to whole kilowatts";
    const auto exact = (average - basis) / volt_amperes(watts_per_kilowatt);
    return method.desk.sheet.define_rounded(
        heading, exact, Ratio{std::floor(exact.value.value + 0.5 + rounding_error)});
}

/// `name` begins the lines, `which` ends the symbols: "all", "rest".
Term<Watts> column_c(const MethodDesk& method, const std::string& name, const std::string& which,
                     const Loads& ranges) {
    const auto count = static_cast<int>(ranges.size());
    Heading heading =
        method.line(name + "_table", "S_table." + which, "Demand by column C", "load.cooking");
    heading.source = row_source(method, "C", ranges.size());
    auto load = method.desk.sheet.state(heading, cooking_row(method.desk.book, count).column_c);
    if (const auto above = kilowatts_above(method, name, ranges)) {
        load = method.desk.sheet.define(
            method.line(name + "_raised", "S_C." + which, "Demand by column C, raised",
                        "load.cooking"),
            load * (factor(1) + factor(method.number("load.cooking.increase")) * *above));
    }
    return load;
}

void add_share(const MethodDesk& method, Loads& parts, const Loads& column, std::string_view letter,
               double CookingRow::*share) {
    if (column.empty())
        return;
    const auto count = static_cast<int>(column.size());
    Heading heading = method.line("cooking_" + std::string(letter), "S_" + std::string(letter),
                                  "Demand by column " + std::string(letter), "load.cooking");
    heading.source = row_source(method, letter, column.size());
    parts.push_back(method.desk.sheet.define(
        heading, factor(cooking_row(method.desk.book, count).*share) * sum_of(column)));
}

/// Note 3: the small ones by columns A and B, the others by column C.
Term<Watts> by_own_columns(const MethodDesk& method, const Sorted& appliances) {
    Loads parts;
    add_share(method, parts, appliances.column_a, "A", &CookingRow::share_a);
    add_share(method, parts, appliances.column_b, "B", &CookingRow::share_b);
    if (!appliances.column_c.empty())
        parts.push_back(column_c(method, "cooking_rest", "rest", appliances.column_c));
    return sum_of(parts);
}

Term<Watts> demand(const MethodDesk& method, const Loads& appliances) {
    const Sorted columns = sorted(method, appliances);
    Loads parts;
    if (const Loads all = columns.all_of_table(); !all.empty()) {
        const bool small = !columns.column_a.empty() || !columns.column_b.empty();
        const auto together = column_c(method, "cooking", "all", all);
        parts.push_back(small ? lesser(together, by_own_columns(method, columns)) : together);
    }
    if (!columns.uncounted.empty())
        parts.push_back(sum_of(columns.uncounted));
    return method.desk.sheet.define(
        method.line("cooking_demand", "S_cook", "Cooking appliances", "load.cooking"),
        sum_of(parts));
}

} // namespace

Term<Watts> cooking_demand(const Desk& desk, const std::vector<Term<Watts>>& appliances) {
    return demand({desk, "standard"}, appliances);
}

Term<Watts> cooking_circuit_load(const Desk& desk, CookingCircuit kind,
                                 const std::vector<Term<Watts>>& appliances) {
    const MethodDesk method{desk, "circuit"};
    switch (kind) {
    case CookingCircuit::range:
        return demand(method, appliances);
    case CookingCircuit::cooktop_with_ovens:
        return demand(method, {desk.sheet.define(method.line("cooking_sum", "S_one",
                                                             "Cooktop and ovens as one range",
                                                             "load.cooking.circuit"),
                                                 sum_of(appliances))});
    case CookingCircuit::single_unit:
        break;
    }
    return desk.sheet.define(
        method.line("cooking_single", "S_cook", "Oven or cooktop alone", "load.cooking.circuit"),
        sum_of(appliances));
}

} // namespace ohmfolio
