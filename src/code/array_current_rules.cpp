// Currents of arrays and their conductors: 690.8.
#include <algorithm>
#include <stdexcept>

#include "code/array_current_rules.h"
#include "code/overcurrent_rules.h"
#include "code/verdict_line.h"

namespace ohmfolio {

namespace {

Term<Amps> nameplate_current(const Desk& desk, const std::string& name, const std::string& symbol,
                             const std::string& title, Amps value) {
    return desk.sheet.state_once(line_for(desk, name, symbol, title, {{}, "equipment nameplate"}),
                                 value);
}

Term<Ratio> times(const std::string& symbol, int count) {
    return given(symbol, Ratio{static_cast<double>(count)});
}

/// The current of the usual method, or the one that was accepted, as a line of its own.
CurrentResult decided(const Desk& desk, RuleVerdicts verdicts, const Term<Amps>& usual,
                      const Heading& heading, Amps accepted) {
    CurrentResult result{all_pass(verdicts), usual, std::move(verdicts)};
    if (result.accepted)
        result.current = desk.sheet.state(heading, accepted);
    return result;
}

} // namespace

Term<Amps> output_circuit_current(const Desk& desk, const std::vector<Term<Amps>>& strings) {
    if (strings.empty())
        throw std::logic_error("an output circuit has a string at least");
    Term<Amps> sum = strings.front();
    for (std::size_t i = 1; i < strings.size(); ++i)
        sum = sum + strings[i];
    return desk.sheet.define(line_for(desk, "output_circuit_current", "I_out",
                                      "Current of the strings together",
                                      desk.book.cite("pv.output.current")),
                             sum);
}

Term<Amps> converter_circuit_current(const Desk& desk, Amps continuous_output, int parallel) {
    const auto one =
        nameplate_current(desk, "converter_output_current", "I_converter",
                          "Continuous output current of one converter", continuous_output);
    return desk.sheet.define(line_for(desk, "converter_circuit_current", "I_max",
                                      "Current of the converter circuit",
                                      desk.book.cite("pv.converter.current")),
                             parallel == 1 ? one : times("N_p", parallel) * one);
}

CurrentResult engineered_current(const Desk& desk, const Term<Amps>& usual,
                                 const EngineeredCurrent& input) {
    const std::string rule = "pv.source.current.engineered";
    const auto capacity = desk.sheet.state_once(
        line_for(desk, "generating_capacity", "P_gen", "Generating capacity of the system", {}),
        input.generating_capacity);
    const auto least =
        desk.sheet.define(line_for(desk, "engineered_current_least", "I_least",
                                   "Least that an engineered current may be", desk.book.cite(rule)),
                          factor(desk.book.number(rule)) * usual);
    RuleVerdicts verdicts;
    verdicts.push_back(
        check_by(desk, {"engineered_current_capacity", "Capacity for an engineered current", rule},
                 capacity, "≥", constant(Watts{desk.book.number("pv.engineered.capacity")})));
    verdicts.push_back(judge_by(desk,
                                {"engineered_current_documented", "Documented and stamped", rule},
                                input.documented ? "design is documented and stamped"
                                                 : "design is not documented and stamped",
                                input.documented));
    verdicts.push_back(
        check_by(desk, {"engineered_current_share", "Engineered current not too low", rule},
                 given("I_mean", input.highest_mean), "≥", least));
    Heading line = line_for(desk, "engineered_current", "I_max",
                            "Circuit current, highest 3-hour mean", desk.book.cite(rule));
    line.source = "as the engineer's design states";
    return decided(desk, std::move(verdicts), usual, line, input.highest_mean);
}

CurrentResult converter_input_current(const Desk& desk, const Term<Amps>& usual,
                                      const RatedInput& input) {
    const std::string rule = "pv.input.current";
    if (!desk.book.rule(rule).exists)
        return {false, usual, {}};
    RuleVerdicts verdicts;
    const VerdictLine line{"input_protected", "Conductors of the input are protected", rule};
    if (input.device) {
        verdicts.push_back(check_by(desk, line, given("I_ocpd", *input.device), "≤",
                                    given("I_z", input.conductor_ampacity)));
    } else {
        verdicts.push_back(judge_by(desk, line, "no device protects the circuit", false));
    }
    Heading heading =
        line_for(desk, "input_current", "I_max", "Rated input current", desk.book.cite(rule));
    heading.source = "nameplate of the converter";
    return decided(desk, std::move(verdicts), usual, heading, input.rated_input);
}

TrackerCurrentResult check_tracker_currents(const Desk& desk, const TrackerCurrents& input) {
    TrackerCurrentResult result;
    const auto isc = nameplate_current(desk, "short_circuit_current", "I_sc",
                                       "Short-circuit current of the module", input.isc);
    const auto limit =
        nameplate_current(desk, "input_short_circuit_limit", "I_in,max",
                          "Short-circuit current limit of the input", input.short_circuit_limit);
    result.verdicts.push_back(
        check_by(desk,
                 {"input_current_kept", "Short-circuit current within the input limit",
                  "inverter.input.current"},
                 input.parallel == 1 ? isc : times("N_p", input.parallel) * isc, "≤", limit));
    if (input.operating_limit) {
        const Amps operating = input.imp * static_cast<double>(input.parallel);
        result.clipped = operating > *input.operating_limit;
        desk.sheet.choose(line_for(desk, "input_operating_current", {},
                                   "Operating current of the input", {{}, "equipment nameplate"}),
                          shown(operating) + (result.clipped ? " is cut off at " : " is within ") +
                              shown(*input.operating_limit),
                          {});
    }
    return result;
}

PowerPoint array_power_point(const Desk& desk, Volts vmp, Amps imp, int in_series, int parallel) {
    const Citation cite{{}, "equipment nameplate"};
    const auto module_volts = told(desk, "vmp", "V_mp", "Voltage of one module at maximum power",
                                   "module nameplate", vmp);
    const auto modules = told(desk, "modules_in_series", "N", "Modules in series", "as stated",
                              Ratio{double(in_series)});
    const auto volts = desk.sheet.define(line_for(desk, "array_power_point_voltage", "V_mp.array",
                                                  "Voltage of the array at maximum power", cite),
                                         modules * module_volts);
    const auto module_amps = told(desk, "imp", "I_mp", "Current of one module at maximum power",
                                  "module nameplate", imp);
    const auto strings = told(desk, "strings_in_parallel", "N_p", "Strings in parallel",
                              "as stated", Ratio{double(parallel)});
    const auto amps = desk.sheet.define(line_for(desk, "array_power_point_current", "I_mp.array",
                                                 "Current of the array at maximum power", cite),
                                        strings * module_amps);
    return {volts.value, amps.value};
}

namespace {

/// What the circuit is rated for before corrections.
Term<Amps> required_of(const Desk& desk, const DcCircuit& circuit) {
    return required_rating(desk, circuit.current,
                           circuit.assembly_at_full_rating ? "pv.conductor.assembly"
                                                           : "pv.conductor.continuous");
}

Term<Amps> ampacity_in_use(const Desk& desk, const ConductorResult& conductor) {
    const std::string key = desk.subject.substr(desk.subject.find(':') + 1);
    return desk.sheet.state(line_for(desk, "ampacity_in_use", "I_z",
                                     "Ampacity in use, corrected and at terminations",
                                     desk.book.cite("conductor.corrected")),
                            std::min(conductor.ampacity_corrected, conductor.ampacity_terminals),
                            {key + ".ampacity_corrected", key + ".ampacity_terminals"});
}

/// What other sources can feed into an unprotected circuit, or what stands behind a shared device.
void check_beyond(const Desk& desk, const DcCircuit& circuit, const ConductorResult& conductor,
                  RuleVerdicts& verdicts) {
    if (circuit.backfeed && !circuit.device) {
        verdicts.push_back(
            check_by(desk,
                     {"backfeed_carried", "Conductor carries what others can feed into it",
                      "pv.overcurrent.omitted"},
                     ampacity_in_use(desk, conductor), "≥", *circuit.backfeed));
    }
    if (circuit.device && !circuit.other_strings.empty()) {
        const std::string rule = "pv.conductor.shared_device";
        Term<Amps> sum = *circuit.device;
        for (const Term<Amps>& other : circuit.other_strings)
            sum = sum + other;
        const auto needed = desk.sheet.define(line_for(desk, "shared_device_current", "I_shared",
                                                       "Device and the other strings behind it",
                                                       desk.book.cite(rule)),
                                              sum);
        verdicts.push_back(check_by(
            desk, {"shared_device_carried", "Conductor behind a device of several strings", rule},
            ampacity_in_use(desk, conductor), "≥", needed));
    }
}

} // namespace

DcConductorResult size_dc_conductor(const Desk& desk, const DcCircuit& circuit,
                                    ConductorInput conditions) {
    conditions.continuous = circuit.current;
    conditions.required = required_of(desk, circuit);
    conditions.carries_by = "pv.conductor.corrected";
    conditions.unprotected = !circuit.device;
    conditions.overcurrent = circuit.device.value_or(conditions.required);
    DcConductorResult result{size_conductor(desk, conditions), {}};
    if (result.conductor.found)
        check_beyond(desk, circuit, result.conductor, result.verdicts);
    return result;
}

} // namespace ohmfolio
