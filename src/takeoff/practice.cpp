#include "takeoff/practice.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "code/table_file.h"
#include "takeoff/embedded_practice.h"

namespace ohmfolio {

namespace {

constexpr double inches_per_foot = 12;

TradeSize trade_size(const TableRow& row, std::string_view key) {
    const auto size = parse_trade_size(row.text(key));
    if (!size)
        row.fault(row.text(key) + " is not a trade size");
    return *size;
}

WireSize wire_size(const TableRow& row, std::string_view key) {
    const auto size = parse_wire_size(row.text(key));
    if (!size)
        row.fault(row.text(key) + " is not a conductor size");
    return *size;
}

Practice read_practice() {
    std::vector<TableFiles::Text> texts;
    for (const EmbeddedTable& table : embedded_practice())
        texts.push_back({table.name, table.text});
    const TableFiles files(texts);
    const TableRow file = files.file("practice");
    const TableRow order = file.group_if_any("order").value();
    const TableRow colors = file.group_if_any("colors").value();
    Practice practice{.waste = order.number("waste"),
                      .clip_spacing = Feet{order.number("clip_spacing_in") / inches_per_foot},
                      .raceway_length = Feet{order.number("raceway_length_ft")},
                      .connectors_per_string =
                          static_cast<int>(order.number("connectors_per_string")),
                      .remarked_from = wire_size(colors, "remarked_from"),
                      .ground = colors.text("ground"),
                      .positive = colors.text("positive"),
                      .negative = colors.text("negative"),
                      .systems = {},
                      .straps = {}};
    for (const TableRow& row : colors.rows("system")) {
        practice.systems.push_back({Volts{row.number("up_to_volts")},
                                    {row.text("line_a"), row.text("line_b"), row.text("line_c")},
                                    row.text("neutral")});
    }
    for (const TableRow& row : file.rows("strap")) {
        practice.straps.push_back({row.text("kind"), trade_size(row, "up_to"),
                                   Feet{row.number("from_box")}, Feet{row.number("apart")},
                                   row.text("section")});
    }
    return practice;
}

std::string_view word(RacewayKind kind) {
    switch (kind) {
    case RacewayKind::emt:
        return "emt";
    case RacewayKind::pvc40:
    case RacewayKind::pvc80:
        return "pvc";
    case RacewayKind::rmc:
        return "rmc";
    case RacewayKind::fmc:
        return "fmc";
    case RacewayKind::lfmc:
        return "lfmc";
    case RacewayKind::lfnc:
        return "lfnc";
    case RacewayKind::free_air:
    case RacewayKind::cable:
        return {};
    }
    return {};
}

} // namespace

const WireColors& Practice::colors(Volts between_lines) const {
    const auto found = std::ranges::find_if(
        systems, [&](const WireColors& system) { return between_lines <= system.up_to; });
    return found == systems.end() ? systems.back() : *found;
}

const StrapRule* Practice::strap(RacewayKind kind, TradeSize size) const {
    const auto found = std::ranges::find_if(straps, [&](const StrapRule& rule) {
        return rule.kind == word(kind) && size <= rule.up_to;
    });
    return found == straps.end() ? nullptr : &*found;
}

const Practice& practice_of_trade() {
    static const Practice practice = read_practice();
    return practice;
}

int whole_pieces(double amount) {
    constexpr double noise = 1e-9;
    return static_cast<int>(std::ceil(amount - noise));
}

int straps_for(Feet length, const StrapRule& rule) {
    const Feet between = length - 2.0 * rule.from_box;
    return 1 + (between > Feet{0} ? whole_pieces((between / rule.apart).value) : 0);
}

int couplings_for(Feet length, Feet piece) {
    return std::max(0, whole_pieces((length / piece).value) - 1);
}

} // namespace ohmfolio
