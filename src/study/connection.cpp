// Points of connection: every rule of the edition is tried on each bus that sources reach; the
// first that passes is the one the packet claims.

#include <algorithm>

#include <fmt/format.h>

#include "base/text.h"
#include "study/steps.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

/// Breakers of the circuits that arrive at the bus, then those of its loads as one sum.
std::vector<Term<Amps>> breakers_on(Work& work, int index) {
    std::vector<Term<Amps>> all;
    for (const int circuit : circuits_into(work.system, index)) {
        if (const auto rating = rating_of(work, breaker_of(work.system, circuit)))
            all.push_back(*rating);
    }
    const Equipment& e = at(work.system.equipment, index);
    const auto* panel = e.as<Panel>();
    if (panel == nullptr || panel->loads.empty())
        return all;
    std::vector<std::string> names;
    std::optional<Term<Amps>> loads;
    for (const LoadCircuit& load : panel->loads) {
        names.push_back(load.name);
        const auto rating = constant(load.breaker.value);
        add_to(loads, rating);
    }
    all.push_back(work.study.worksheet.define({.subject = subject_of(e),
                                               .name = "load_breakers",
                                               .symbol = "I_loads",
                                               .title = "Load breakers: " + join(names, ", "),
                                               .cite = {},
                                               .source = "as stated in the description"},
                                              *loads));
    return all;
}

/// Interconnect devices and combiners hold no breakers of loads but those of the feeders drawn.
bool loads_described(const Equipment& e) {
    const auto* panel = e.as<Panel>();
    return panel == nullptr || panel->loads_described;
}

bool at_opposite_end(const Equipment& e) {
    const auto* panel = e.as<Panel>();
    return panel != nullptr && panel->opposite_end;
}

/// The breaker through which all sources reach the bus; -1 when there are several.
int breaker_of_sources(const Work& work, int index) {
    int found = -1;
    for (const int circuit : circuits_into(work.system, index)) {
        if (!at(work.sources, circuit))
            continue;
        if (found >= 0)
            return -1;
        found = breaker_of(work.system, circuit);
    }
    return found;
}

ConnectionStudy study_of(const Work& work, int index, const std::vector<BusOption>& options) {
    ConnectionStudy result{
        .panel = index, .breaker = breaker_of_sources(work, index), .options = {}};
    bool chosen = false;
    for (const BusOption& option : options) {
        const bool passes = option.applies && option.passes;
        result.options.push_back({.rule = option.rule,
                                  .rule_id = option.rule_id,
                                  .cite = option.cite,
                                  .applies = option.applies,
                                  .passes = option.passes,
                                  .chosen = passes && !chosen,
                                  .counted = option.counted,
                                  .reason = option.reason,
                                  .steps = option.steps});
        chosen = chosen || passes;
    }
    return result;
}

/// The verdict on the whole bus, resting on the rule chosen or on all that were tried.
void record_choice(Work& work, const Equipment& e, const ConnectionStudy& connection) {
    std::vector<std::string> steps;
    const ConnectionOption* chosen = nullptr;
    for (const ConnectionOption& option : connection.options) {
        steps.insert(steps.end(), option.steps.begin(), option.steps.end());
        if (option.chosen)
            chosen = &option;
    }
    work.study.worksheet.judge(
        {.subject = subject_of(e),
         .name = "connection",
         .symbol = {},
         .title = "Point of connection on the busbar of " + e.id,
         .cite = chosen != nullptr ? chosen->cite : work.book.cite(paragraph::bus_sources),
         .governs = "first rule of the edition that passes"},
        chosen != nullptr ? fmt::format("{}: {}", chosen->rule, chosen->reason)
                          : std::string("no rule of the edition allows it"),
        chosen != nullptr, chosen != nullptr ? chosen->steps : steps);
}

/// What is not stated may be all that is missing, so it is told beside what fails.
bool worth_telling(const BusOption& option) {
    return option.applies || option.rule_id == "bus.120" || option.rule_id == "bus.breakers";
}

void complain_of_bus(Work& work, int index, const std::vector<BusOption>& options,
                     const BusInput& input) {
    std::vector<std::string> tried;
    for (const BusOption& option : options) {
        if (worth_telling(option))
            tried.push_back(fmt::format("{}: {}", option.rule, option.reason));
    }
    const Equipment& e = at(work.system.equipment, index);
    complain(
        work, e.id + ".connection",
        {.rule = e.is<Combiner>() ? "combiner.bus" : "connection.bus",
         .span = e.span,
         .message = fmt::format(
             "{}: 125 % of its sources is {}, and no rule lets its {} busbar, protected at {}, "
             "take them ({})",
             e.id, shown(input.sources_125.value), shown(input.bus.value), shown(input.main.value),
             join(tried, "; ")),
         .expected = e.is<Combiner>()
                         ? "fewer microinverters on this combiner, or a larger busbar"
                         : "a smaller main breaker, smaller sources, or a larger busbar",
         .hint = input.loads_described
                     ? std::string{}
                     : std::string("describe all load breakers of the panel under loads; {} "
                                   "where there are none")});
}

bool is_center_fed(const Equipment& e) {
    const auto* panel = e.as<Panel>();
    return panel != nullptr && panel->center_fed;
}

/// The settings of a power control system on this bus, as terms.
std::optional<PowerControlOnBus> power_control_on(Work& work, int index) {
    const auto found = std::ranges::find(work.system.power_controls, index, &PowerControl::at);
    if (found == work.system.power_controls.end())
        return {};
    const std::string subject = subject_of(at(work.system.equipment, index));
    const auto setting = [&](const std::optional<Spanned<Amps>>& stated, std::string name,
                             std::string symbol, std::string title) -> std::optional<Term<Amps>> {
        if (!stated)
            return {};
        return state_once(work,
                          {.subject = subject,
                           .name = std::move(name),
                           .symbol = std::move(symbol),
                           .title = std::move(title),
                           .cite = work.book.cite("bus.power_control"),
                           .source = "as stated in the description"},
                          stated->value);
    };
    return PowerControlOnBus{
        .sources = setting(found->sources, "control_sources", "I_set,src",
                           "Setting of the power control system: sources together"),
        .bus = setting(found->bus, "control_bus", "I_set,bus",
                       "Setting of the power control system: all supplies of the bus"),
        .listed = !found->listing.empty()};
}

/// A panel on the feed-through lugs of this one.
std::optional<FeedThrough> feed_through_of(Work& work, int index) {
    for (const int circuit : circuits_into(work.system, index)) {
        const Equipment& child =
            at(work.system.equipment, work.system.child_of(at(work.system.circuits, circuit)));
        const auto* panel = child.as<Panel>();
        const CircuitStudy& study = at(work.study.circuits, circuit);
        if (panel == nullptr || !panel->through_lugs || !study.sized)
            continue;
        FeedThrough result{.ampacity = conductor_ampacity(work, circuit),
                           .supply_device = main_of(work, index)};
        if (panel->main)
            result.load_device = main_of(work, work.system.find(child.id));
        return result;
    }
    return {};
}

void check_bus(Work& work, int index) {
    const Equipment& e = at(work.system.equipment, index);
    const auto sources = sources_on_125(work, index);
    const auto bus = bus_rating(work, e);
    if (!sources || !bus)
        return;
    const BusInput input{.bus = *bus,
                         .main = main_of(work, index),
                         .sources_125 = *sources,
                         .breakers = breakers_on(work, index),
                         .opposite_end = at_opposite_end(e),
                         .centre_fed = is_center_fed(e),
                         .dwelling = is_dwelling(work.system),
                         .loads_described = loads_described(e),
                         .feed_through = feed_through_of(work, index),
                         .power_control = power_control_on(work, index)};
    const auto options = try_bus_rules(work.desk(subject_of(e)), input);
    const auto connection = study_of(work, index, options);
    record_choice(work, e, connection);
    const bool allowed = std::ranges::any_of(connection.options, &ConnectionOption::chosen);
    if (!allowed)
        complain_of_bus(work, index, options, input);
    work.study.connections.push_back(connection);
}

} // namespace

/// From the service inward: the panel first, then what lies behind it.
void check_points_of_connection(Work& work) {
    for (const int index : work.system.subtree(work.system.root())) {
        const Equipment& e = at(work.system.equipment, index);
        if (is_bus(e) && has_sources(work.system, index))
            check_bus(work, index);
    }
}

} // namespace ohmfolio::workings
