// Sources on a busbar: each rule by which 705.12 and 705.13 let them connect on the load side.
#include "code/bus_rules.h"

#include <algorithm>

#include <fmt/format.h>

#include "code/feeder_rules.h"

namespace ohmfolio {

namespace {

void not_applicable(BusOption& option, std::string reason) {
    option.applies = false;
    option.reason = std::move(reason);
}

struct BusRule {
    std::string_view words, rule_id;
    void (*judge)(const Desk&, const BusInput&, BusOption&); ///< asked where the edition has it
};

BusOption try_rule(const Desk& desk, const BusRule& bus_rule, const BusInput& input) {
    const Rule& rule = desk.book.rule(bus_rule.rule_id);
    BusOption option;
    option.rule = bus_rule.words;
    option.rule_id = rule.id;
    option.cite = rule.cite;
    if (rule.exists)
        bus_rule.judge(desk, input, option);
    else
        not_applicable(option, "not in " + name(desk.book.edition()));
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

void judge_main_and_sources(const Desk& desk, const BusInput& input, BusOption& option) {
    compare(desk, option, "Busbar carries main and sources", "",
            main_and_sources(desk, input, option), input.bus);
}

void compare_share(const Desk& desk, const BusInput& input, BusOption& option) {
    const Term<Amps> limit = share_of_bus(desk, input, option);
    const Term<Amps> total = main_and_sources(desk, input, option);
    compare(desk, option, "120 % of the busbar carries main and sources", "", total, limit);
}

/// Where the rule would fail even so, its arithmetic saves the drafter from moving the breaker.
std::string not_stated_opposite(const Desk& desk, const BusInput& input, BusOption option) {
    Worksheet scratch;
    compare_share({scratch, desk.book, desk.subject}, input, option);
    const std::string reason = "not stated that the sources are at the end opposite the main";
    return option.passes ? reason : reason + "; even there " + option.reason;
}

void judge_opposite_ends(const Desk& desk, const BusInput& input, BusOption& option) {
    if (input.centre_fed)
        return not_applicable(option, "the panel is center-fed");
    if (input.several_ampacities)
        return not_applicable(option, "the panel has busbars of several ampacities");
    if (!input.opposite_end)
        return not_applicable(option, not_stated_opposite(desk, input, option));
    compare_share(desk, input, option);
}

/// The device that limits what feed-through conductors draw from the busbar: the smaller one.
std::optional<Term<Amps>> device_of(const FeedThrough& conductors) {
    const auto& first = conductors.supply_device;
    const auto& last = conductors.load_device;
    if (first && last)
        return std::ranges::min(*first, *last, {}, &Term<Amps>::value);
    return first ? first : last;
}

void judge_breakers(const Desk& desk, const BusInput& input, BusOption& option) {
    if (!input.loads_described)
        return not_applicable(option, "the load breakers are not described");
    if (input.breakers.empty())
        return not_applicable(option, "the breakers on the busbar are not described");
    Term<Amps> sum = input.breakers.front();
    for (std::size_t i = 1; i < input.breakers.size(); ++i)
        sum = sum + input.breakers[i];
    if (input.feed_through) {
        const auto device = device_of(*input.feed_through);
        if (!device)
            return not_applicable(option, "no device protects the feed-through conductors");
        sum = sum + *device;
    }
    const auto total = desk.sheet.define(
        line_for(desk, option, "_total", "ΣI_breakers", "Breakers of loads and sources"), sum);
    compare(desk, option, "Busbar carries the sum of its breakers", "", total, input.bus);
    compare(desk, option, "Main protects the busbar", "_main", input.main, input.bus);
}

void judge_centre_fed(const Desk& desk, const BusInput& input, BusOption& option) {
    if (!input.centre_fed)
        return not_applicable(option, "the panel is not center-fed");
    if (!input.dwelling)
        return not_applicable(option, "the building is not a dwelling");
    compare_share(desk, input, option);
}

/// What enters by two connections and leaves by one is no more than that one lets through.
void judge_single_load(const Desk& desk, const BusInput& input, BusOption& option) {
    compare(desk, option, "Busbar carries the sources", "", input.sources_125, input.bus);
    compare(desk, option, "Main protects the busbar", "_main", input.main, input.bus);
}

void judge_engineered(const Desk& desk, const BusInput& input, BusOption& option) {
    if (!desk.book.rule("bus.engineered.any").exists && !input.centre_fed &&
        !input.several_ampacities)
        return not_applicable(option,
                              "only for busbars of several ampacities and center-fed panels");
    option.reason = "as covered by " + input.engineered_study;
    option.passes = desk.sheet.judge(
        line_for(desk, option, "", "", "Study of available fault current and busbar load"),
        option.reason, true, {});
}

constexpr BusRule sum_of_main_and_sources{"Sum of main and sources", "bus.sum",
                                          judge_main_and_sources};
constexpr BusRule opposite_ends{"120 % of the busbar, opposite ends", "bus.120",
                                judge_opposite_ends};
constexpr BusRule sum_of_breakers{"Sum of breakers", "bus.breakers", judge_breakers};

/// Which rule the supplying busbar goes by; empty: none. Tried aside, its lines are there already.
std::string rule_besides(const Desk& desk, const BusInput& input) {
    for (const BusRule& rule : {sum_of_main_and_sources, opposite_ends, sum_of_breakers}) {
        Worksheet scratch;
        const BusOption option = try_rule({scratch, desk.book, desk.subject}, rule, input);
        if (option.applies && option.passes)
            return option.rule;
    }
    return {};
}

/// The feed-through conductors are checked before, with all rules.
void judge_feed_through(const Desk& desk, const BusInput& input, BusOption& option) {
    const bool either_end = desk.book.rule("bus.feed_through.either_end").exists;
    if (!input.feed_through->supply_device && !(either_end && input.feed_through->load_device)) {
        const std::string where = either_end ? "either end" : "the supply end";
        return not_applicable(option, "no overcurrent device at " + where + " of the conductors");
    }
    const std::string by = rule_besides(desk, input);
    option.reason =
        by.empty() ? "no other rule lets the busbar take the sources" : "busbar by: " + by;
    option.passes =
        desk.sheet.judge(line_for(desk, option, "", "", "Busbar with feed-through conductors"),
                         option.reason, !by.empty(), {});
}

void judge_power_control(const Desk& desk, const BusInput& input, BusOption& option) {
    if (!input.power_control->listed)
        return not_applicable(option, "not stated that the power control system is listed");
    if (!input.power_control->bus)
        return not_applicable(option, "it has no setting for the busbar");
    compare(desk, option, "Setting stays within the busbar", "", *input.power_control->bus,
            input.bus);
}

constexpr BusRule centre_fed{"Center-fed panel, sources at one end", "bus.center",
                             judge_centre_fed};
constexpr BusRule single_load{"Equipment for a single load", "bus.single_load", judge_single_load};
constexpr BusRule engineered{"Engineered study", "bus.engineered", judge_engineered};
constexpr BusRule feed_through{"Feed-through conductors", "bus.feed_through", judge_feed_through};
constexpr BusRule power_control{"Power control system on the busbar", "bus.power_control",
                                judge_power_control};

/// The rules that speak of the connection at hand; the first four in the order of the edition,
/// which has been the same since 2017.
std::vector<BusRule> rules_for(const BusInput& input) {
    std::vector<BusRule> rules{sum_of_main_and_sources, opposite_ends, sum_of_breakers, centre_fed};
    if (input.single_load)
        rules.push_back(single_load);
    if (!input.engineered_study.empty())
        rules.push_back(engineered);
    if (input.feed_through)
        rules.push_back(feed_through);
    if (input.power_control)
        rules.push_back(power_control);
    return rules;
}

/// Feed-through conductors are a feeder that the main and the sources supply together.
RuleVerdicts check_feed_through(const Desk& desk, const BusInput& input) {
    const Desk conductors{desk.sheet, desk.book, desk.subject + ".feed_through"};
    return check_feeder(conductors, {.ampacity = input.feed_through->ampacity,
                                     .primary = input.main,
                                     .sources_125 = input.sources_125,
                                     .device_beyond = device_of(*input.feed_through)});
}

void fail_for(BusOption& option, const RuleVerdicts& conductors) {
    if (!option.applies || option.rule_id == "bus.engineered")
        return;
    for (const RuleVerdict& verdict : conductors) {
        option.steps.push_back(verdict.line);
        if (verdict.passes)
            continue;
        option.passes = false;
        option.reason += "; feed-through conductors: " + verdict.statement;
    }
}

std::vector<BusOption> try_each(const Desk& desk, const std::vector<BusRule>& rules,
                                const BusInput& input) {
    std::vector<BusOption> options;
    for (const BusRule& rule : rules) {
        const std::size_t before = desk.sheet.all().size();
        options.push_back(try_rule(desk, rule, input));
        for (std::size_t line = before; line < desk.sheet.all().size(); ++line)
            options.back().steps.push_back(desk.sheet.all()[line].id);
    }
    return options;
}

/// A setting for the sources decides nothing by itself: the other rules count it.
void tell_of_setting(const BusInput& described, const Term<Amps>& counted, BusOption& option) {
    if (option.rule_id != "bus.power_control" || option.applies ||
        counted.value >= described.sources_125.value)
        return;
    option.counted = true;
    option.reason = fmt::format("the rules above count its setting for the sources, {}",
                                shown(described.power_control->sources->value));
}

} // namespace

Term<Amps> sources_counted(const Desk& desk, const BusInput& input) {
    const auto& control = input.power_control;
    if (!control || !control->sources || !control->listed ||
        !desk.book.rule("control.sources").exists)
        return input.sources_125;
    auto limited = factor(desk.book.number("source.continuous")) * *control->sources;
    if (control->uncontrolled_125)
        limited = limited + *control->uncontrolled_125;
    if (limited.value >= input.sources_125.value)
        return input.sources_125;
    return desk.sheet.define({.subject = desk.subject,
                              .name = "sources_controlled",
                              .symbol = "I_src.limited",
                              .title = "125 % of the sources, as power control limits them",
                              .cite = desk.book.cite("control.sources")},
                             limited);
}

std::vector<BusOption> try_bus_rules(const Desk& desk, const BusInput& described) {
    BusInput input = described;
    input.sources_125 = sources_counted(desk, described);
    const auto conductors = input.feed_through ? check_feed_through(desk, input) : RuleVerdicts{};
    auto options = try_each(desk, rules_for(input), input);
    for (BusOption& option : options) {
        fail_for(option, conductors);
        tell_of_setting(described, input.sources_125, option);
    }
    return options;
}

bool any_passes(const std::vector<BusOption>& options) {
    return std::ranges::any_of(
        options, [](const BusOption& option) { return option.applies && option.passes; });
}

std::vector<BusSectionResult> check_bus_sections(const Desk& desk,
                                                 const std::vector<BusSection>& sections) {
    std::vector<BusSectionResult> results;
    for (const BusSection& section : sections) {
        std::string key = section.name;
        std::replace(key.begin(), key.end(), ' ', '_');
        const Desk own{desk.sheet, desk.book, desk.subject + "." + key};
        const auto options = try_each(own, {sum_of_main_and_sources, sum_of_breakers},
                                      {.bus = section.rating,
                                       .main = section.device,
                                       .sources_125 = section.sources_125,
                                       .breakers = section.breakers,
                                       .several_ampacities = true});
        results.push_back({section.name, options, any_passes(options)});
    }
    return results;
}

} // namespace ohmfolio
