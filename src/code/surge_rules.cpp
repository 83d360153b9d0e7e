#include "code/surge_rules.h"

#include "code/verdict_line.h"

namespace ohmfolio {

namespace {

std::string rule_of(SurgePlace place) {
    return place == SurgePlace::service ? "surge.service" : "surge.feeder";
}

} // namespace

std::optional<RuleVerdict> check_surge_device(const Desk& desk, SurgePlace place,
                                              const std::string& where) {
    const VerdictLine line{"surge_device", "Surge-protective device", rule_of(place)};
    if (!desk.book.rule(line.rule).exists)
        return std::nullopt;
    return judge_by(desk, line, where.empty() ? "no surge-protective device is stated" : where,
                    !where.empty());
}

std::optional<RuleVerdict> check_surge_discharge(const Desk& desk, SurgePlace place,
                                                 const std::optional<Term<Amps>>& discharge) {
    const VerdictLine line{.name = "surge_discharge",
                           .title = "Nominal discharge current",
                           .rule = rule_of(place) + ".discharge",
                           .as = ShownAs::kiloamps};
    if (!desk.book.rule(line.rule).exists)
        return std::nullopt;
    if (!discharge)
        return judge_by(desk, line, "its nominal discharge current is not stated", false);
    const auto least = constant(Amps{desk.book.number(line.rule)}, ShownAs::kiloamps);
    return check_by(desk, line, *discharge, "≥", least);
}

} // namespace ohmfolio
