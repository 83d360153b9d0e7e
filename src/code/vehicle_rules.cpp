#include "code/vehicle_rules.h"

#include "code/load_terms.h"
#include "code/overcurrent_rules.h"
#include "code/rounding.h"
#include "code/verdict_line.h"

namespace ohmfolio {

Term<Watts> vehicle_load(const Desk& desk, const VehicleInput& input) {
    const MethodDesk method{desk, "vehicle"};
    const auto volts = given("V", input.voltage, "voltage");
    if (input.managed) {
        return desk.sheet.define(method.line("load", "S_EV",
                                             "Vehicle load that the management lets through",
                                             "vehicle.setting"),
                                 volts * lesser(input.nameplate, *input.managed));
    }
    const bool has_least = desk.book.rule("vehicle.load").exists;
    const auto nameplate = volts * input.nameplate;
    Heading heading = method.line("load", "S_EV", "Vehicle load",
                                  has_least ? "vehicle.load" : "vehicle.overcurrent");
    if (!has_least) {
        heading.cite = {{}, "equipment nameplate"};
        return desk.sheet.define(heading, nameplate);
    }
    return desk.sheet.define(heading,
                             larger(nameplate, volt_amperes(method.number("vehicle.least"))));
}

namespace {

std::optional<RuleVerdict> own_circuit(const Desk& desk, const VehicleCircuitInput& input) {
    const bool asked =
        !at_most(input.current.value.value, desk.book.number("vehicle.branch.amps")) ||
        !at_most(input.voltage.value, desk.book.number("vehicle.branch.volts"));
    if (!asked)
        return std::nullopt;
    const bool passes = !input.shares_circuit || input.managed;
    const std::string statement = !input.shares_circuit ? "the outlet has a circuit of its own"
                                  : input.managed
                                      ? "the outlets of the circuit are under management"
                                      : "other outlets are on the circuit";
    return judge_by(desk, {"vehicle_branch", "Circuit of its own", "vehicle.branch"}, statement,
                    passes, input.current.from);
}

std::optional<RuleVerdict> ground_fault(const Desk& desk, const VehicleCircuitInput& input) {
    if (!input.receptacle)
        return std::nullopt;
    return judge_by(
        desk,
        {"vehicle_receptacle", "Receptacle has ground-fault protection", "vehicle.receptacle"},
        input.ground_fault_protected ? "the receptacle has ground-fault protection"
                                     : "no ground-fault protection is stated",
        input.ground_fault_protected);
}

std::optional<RuleVerdict> export_listed(const Desk& desk, const VehicleCircuitInput& input) {
    if (!input.exports)
        return std::nullopt;
    return judge_by(desk,
                    {"vehicle_export", "Equipment is listed as a power source", "vehicle.export"},
                    input.listed_for_export ? "the equipment is listed to feed the premises"
                                            : "no listing to feed the premises is stated",
                    input.listed_for_export);
}

} // namespace

VehicleCircuit vehicle_circuit(const Desk& desk, const VehicleCircuitInput& input) {
    return {required_rating(desk, input.current, "vehicle.overcurrent"),
            those_given(
                {own_circuit(desk, input), ground_fault(desk, input), export_listed(desk, input)})};
}

} // namespace ohmfolio
