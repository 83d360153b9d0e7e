// The rules for busbars read backwards.
#include "code/bus_limits.h"

#include <algorithm>

#include "code/line.h"

namespace ohmfolio {

namespace {

/// The others have no arithmetic of their own.
bool reads_backwards(std::string_view rule_id) {
    return rule_id == "bus.sum" || rule_id == "bus.120" || rule_id == "bus.breakers" ||
           rule_id == "bus.center";
}

/// The rules that speak of the connection; why the others do not.
std::vector<BusLimit> limits_for(const Desk& desk, const BusInput& input) {
    BusInput with_room = input;
    if (with_room.breakers.empty() && with_room.loads_described)
        with_room.breakers = {constant(Amps{0})}; // none there are, which is a description
    Worksheet scratch;
    std::vector<BusLimit> limits;
    for (const BusOption& option : try_bus_rules({scratch, desk.book, desk.subject}, with_room)) {
        if (!reads_backwards(option.rule_id))
            continue;
        limits.push_back({.rule = option.rule,
                          .rule_id = option.rule_id,
                          .cite = option.cite,
                          .applies = option.applies,
                          .reason = option.applies ? std::string{} : option.reason});
    }
    return limits;
}

bool counts_breakers(const BusLimit& limit) { return limit.rule_id == "bus.breakers"; }

Heading heading_of(const Desk& desk, const BusLimit& limit, std::string_view name,
                   std::string symbol, std::string title) {
    std::string line = limit.rule_id + "_" + std::string(name);
    line[line.find('.')] = '_';
    return line_for(desk, line, std::move(symbol), std::move(title), limit.cite);
}

/// "1.2 × I_bus", or the busbar itself.
Term<Amps> room(const Desk& desk, const BusInput& input, const BusLimit& limit) {
    if (desk.book.rule(limit.rule_id).number.empty())
        return input.bus;
    return factor(desk.book.number(limit.rule_id)) * input.bus;
}

std::optional<Term<Amps>> breakers_of(const BusInput& input) {
    std::optional<Term<Amps>> sum;
    for (const Term<Amps>& breaker : input.breakers)
        add_to(sum, breaker);
    return sum;
}

/// Runs `answer` for each rule that applies and keeps the lines that it wrote.
template <class Answer>
std::vector<BusLimit> for_each(const Desk& desk, const BusInput& input, Answer answer) {
    auto limits = limits_for(desk, input);
    for (BusLimit& limit : limits) {
        const std::size_t before = desk.sheet.all().size();
        if (limit.applies)
            answer(limit);
        for (std::size_t line = before; line < desk.sheet.all().size(); ++line)
            limit.steps.push_back(desk.sheet.all()[line].id);
    }
    return limits;
}

void no_room(const Desk& desk, BusLimit& limit, const std::string& name, const std::string& title,
             std::string reason, const std::vector<std::string>& from) {
    limit.reason = std::move(reason);
    desk.sheet.judge(heading_of(desk, limit, name, "", title), limit.reason, false, from);
}

void largest_source(const Desk& desk, const BusInput& input, BusLimit& limit) {
    const std::string title = "Most that sources may add";
    auto rest = counts_breakers(limit) ? input.bus : room(desk, input, limit) - input.main;
    if (counts_breakers(limit)) {
        if (const auto breakers = breakers_of(input))
            rest = rest - *breakers;
    } else if (input.sources_125.value > Amps{0}) {
        rest = rest - input.sources_125;
    }
    const bool main_fits = !counts_breakers(limit) || input.main.value <= input.bus.value;
    if (rest.value <= Amps{0} || !main_fits) {
        no_room(desk, limit, "room", title,
                main_fits ? "no room is left" : "the main is above the busbar", rest.from);
        return;
    }
    const Heading heading = heading_of(desk, limit, "room", "I_src.most", title);
    if (!counts_breakers(limit)) {
        limit.value = desk.sheet.define(heading, rest);
        return;
    }
    const auto device = desk.book.standard_rating_down(rest.value);
    if (!device) {
        no_room(desk, limit, "room", title, "no standard device is small enough", rest.from);
        return;
    }
    limit.value = desk.sheet.define(heading, largest_not_above("standard rating", rest, *device));
}

void smallest_rating(const Desk& desk, const BusInput& input, BusLimit& limit) {
    const Heading heading =
        heading_of(desk, limit, "least", "I_bus.least", "Least rating of the busbar");
    if (counts_breakers(limit)) {
        const auto breakers = breakers_of(input);
        limit.value =
            desk.sheet.define(heading, breakers ? larger(*breakers, input.main) : input.main);
        return;
    }
    auto both = input.main;
    if (input.sources_125.value > Amps{0})
        both = both + input.sources_125;
    const bool shared = !desk.book.rule(limit.rule_id).number.empty();
    limit.value =
        desk.sheet.define(heading, shared ? both / factor(desk.book.number(limit.rule_id)) : both);
}

void largest_main_by(const Desk& desk, const BusInput& input, BusLimit& limit,
                     const std::optional<Term<Amps>>& least) {
    const std::string title = "Largest main";
    const auto breakers = breakers_of(input);
    if (counts_breakers(limit) && breakers && breakers->value > input.bus.value) {
        no_room(desk, limit, "main_most", title, "its breakers exceed the busbar", breakers->from);
        return;
    }
    auto allowed = input.bus;
    bool capped = counts_breakers(limit);
    if (!counts_breakers(limit)) {
        allowed = room(desk, input, limit);
        if (input.sources_125.value > Amps{0})
            allowed = allowed - input.sources_125;
        capped = allowed.value > input.bus.value;
        if (capped)
            allowed = lesser(allowed, input.bus);
    }
    const auto rating = desk.book.standard_rating_down(allowed.value);
    if (!rating) {
        no_room(desk, limit, "main_most", title, "no standard main is small enough", allowed.from);
        return;
    }
    Heading heading = heading_of(desk, limit, "main_most", "I_main.most", title);
    if (capped)
        heading.governs = "not above the busbar, " + desk.book.cite("bus.main").section;
    const auto main =
        desk.sheet.define(heading, largest_not_above("standard rating", allowed, *rating));
    if (least && !desk.sheet.check(heading_of(desk, limit, "main_enough", "",
                                              "Main carries the load of the panel"),
                                   main, "≥", *least)) {
        limit.reason = "the load asks for more: " + desk.sheet.all().back().comparison;
        return;
    }
    limit.value = main;
}

} // namespace

std::vector<BusLimit> largest_source_on_bus(const Desk& desk, const BusInput& input) {
    return for_each(desk, input, [&](BusLimit& limit) { largest_source(desk, input, limit); });
}

Term<Amps> continuous_output(const Desk& desk, const Term<Amps>& limit_125) {
    return desk.sheet.define(line_for(desk, "source_most", "I_cont.most",
                                      "Largest continuous output of the sources",
                                      desk.book.cite("source.output.current")),
                             limit_125 / factor(desk.book.number("source.continuous")));
}

std::vector<BusLimit> smallest_bus(const Desk& desk, const BusInput& described) {
    BusInput input = described;
    input.sources_125 = sources_counted(desk, described);
    return for_each(desk, input, [&](BusLimit& limit) { smallest_rating(desk, input, limit); });
}

std::vector<BusLimit> largest_main(const Desk& desk, const BusInput& described,
                                   const std::optional<Term<Amps>>& least) {
    BusInput input = described;
    input.sources_125 = sources_counted(desk, described);
    return for_each(desk, input,
                    [&](BusLimit& limit) { largest_main_by(desk, input, limit, least); });
}

const BusLimit* largest(const std::vector<BusLimit>& limits) {
    const BusLimit* best = nullptr;
    for (const BusLimit& limit : limits) {
        if (limit.value && (best == nullptr || limit.value->value > best->value->value))
            best = &limit;
    }
    return best;
}

const BusLimit* smallest(const std::vector<BusLimit>& limits) {
    const BusLimit* best = nullptr;
    for (const BusLimit& limit : limits) {
        if (limit.value && (best == nullptr || limit.value->value < best->value->value))
            best = &limit;
    }
    return best;
}

} // namespace ohmfolio
