#include "code/generator_rules.h"

#include "base/text.h"
#include "code/load_terms.h"

namespace ohmfolio {

namespace {

Heading power_line(const Desk& desk, std::string name, std::string symbol, std::string title,
                   Citation cite) {
    Heading heading =
        line_for(desk, std::move(name), std::move(symbol), std::move(title), std::move(cite));
    heading.as = ShownAs::apparent_power;
    return heading;
}

} // namespace

Term<Amps> generator_current(const Desk& desk, const Term<Watts>& rating, Volts voltage,
                             bool three_phase) {
    const auto volts = given("V", voltage);
    return desk.sheet.define(line_for(desk, "generator_current", "I_gen",
                                      "Current of the generator", {{}, "equipment nameplate"}),
                             three_phase ? rating / (root_three() * volts) : rating / volts);
}

Term<Amps> generator_conductor(const Desk& desk, const Term<Amps>& current,
                               bool overload_prevented) {
    const std::string rule_id =
        overload_prevented ? "generator.conductor.protected" : "generator.conductor";
    const double share = desk.book.number(rule_id);
    return desk.sheet.define(line_for(desk, "generator_conductor", "I_req",
                                      "Ampacity up to the first overcurrent device, " +
                                          trimmed(share * 100, 0) + " % of the current",
                                      desk.book.cite(rule_id)),
                             factor(share) * current);
}

namespace {

constexpr double watts_per_kilowatt = 1000;

/// A thing that is there or missing.
Judgement has(const Desk& desk, std::string_view rule_id, std::string name, std::string title,
              bool there, std::string_view what) {
    return judged(desk, rule_id, std::move(name), std::move(title),
                  std::string(what) + (there ? " is there" : " is not stated"), there);
}

Judgement outdoor_stop(const Desk& desk, const GeneratorFacts& facts) {
    if (facts.portable || !facts.one_or_two_family) {
        return not_applicable("generator.stop", facts.portable
                                                    ? "the generator is portable"
                                                    : "not a one- or two-family dwelling");
    }
    return has(desk, "generator.stop", "generator_stop", "Emergency stop outside the dwelling",
               facts.outdoor_stop, "an emergency stop outdoors");
}

Judgement remote_stop(const Desk& desk, const GeneratorFacts& facts) {
    constexpr std::string_view rule_id = "generator.stop.remote";
    const double limit = watts_per_kilowatt * desk.book.number(rule_id);
    if (facts.portable)
        return not_applicable(rule_id, "the generator is portable");
    if (facts.rating.value <= limit)
        return not_applicable(rule_id, "not above " + shown(Watts{limit}));
    if (facts.one_or_two_family && desk.book.number("generator.stop.remote.dwellings") == 0)
        return not_applicable(rule_id, "not asked for at one- and two-family dwellings");
    return has(desk, rule_id, "generator_remote_stop", "Emergency stop outside room or enclosure",
               facts.remote_stop, "a remote emergency stop");
}

Judgement receptacles(const Desk& desk, const GeneratorFacts& facts) {
    constexpr std::string_view rule_id = "generator.receptacle";
    const double limit = watts_per_kilowatt * desk.book.number("generator.receptacle");
    if (!facts.portable || !facts.receptacles || facts.rating.value > limit)
        return not_applicable(rule_id, "no receptacles of a portable generator up to 15 kW");
    const bool interlock_serves = facts.interlocked && !facts.neutral_bonded;
    const std::string statement =
        facts.ground_fault_protected ? "the receptacles have ground-fault protection"
        : interlock_serves           ? "the receptacles are interlocked and the neutral floats"
                                     : "no ground-fault protection is stated";
    return judged(desk, rule_id, "generator_receptacles", "Receptacles of the generator", statement,
                  facts.ground_fault_protected || interlock_serves);
}

} // namespace

std::vector<Judgement> judge_generator(const Desk& desk, const GeneratorFacts& facts) {
    const Judgement disconnect =
        facts.portable
            ? not_applicable("generator.disconnect", "the generator is portable")
            : has(desk, "generator.disconnect", "generator_disconnect",
                  "Disconnect of the generator", facts.disconnect, "a lockable disconnect");
    return {has(desk, "generator.marking", "generator_marking", "Nameplate of the generator",
                facts.nameplate_complete, "a complete nameplate"),
            has(desk, "generator.overcurrent", "generator_overload", "Protection from overload",
                facts.overload_protected, "protection from overload"),
            disconnect,
            outdoor_stop(desk, facts),
            remote_stop(desk, facts),
            receptacles(desk, facts)};
}

std::optional<Term<Watts>> smallest_generator(const Desk& desk,
                                              const std::optional<Term<Watts>>& pv,
                                              const std::optional<Term<Watts>>& storage) {
    std::optional<Term<Watts>> least;
    if (pv)
        least = factor(desk.book.number("generator.pv")) * *pv;
    if (storage) {
        const auto beside = factor(desk.book.number("generator.storage")) * *storage;
        least = least ? larger(*least, beside) : beside;
    }
    if (!least)
        return std::nullopt;
    return desk.sheet.define(power_line(desk, "generator_smallest", "P_gen.least",
                                        "Smallest generator beside PV and storage",
                                        desk.book.cite("generator.smallest")),
                             *least);
}

GeneratorDerating usual_derating(const CodeBook& book) {
    return {.altitude_share = book.number("generator.altitude"),
            .altitude_step = Feet{1000},
            .altitude_from = Feet{book.number("generator.altitude.from")},
            .temperature_share = {book.number("generator.temperature")},
            .temperature_from = {book.number("generator.temperature.from")},
            .stated = false};
}

Term<Watts> derated_generator(const Desk& desk, const Term<Watts>& rating, Feet altitude,
                              Celsius ambient, const GeneratorDerating& derating) {
    const Citation cite = derating.stated ? Citation{{}, "equipment nameplate"}
                                          : desk.book.cite("generator.derating");
    Term<Watts> left = rating;
    if (altitude > derating.altitude_from) {
        const auto steps = (given("h", altitude) - constant(derating.altitude_from)) /
                           constant(derating.altitude_step);
        left = left * desk.sheet.define(line_for(desk, "derating_altitude", "k_alt",
                                                 "Left at this altitude", cite),
                                        factor(1) - factor(derating.altitude_share) * steps);
    }
    if (ambient > derating.temperature_from) {
        const auto lost = constant(derating.temperature_share) *
                          (given("T", ambient) - constant(derating.temperature_from));
        left = left * desk.sheet.define(line_for(desk, "derating_temperature", "k_temp",
                                                 "Left at this temperature", cite),
                                        factor(1) - lost);
    }
    return desk.sheet.define(power_line(desk, "generator_derated", "P_gen",
                                        "What the generator gives at the site", cite),
                             left);
}

} // namespace ohmfolio
