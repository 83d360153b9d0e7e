#include "code/demand_tables.h"

#include "code/tables.h"

namespace ohmfolio {

namespace {

constexpr double watts_per_kilowatt = 1000;

std::vector<TableRow> rows_of(const CodeBook& book, std::string_view table) {
    return code_tables().file(table).in_force(book.edition(), "rows").rows("rows");
}

/// The first row that reaches to `count`.
TableRow row_for(const CodeBook& book, std::string_view table, int count) {
    return code_tables().file(table).row_reaching(book.edition(), count);
}

} // namespace

std::vector<DemandBand> lighting_bands(const CodeBook& book) {
    std::vector<DemandBand> bands;
    for (const TableRow& row : rows_of(book, "general_lighting")) {
        const auto through = row.number_if_any("through");
        bands.push_back(
            {through ? std::optional(Watts{*through}) : std::nullopt, row.number("share")});
    }
    return bands;
}

double dryer_share(const CodeBook& book, int dryers) {
    const TableRow row = row_for(book, "dryer_demand", dryers);
    const double share = row.number("share");
    return row.has("less") ? share - row.number("less") * (dryers - row.number("beyond")) : share;
}

CookingRow cooking_row(const CodeBook& book, int appliances) {
    const TableRow row = row_for(book, "range_demand", appliances);
    const double kilowatts = row.number("c") + row.number_if_any("each").value_or(0) * appliances;
    return {row.number("a"), row.number("b"), Watts{watts_per_kilowatt * kilowatts}};
}

std::optional<Watts> locked_rotor_per_horsepower(const CodeBook& book, const std::string& letter) {
    for (const TableRow& row : rows_of(book, "code_letters")) {
        if (row.text("letter") == letter)
            return Watts{watts_per_kilowatt * row.number("through")};
    }
    return std::nullopt;
}

} // namespace ohmfolio
