// Raceway fill: Chapter 9 Tables 1, 4 and 5.
#include "code/raceway_rules.h"
#include "code/line.h"

namespace ohmfolio {

namespace {

int count_of(const RacewayInput& input) {
    int count = 0;
    for (const FillConductor& conductor : input.conductors)
        count += conductor.count;
    return count;
}

/// Sum of count × area, each area read from its table. Nothing when a table lacks one.
std::optional<Term<SquareInches>> state_conductor_area(const Desk& desk,
                                                       const RacewayInput& input) {
    std::optional<Term<SquareInches>> sum;
    int number = 0;
    for (const FillConductor& conductor : input.conductors) {
        const auto area = desk.book.conductor_area(conductor.size, conductor.insulation);
        if (!area)
            return std::nullopt;
        const std::string index = std::to_string(++number);
        const bool bare = conductor.insulation == Insulation::bare;
        const std::string_view table = bare ? "conductor_properties" : "conductor_dimensions";
        Heading line = line_for(desk, "area_" + index, "A_" + index, "Area of one conductor",
                                desk.book.cite_table(table));
        line.source = desk.book.table_name(table) + ", " + name(conductor.size) + " " +
                      std::string(name(conductor.insulation));
        const auto one = desk.sheet.state(line, *area);
        const auto all = factor(conductor.count) * one;
        sum = sum ? *sum + all : all;
    }
    return sum;
}

struct Share {
    Term<Ratio> term;
    std::string rule;
};

Share state_share(const Desk& desk, const RacewayInput& input) {
    const int count = count_of(input);
    const bool nipple = input.length > Feet{} && input.length <= desk.book.nipple_length();
    const std::string rule = nipple ? "raceway.nipple" : "raceway.fill";
    Heading line =
        line_for(desk, "fill_limit", "f", "Share that may be filled", desk.book.cite(rule));
    line.source = desk.book.table_name("raceway_fill") + ", " +
                  (nipple ? std::string("nipple not over 24 in")
                          : std::to_string(count) + (count == 1 ? " conductor" : " conductors"));
    line.as = ShownAs::percent;
    return {desk.sheet.state(line, Ratio{desk.book.fill_limit(count, nipple)}), rule};
}

/// Writes the calculation for one trade size, as for conductor sizes.
RacewayResult try_trade_size(const Desk& desk, const RacewayInput& input, TradeSize size) {
    RacewayResult result;
    result.size = size;
    const auto area = state_conductor_area(desk, input);
    const auto inside = desk.book.raceway_area(input.kind, size);
    if (!area || !inside) {
        result.passes = false;
        return result;
    }
    const auto wires =
        desk.sheet.define(line_for(desk, "conductor_area", "A_wires", "Area of all conductors",
                                   desk.book.cite("raceway.fill")),
                          *area);
    const Share share = state_share(desk, input);
    Heading line = line_for(desk, "inside_area", "A_inside", "Inside area of the raceway",
                            desk.book.cite_table("raceways"));
    line.source = desk.book.table_name("raceways") + ", " + std::string(name(input.kind)) + " " +
                  std::string(name(size)) + " in";
    const auto inside_term = desk.sheet.state(line, *inside);
    const auto allowed =
        desk.sheet.define(line_for(desk, "allowed_area", "A_max", "Area that may be filled",
                                   desk.book.cite(share.rule)),
                          share.term * inside_term);
    line = line_for(desk, "fill", "F", "Share that is filled", desk.book.cite(share.rule));
    line.as = ShownAs::percent;
    const auto fill = desk.sheet.define(line, wires / inside_term);
    result.passes = desk.sheet.check(
        line_for(desk, "fill_check", "", "Conductors fit the raceway", desk.book.cite(share.rule)),
        wires, "≤", allowed);
    result.found = true;
    result.conductors = wires.value;
    result.allowed = allowed.value;
    result.inside = *inside;
    result.fill = fill.value.value;
    return result;
}

bool fits(const Desk& desk, const RacewayInput& input, TradeSize size) {
    Worksheet scratch;
    return try_trade_size(Desk{scratch, desk.book, desk.subject}, input, size).passes;
}

} // namespace

RacewayResult size_raceway(const Desk& desk, const RacewayInput& input) {
    const auto sizes = desk.book.listed_trade_sizes(input.kind);
    if (sizes.empty() || input.conductors.empty())
        return {.passes = false};
    std::optional<TradeSize> smallest;
    for (const TradeSize size : sizes) {
        if (fits(desk, input, size)) {
            smallest = size;
            break;
        }
    }
    // Where nothing fits, the largest size shows by how much it fails.
    const TradeSize size = input.stated.value_or(smallest.value_or(sizes.back()));
    RacewayResult result = try_trade_size(desk, input, size);
    result.found = result.found && (input.stated || smallest);
    const auto colon = desk.subject.find(':');
    const std::string governs = smallest && size != *smallest
                                    ? "stated; " + std::string(name(*smallest)) + " in would do"
                                    : "fill governs";
    desk.sheet.choose({.subject = desk.subject,
                       .name = "trade_size",
                       .title = "Raceway",
                       .cite = desk.book.cite("raceway.fill"),
                       .governs = governs},
                      std::string(name(size)) + " in " + std::string(name(input.kind)),
                      result.inside > SquareInches{}
                          ? std::vector{desk.subject.substr(colon + 1) + ".fill_check"}
                          : std::vector<std::string>{});
    return result;
}

} // namespace ohmfolio
