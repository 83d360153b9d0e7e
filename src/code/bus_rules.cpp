// Sources on a busbar: each rule by which 705.12 lets them connect on the load side.
#include "code/bus_rules.h"

namespace ohmfolio {

namespace {

BusOption start(const Desk& desk, std::string words, std::string_view rule_id) {
    const Rule& rule = desk.book.rule(rule_id);
    BusOption option;
    option.rule = std::move(words);
    option.rule_id = rule.id;
    option.cite = rule.cite;
    if (!rule.exists) {
        option.applies = false;
        option.reason = "not in " + name(desk.book.edition());
    }
    return option;
}

BusOption& not_applicable(BusOption& option, std::string reason) {
    option.applies = false;
    option.reason = std::move(reason);
    return option;
}

/// "bus.sum" names lines "bus_sum", "bus_sum_limit" ...
std::string line_name(const BusOption& option, std::string_view suffix) {
    std::string result = option.rule_id + std::string(suffix);
    result[result.find('.')] = '_';
    return result;
}

Heading line_for(const Desk& desk, const BusOption& option, std::string_view suffix,
                 std::string symbol, std::string title) {
    return {.subject = desk.subject,
            .name = line_name(option, suffix),
            .symbol = std::move(symbol),
            .title = std::move(title),
            .cite = option.cite};
}

/// Records the comparison; an option passes when all of its comparisons do.
void compare(const Desk& desk, BusOption& option, const std::string& title, std::string_view suffix,
             const Term<Amps>& left, const Term<Amps>& right) {
    const bool first = option.reason.empty();
    const Heading heading = line_for(desk, option, suffix, "", title);
    const bool passes = desk.sheet.check(heading, left, "≤", right);
    option.passes = passes && (first || option.passes);
    option.reason += (first ? "" : "; ") + desk.sheet.all().back().comparison;
}

Term<Amps> main_and_sources(const Desk& desk, const BusInput& input, const BusOption& option) {
    return desk.sheet.define(
        line_for(desk, option, "_total", "I_bus.total", "Main and 125 % of the sources"),
        input.main + input.sources_125);
}

Term<Amps> share_of_bus(const Desk& desk, const BusInput& input, const BusOption& option) {
    const double share = desk.book.number(option.rule_id);
    return desk.sheet.define(
        line_for(desk, option, "_limit", "I_bus.limit", "Share of the busbar's rating"),
        factor(share) * input.bus);
}

BusOption sum_of_main_and_sources(const Desk& desk, const BusInput& input) {
    BusOption option = start(desk, "Sum of main and sources", "bus.sum");
    if (option.applies) {
        compare(desk, option, "Busbar carries main and sources", "",
                main_and_sources(desk, input, option), input.bus);
    }
    return option;
}

void compare_share(const Desk& desk, const BusInput& input, BusOption& option) {
    compare(desk, option, "120 % of the busbar carries main and sources", "",
            main_and_sources(desk, input, option), share_of_bus(desk, input, option));
}

/// Where the rule would fail even so, its arithmetic saves the drafter from moving the breaker.
std::string not_stated_opposite(const Desk& desk, const BusInput& input, BusOption option) {
    Worksheet scratch;
    compare_share({scratch, desk.book, desk.subject}, input, option);
    const std::string reason = "not stated that the sources are at the end opposite the main";
    return option.passes ? reason : reason + "; even there " + option.reason;
}

BusOption opposite_ends(const Desk& desk, const BusInput& input) {
    BusOption option = start(desk, "120 % of the busbar, opposite ends", "bus.120");
    if (!option.applies)
        return option;
    if (input.centre_fed)
        return not_applicable(option, "the panel is center-fed");
    if (!input.opposite_end)
        return not_applicable(option, not_stated_opposite(desk, input, option));
    compare_share(desk, input, option);
    return option;
}

BusOption sum_of_breakers(const Desk& desk, const BusInput& input) {
    BusOption option = start(desk, "Sum of breakers", "bus.breakers");
    if (!option.applies)
        return option;
    if (!input.loads_described)
        return not_applicable(option, "the load breakers are not described");
    if (input.breakers.empty())
        return not_applicable(option, "the breakers on the busbar are not described");
    Term<Amps> sum = input.breakers.front();
    for (std::size_t i = 1; i < input.breakers.size(); ++i)
        sum = sum + input.breakers[i];
    const auto total = desk.sheet.define(
        line_for(desk, option, "_total", "ΣI_breakers", "Breakers of loads and sources"), sum);
    compare(desk, option, "Busbar carries the sum of its breakers", "", total, input.bus);
    compare(desk, option, "Main protects the busbar", "_main", input.main, input.bus);
    return option;
}

BusOption centre_fed(const Desk& desk, const BusInput& input) {
    BusOption option = start(desk, "Center-fed panel, sources at one end", "bus.center");
    if (!option.applies)
        return option;
    if (!input.centre_fed)
        return not_applicable(option, "the panel is not center-fed");
    if (!input.dwelling)
        return not_applicable(option, "the building is not a dwelling");
    compare_share(desk, input, option);
    return option;
}

using BusRule = BusOption (*)(const Desk&, const BusInput&);

/// In the order of the edition, which has been the same since 2017.
constexpr BusRule bus_rules[] = {sum_of_main_and_sources, opposite_ends, sum_of_breakers,
                                 centre_fed};

} // namespace

std::vector<BusOption> try_bus_rules(const Desk& desk, const BusInput& input) {
    std::vector<BusOption> options;
    for (const BusRule rule : bus_rules) {
        const std::size_t before = desk.sheet.all().size();
        options.push_back(rule(desk, input));
        for (std::size_t line = before; line < desk.sheet.all().size(); ++line)
            options.back().steps.push_back(desk.sheet.all()[line].id);
    }
    return options;
}

} // namespace ohmfolio
