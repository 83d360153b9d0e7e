// Largest devices on both sides of a transformer.
#include "code/transformer_rules.h"
#include "code/line.h"
#include "code/rule_tables.h"

namespace ohmfolio {

namespace {

struct Side {
    std::string name; ///< "primary"
    std::string symbol;
    Term<Amps> current;
    TransformerShare share;
};

/// 450.3(B) note 1: where the share is no standard rating, the next one up; elsewhere the largest
/// that is within it.
Term<Amps> most_for(const Desk& desk, const Side& side, DeviceKind kind) {
    const std::string title = "Largest device on the " + side.name + " side";
    const auto limit = desk.sheet.define(
        line_for(desk, side.name + "_limit", "I_" + side.symbol + ".limit",
                 "Share of the rated current", desk.book.cite("transformer.protection")),
        factor(side.share.share) * side.current);
    const auto most = side.share.next_size_up ? desk.book.standard_rating_up(limit.value, kind)
                                              : desk.book.standard_rating_down(limit.value, kind);
    Heading line = line_for(desk, side.name + "_most", "I_" + side.symbol + ".most", title,
                            desk.book.cite("transformer.protection"));
    if (!most) {
        line.source = "no standard rating";
        return desk.sheet.define(line, limit);
    }
    const std::string_view list =
        side.share.next_size_up ? "next standard rating ≥ " : "largest standard rating ≤ ";
    return desk.sheet.define(line, Term<Amps>{*most, std::string(list) + limit.symbols,
                                              std::string(list) + limit.figures, Binding::sum,
                                              limit.from});
}

bool check_side(const Desk& desk, const Side& side, std::optional<Amps> stated,
                const Term<Amps>& most) {
    if (!stated)
        return true;
    return desk.sheet.check(line_for(desk, side.name + "_check", "",
                                     "Device on the " + side.name + " side",
                                     desk.book.cite("transformer.protection")),
                            given("I_" + side.symbol + ".ocpd", *stated), "≤", most);
}

} // namespace

Term<Amps> rated_current(const Desk& desk, const std::string& name, const std::string& symbol,
                         Watts rating, Volts voltage, int phases) {
    const auto power = told(desk, "transformer_rating", "S", "Rating of the transformer",
                            "transformer nameplate", rating, ShownAs::apparent_power);
    const auto volts = told(desk, name + "_voltage", "V_" + symbol, "Voltage, " + name + " side",
                            "transformer nameplate", voltage);
    Heading line = line_for(desk, name + "_current", "I_" + symbol,
                            "Rated current, " + name + " side", {{}, "definition"});
    line.source = "transformer nameplate";
    return desk.sheet.define(line, phases == 3 ? power / (root_three() * volts) : power / volts);
}

TransformerProtectionResult transformer_protection(const Desk& desk,
                                                   const TransformerProtectionInput& input) {
    const auto primary =
        rated_current(desk, "primary", "p", input.rating, input.primary, input.phases);
    const auto secondary =
        rated_current(desk, "secondary", "s", input.rating, input.secondary, input.phases);
    TransformerProtectionResult result{.primary_current = primary.value,
                                       .secondary_current = secondary.value};
    const TransformerSide kind =
        input.secondary_device ? TransformerSide::primary_of_both : TransformerSide::primary_alone;
    const Side first{"primary", "p", primary, transformer_share(desk.book, kind, primary.value)};
    const auto most_primary = most_for(desk, first, input.device);
    result.most_primary = most_primary.value;
    result.passes = check_side(desk, first, input.stated_primary, most_primary);
    if (!input.secondary_device)
        return result;
    const Side second{"secondary", "s", secondary,
                      transformer_share(desk.book, TransformerSide::secondary, secondary.value)};
    const auto most_secondary = most_for(desk, second, input.device);
    result.most_secondary = most_secondary.value;
    result.passes =
        check_side(desk, second, input.stated_secondary, most_secondary) && result.passes;
    return result;
}

} // namespace ohmfolio
