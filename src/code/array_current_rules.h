/// Currents of direct-current circuits and the conductors that carry them (690.8).
///
/// `source_circuit_current` and `required_rating` (overcurrent_rules.h) are the usual way; this
/// header adds what an array of several strings, converters and engineered currents need.
#pragma once

#include <optional>
#include <vector>

#include "code/conductor_rules.h"
#include "code/verdict.h"

namespace ohmfolio {

/// Current where strings meet: the sum of theirs, which may differ.
Term<Amps> output_circuit_current(const Desk&, const std::vector<Term<Amps>>& strings);
/// Current of dc-to-dc converters in parallel: the sum of their continuous outputs.
Term<Amps> converter_circuit_current(const Desk&, Amps continuous_output, int parallel);

/// A current that an engineer states: the highest 3-hour mean of simulated irradiance.
struct EngineeredCurrent {
    Amps highest_mean{};
    Watts generating_capacity{};
    bool documented = false; ///< design documented and stamped
};
struct CurrentResult {
    bool accepted = false;
    Term<Amps> current{}; ///< where not accepted, that of the usual method
    RuleVerdicts verdicts = {};
};
/// Against `usual`, the 125 % of the short-circuit currents. Refused when the system is too small,
/// the design is not documented, or the value falls under its share of the usual one.
CurrentResult engineered_current(const Desk&, const Term<Amps>& usual, const EngineeredCurrent&);

/// From 2020: a circuit at the input of an inverter or converter may be taken at the rated input
/// current where its device does not exceed the ampacity of its conductors.
struct RatedInput {
    Amps rated_input{};
    std::optional<Amps> device = {};
    Amps conductor_ampacity{};
};
CurrentResult converter_input_current(const Desk&, const Term<Amps>& usual, const RatedInput&);

/// What an input of an inverter takes: short-circuit current above its limit is refused, operating
/// current above its limit is cut off. Verdicts "inverter.input.current".
struct TrackerCurrents {
    Amps isc{}, imp{};
    int parallel = 1;
    Amps short_circuit_limit{};
    std::optional<Amps> operating_limit = {};
};
struct TrackerCurrentResult {
    bool clipped = false; ///< operating current above what the input uses; no fault
    RuleVerdicts verdicts = {};
};
TrackerCurrentResult check_tracker_currents(const Desk&, const TrackerCurrents&);

/// Voltage and current at maximum power, at standard test conditions, of an array.
struct PowerPoint {
    Volts volts{};
    Amps amps{};
};
PowerPoint array_power_point(const Desk&, Volts vmp, Amps imp, int in_series, int parallel);

/// A direct-current circuit whose conductors are wanted.
struct DcCircuit {
    Term<Amps> current{};                    ///< by 690.8(A)
    std::optional<Term<Amps>> device = {};   ///< nothing: none protects it (690.9(A))
    std::optional<Term<Amps>> backfeed = {}; ///< what other sources can feed into a fault in it
    bool assembly_at_full_rating = false;    ///< listed for 100 % continuous operation
    std::vector<Term<Amps>> other_strings{}; ///< that share `device` with it (690.8(D))
};
struct DcConductorResult {
    ConductorResult conductor;
    RuleVerdicts verdicts = {}; ///< beyond those of the conductor itself
    bool passes() const { return conductor.found && conductor.passes && all_pass(verdicts); }
};
/// The larger of 125 % before corrections and 100 % after them, with every check of
/// `size_conductor`; then the ampacity in use against what else can flow. `conditions` states
/// material, temperatures, bundling and size; its currents and device are filled in here.
DcConductorResult size_dc_conductor(const Desk&, const DcCircuit&, ConductorInput conditions);

} // namespace ohmfolio
