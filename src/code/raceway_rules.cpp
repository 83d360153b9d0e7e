// Raceway fill: Chapter 9 Tables 1, 4 and 5.
#include "code/raceway_rules.h"

#include <cmath>

#include "base/text.h"
#include "code/line.h"
#include "code/rounding.h"

namespace ohmfolio {

namespace {

const double quarter_pi = std::acos(-1.0) / 4;

int count_of(const RacewayInput& input) {
    int count = 0;
    for (const FillConductor& conductor : input.conductors)
        count += conductor.count;
    return count;
}

bool is_nipple(const CodeBook& book, const RacewayInput& input) {
    return input.length > Feet{} && input.length <= book.nipple_length();
}

std::optional<SquareInches> area_of(const CodeBook& book, const FillConductor& conductor) {
    if (conductor.outer_diameter > 0)
        return SquareInches{quarter_pi * conductor.outer_diameter * conductor.outer_diameter};
    if (conductor.cable)
        return std::nullopt;
    return book.conductor_area(conductor.size, conductor.insulation);
}

std::string called(const FillConductor& conductor) {
    return conductor.called.empty() ? std::string(name(conductor.insulation)) : conductor.called;
}

/// Where the area of one conductor comes from.
Heading area_line(const Desk& desk, const FillConductor& conductor, const std::string& index) {
    Heading line = line_for(desk, "area_" + index, "A_" + index,
                            conductor.cable ? "Area of one cable" : "Area of one conductor", {});
    if (conductor.outer_diameter > 0) {
        line.cite = desk.book.cite(conductor.cable ? "raceway.fill.cable" : "raceway.fill.stated");
        line.source = called(conductor) + ", outer diameter " +
                      trimmed(conductor.outer_diameter, 3) + " in: π ÷ 4 × d²";
        return line;
    }
    const bool bare = conductor.insulation == Insulation::bare;
    const std::string_view table = bare ? "conductor_properties" : "conductor_dimensions";
    line.cite = desk.book.cite_table(table);
    line.source =
        desk.book.table_name(table) + ", " + name(conductor.size) + " " + called(conductor);
    return line;
}

/// Sum of count × area, each area read from its table. Nothing when a table lacks one.
std::optional<Term<SquareInches>> state_conductor_area(const Desk& desk,
                                                       const RacewayInput& input) {
    std::optional<Term<SquareInches>> sum;
    int number = 0;
    for (const FillConductor& conductor : input.conductors) {
        const auto area = area_of(desk.book, conductor);
        if (!area)
            return std::nullopt;
        const Heading line = area_line(desk, conductor, std::to_string(++number));
        const auto all = factor(conductor.count) * desk.sheet.state(line, *area);
        add_to(sum, all);
    }
    return sum;
}

struct Share {
    Term<Ratio> term;
    std::string rule;
};

Share state_share(const Desk& desk, const RacewayInput& input) {
    const int count = count_of(input);
    const bool nipple = is_nipple(desk.book, input);
    const std::string rule = nipple ? "raceway.nipple" : "raceway.fill";
    Heading line =
        line_for(desk, "fill_limit", "f", "Share that may be filled", desk.book.cite(rule));
    line.source = desk.book.table_name("raceway_fill") + ", " +
                  (nipple ? std::string("nipple not over 24 in")
                          : std::to_string(count) + (count == 1 ? " conductor" : " conductors"));
    line.as = ShownAs::percent;
    return {desk.sheet.state(line, Ratio{desk.book.fill_limit(count, nipple)}), rule};
}

bool all_alike(const RacewayInput& input) {
    const FillConductor& first = input.conductors.front();
    for (const FillConductor& conductor : input.conductors) {
        if (conductor.size != first.size || conductor.insulation != first.insulation ||
            conductor.outer_diameter != first.outer_diameter)
            return false;
    }
    return true;
}

/// The areas against each other; or, where that fails by less than a fifth of one conductor and
/// all are alike, their number against the number that Annex C gives.
bool check_fill(const Desk& desk, const RacewayInput& input, TradeSize size, const Share& share,
                const Term<SquareInches>& wires, const Term<SquareInches>& allowed) {
    const auto most = all_alike(input)
                          ? most_conductors(desk.book, input.kind, size, input.conductors.front(),
                                            is_nipple(desk.book, input))
                          : std::nullopt;
    if (!at_most(wires.value, allowed.value) && most && count_of(input) <= *most) {
        Heading line = line_for(desk, "fill_check", "", "Conductors fit the raceway",
                                desk.book.cite("raceway.fill.alike"));
        line.source = "the number that fits, rounded up from 0.8";
        return desk.sheet.check(line, given("N", Ratio{double(count_of(input))}), "≤",
                                given("N_most", Ratio{double(*most)}));
    }
    return desk.sheet.check(
        line_for(desk, "fill_check", "", "Conductors fit the raceway", desk.book.cite(share.rule)),
        wires, "≤", allowed);
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
    result.passes = check_fill(desk, input, size, share, wires, allowed);
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

/// Three of a kind that are all there is, apart from a thinner ground.
const FillConductor* three_alike(const CodeBook& book, const RacewayInput& input) {
    const FillConductor* three = nullptr;
    for (const FillConductor& conductor : input.conductors) {
        if (conductor.count == 3 && three == nullptr)
            three = &conductor;
        else if (conductor.count != 1)
            return nullptr;
    }
    if (three == nullptr)
        return nullptr;
    for (const FillConductor& conductor : input.conductors) {
        if (&conductor != three && *area_of(book, conductor) >= *area_of(book, *three))
            return nullptr;
    }
    return three;
}

/// Advice alone: three of a kind in a raceway about three times as wide can wedge side by side in a
/// bend. Written only where it does.
bool advise_on_jam(const Desk& desk, const RacewayInput& input, TradeSize size) {
    const FillConductor* three = three_alike(desk.book, input);
    if (three == nullptr)
        return false;
    const double inside = desk.book.raceway_diameter(input.kind, size).value();
    const double diameter = std::sqrt(area_of(desk.book, *three)->value / quarter_pi);
    const double ratio = inside / diameter;
    if (!at_most(desk.book.number("raceway.jam.from"), ratio) ||
        !at_most(ratio, desk.book.number("raceway.jam.to")))
        return false;
    Heading line = line_for(desk, "jam_ratio", "J", "Three conductors may jam when pulled",
                            desk.book.cite("raceway.jam"));
    line.source = "inside " + trimmed(inside, 3) + " in, conductor " + trimmed(diameter, 3) +
                  " in; advice, not a rule";
    desk.sheet.state(line, Ratio{ratio});
    return true;
}

} // namespace

std::optional<int> most_conductors(const CodeBook& book, RacewayKind kind, TradeSize size,
                                   const FillConductor& conductor, bool nipple) {
    const auto inside = book.raceway_area(kind, size);
    const auto area = area_of(book, conductor);
    if (!inside || !area)
        return std::nullopt;
    const auto number_by = [&](int count) {
        const double fit = book.fill_limit(count, nipple) * inside->value / area->value;
        const double whole = std::floor(fit);
        return static_cast<int>(whole) +
               (at_most(book.number("raceway.alike"), fit - whole) ? 1 : 0);
    };
    for (const int count : {3, 2, 1}) {
        const int fit = number_by(count);
        if (fit >= count)
            return count == 3 ? fit : count;
    }
    return 0;
}

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
    result.smallest_that_complies = smallest;
    if (result.inside > SquareInches{})
        result.may_jam = advise_on_jam(desk, input, size);
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
