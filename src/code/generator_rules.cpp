#include "code/generator_rules.h"

#include "base/text.h"
#include "code/load_terms.h"
#include "code/verdict_line.h"

namespace ohmfolio {

Term<Amps> generator_current(const Desk& desk, const Term<Watts>& rating, Volts voltage,
                             bool three_phase) {
    const auto volts = given("V", voltage, "voltage of the generator");
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

std::optional<RuleVerdict> outdoor_stop(const Desk& desk, const GeneratorFacts& facts) {
    if (facts.portable || !facts.one_or_two_family)
        return std::nullopt;
    return stated_by(desk,
                     {"generator_stop", "Emergency stop outside the dwelling", "generator.stop"},
                     "an emergency stop outdoors", facts.outdoor_stop);
}

std::optional<RuleVerdict> remote_stop(const Desk& desk, const GeneratorFacts& facts) {
    const double limit = watts_per_kilowatt * desk.book.number("generator.stop.remote");
    const bool spared =
        facts.one_or_two_family && desk.book.number("generator.stop.remote.dwellings") == 0;
    if (facts.portable || spared || facts.rating.value <= limit)
        return std::nullopt;
    return stated_by(desk,
                     {"generator_remote_stop", "Emergency stop outside room or enclosure",
                      "generator.stop.remote"},
                     "a remote emergency stop", facts.remote_stop);
}

std::optional<RuleVerdict> receptacles(const Desk& desk, const GeneratorFacts& facts) {
    const std::string rule_id = "generator.receptacle";
    const double limit = watts_per_kilowatt * desk.book.number(rule_id);
    if (!facts.portable || !facts.receptacles || facts.rating.value > limit)
        return std::nullopt;
    const bool interlock_serves = facts.interlocked && !facts.neutral_bonded;
    const std::string statement =
        facts.ground_fault_protected ? "the receptacles have ground-fault protection"
        : interlock_serves           ? "the receptacles are interlocked and the neutral floats"
                                     : "no ground-fault protection is stated";
    return judge_by(desk, {"generator_receptacles", "Receptacles of the generator", rule_id},
                    statement, facts.ground_fault_protected || interlock_serves);
}

} // namespace

RuleVerdicts judge_generator(const Desk& desk, const GeneratorFacts& facts) {
    std::vector<std::optional<RuleVerdict>> verdicts = {
        stated_by(desk, {"generator_marking", "Nameplate of the generator", "generator.marking"},
                  "a complete nameplate", facts.nameplate_complete),
        stated_by(desk, {"generator_overload", "Protection from overload", "generator.overcurrent"},
                  "protection from overload", facts.overload_protected)};
    if (!facts.portable) {
        verdicts.push_back(stated_by(
            desk, {"generator_disconnect", "Disconnect of the generator", "generator.disconnect"},
            "a lockable disconnect", facts.disconnect));
    }
    verdicts.push_back(outdoor_stop(desk, facts));
    verdicts.push_back(remote_stop(desk, facts));
    verdicts.push_back(receptacles(desk, facts));
    return those_given(verdicts);
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
    return desk.sheet.define(line_for(desk, "generator_smallest", "P_gen.least",
                                      "Smallest generator beside PV and storage",
                                      desk.book.cite("generator.smallest"),
                                      ShownAs::apparent_power),
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
        const auto steps = (given("h", altitude, "altitude") - constant(derating.altitude_from)) /
                           constant(derating.altitude_step);
        left = left * desk.sheet.define(line_for(desk, "derating_altitude", "k_alt",
                                                 "Left at this altitude", cite),
                                        factor(1) - factor(derating.altitude_share) * steps);
    }
    if (ambient > derating.temperature_from) {
        const auto lost =
            constant(derating.temperature_share) *
            (given("T", ambient, "ambient temperature") - constant(derating.temperature_from));
        left = left * desk.sheet.define(line_for(desk, "derating_temperature", "k_temp",
                                                 "Left at this temperature", cite),
                                        factor(1) - lost);
    }
    return desk.sheet.define(line_for(desk, "generator_derated", "P_gen",
                                      "What the generator gives at the site", cite,
                                      ShownAs::apparent_power),
                             left);
}

} // namespace ohmfolio
