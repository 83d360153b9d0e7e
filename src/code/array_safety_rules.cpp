// Arc-fault and ground-fault protection of direct-current circuits.
#include "code/array_safety_rules.h"
#include "code/verdict_line.h"

namespace ohmfolio {

namespace {

/// Whether something is required, why, and by which paragraph it is or is not.
struct Need {
    bool required = false;
    std::string reason;
    std::string rule;
    std::vector<std::string> from = {};
};

/// Writes the need and, where there is one, whether it is met.
ProtectionResult answer(const Desk& desk, const std::string& name, const std::string& title,
                        const Need& need, bool provided) {
    ProtectionResult result{need.required, need.reason, {}};
    const std::string needed =
        desk.sheet
            .choose(line_for(desk, name + "_needed", {}, "Whether " + title + " is required",
                             desk.book.cite(need.rule)),
                    (need.required ? "required: " : "not required: ") + need.reason, need.from)
            .id;
    if (need.required) {
        result.verdicts.push_back(judge_by(desk, {name, "Listed " + title, need.rule},
                                           provided ? "provided" : "not stated to be provided",
                                           provided, {needed}));
    }
    return result;
}

bool metal_or_buried(DcMethod method) {
    return method == DcMethod::metal_raceway || method == DcMethod::enclosed_tray ||
           method == DcMethod::underground;
}

Need arc_fault_need(const Desk& desk, const ArcFaultInput& input) {
    const Volts threshold{desk.book.number("pv.arcfault")};
    const std::string& volts = input.voltage.figures;
    if (input.voltage.value < threshold)
        return {false, volts + " is below " + shown(threshold), "pv.arcfault", input.voltage.from};
    const bool any_circuit = desk.book.rule("pv.arcfault.exempt").exists;
    const bool method_exempt =
        metal_or_buried(input.method) || (any_circuit && input.method == DcMethod::mc_cable);
    if (!on_building(input.place) && method_exempt && (any_circuit || input.output_circuit)) {
        return {false, "away from buildings, in metal or underground",
                any_circuit ? "pv.arcfault.exempt" : "pv.arcfault.exempt.output",
                input.voltage.from};
    }
    return {true, volts + " is not below " + shown(threshold), "pv.arcfault", input.voltage.from};
}

/// Above either threshold; thresholds of nothing ask for protection always.
Need ground_fault_need(const Desk& desk, const GroundFaultInput& input) {
    const Volts volts{desk.book.number("pv.ground.fault.voltage")};
    const Amps amps{desk.book.number("pv.ground.fault.current")};
    const std::vector<std::string> from = detail::merged(input.voltage.from, input.current.from);
    const int most = static_cast<int>(desk.book.number("pv.ground.fault.circuits"));
    if (!on_building(input.place) && input.solidly_grounded && input.parallel <= most) {
        return {false,
                "solidly grounded, not more than " + std::to_string(most) +
                    " circuits, away from buildings",
                "pv.ground.fault.exempt", from};
    }
    if (volts.value <= 0) // an edition that names no thresholds
        return {true, "direct-current array", "pv.ground.fault", from};
    if (input.voltage.value > volts)
        return {true, input.voltage.figures + " is above " + shown(volts), "pv.ground.fault", from};
    if (input.current.value > amps)
        return {true, input.current.figures + " is above " + shown(amps), "pv.ground.fault", from};
    return {false,
            input.voltage.figures + " and " + input.current.figures + " are not above " +
                shown(volts) + " and " + shown(amps),
            "pv.ground.fault", from};
}

} // namespace

ProtectionResult check_arc_fault(const Desk& desk, const ArcFaultInput& input) {
    return answer(desk, "arc_fault", "arc-fault protection", arc_fault_need(desk, input),
                  input.provided);
}

ProtectionResult check_ground_fault(const Desk& desk, const GroundFaultInput& input) {
    return answer(desk, "ground_fault", "ground-fault protection", ground_fault_need(desk, input),
                  input.provided);
}

} // namespace ohmfolio
