/// Available fault current from the utility to the last panel, by the point-to-point method, and
/// whether equipment interrupts or withstands it (110.9, 110.10, 240.86, 110.24). Currents are
/// symmetrical, rms.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/wire.h"
#include "code/desk.h"

namespace ohmfolio {

/// Between what the fault lies, and the voltage that drives it: between lines, or line to neutral.
enum class FaultPath { three_phase, line_to_line, line_to_neutral };

/// A transformer whose primary is supplied without limit, so that its impedance alone limits.
struct TransformerFaultInput {
    Watts rating{};    ///< volt-amperes
    Volts secondary{}; ///< between lines
    int phases = 3;
    double impedance = 0;        ///< by nameplate, as a share: 0.02 for 2 %
    bool least_impedance = true; ///< less the tolerance of 10 %: the most that it may feed
};
Term<Amps> transformer_fault_current(const Desk&, const TransformerFaultInput&);

/// At the terminals of a center-tapped single-phase transformer a fault to neutral is the higher
/// one; further away it is the lower one, since its voltage is half.
Term<Amps> fault_to_neutral(const Desk&, const Term<Amps>& line_to_line);

/// What the utility states for the service.
Term<Amps> stated_fault_current(const Desk&, Amps available, const std::string& stated_by);

struct FaultRunInput {
    Term<Amps> available; ///< where the run begins
    FaultPath path = FaultPath::line_to_line;
    Volts voltage{240}; ///< of the path
    Feet length{};      ///< one way
    WireSize size{};
    Material material = Material::copper;
    RacewayKind raceway = RacewayKind::emt;
    int sets = 1;                                   ///< in parallel
    std::optional<WireSize> neutral = {};           ///< where it differs from the lines
    std::optional<FeetPerOhm> stated_constant = {}; ///< in place of the table's
};
struct FaultRunResult {
    bool found = false; ///< false: no constant is listed, and a line says so
    Term<Amps> current; ///< where the run ends
    double f = 0, m = 0;
};
/// A circuit may be followed along two paths: the lines of that to neutral have names of their own
/// ("fault_neutral_f" beside "fault_f").
FaultRunResult fault_current_after_run(const Desk&, const FaultRunInput&);

/// A transformer within the premises: from the fault current at its primary to that at its
/// secondary.
struct TransformerStepInput {
    Term<Amps> available; ///< at the primary
    Volts primary{}, secondary{};
    Watts rating{};
    int phases = 3;
    double impedance = 0;
    bool least_impedance = true;
};
FaultRunResult fault_current_after_transformer(const Desk&, const TransformerStepInput&);

/// What else feeds the fault: an inverter or storage system, by its nameplate.
struct FaultContribution {
    std::string symbol; ///< "I_PV1"
    Amps current{};
};
/// The sum, "fault_total". `motors`: full-load current of motors that run together.
Term<Amps> add_fault_contributions(const Desk&, const Term<Amps>& utility,
                                   const std::vector<FaultContribution>&, Amps motors = {});

/// A breaker of too low a rating behind a device that was tested together with it (240.86(B)).
/// Combinations that an engineer selects for existing equipment, 240.86(A), are not judged here.
struct SeriesRating {
    Amps rating{};       ///< of the combination
    std::string with;    ///< the device ahead, for the text
    bool listed = false; ///< tested combination of these devices in this equipment
    bool marked = false; ///< on the equipment
    Amps motors{};       ///< full-load current of motors between the two devices
};
struct InterruptingInput {
    Term<Amps> available;
    Term<Amps> rating;      ///< interrupting or withstand rating
    bool interrupts = true; ///< false: a panel or switch that only withstands the current
    std::optional<SeriesRating> series = {};
};
struct InterruptingResult {
    bool passes = false;
    bool by_series_rating = false;
    std::vector<std::string> faults = {}; ///< in words
};
InterruptingResult check_interrupting(const Desk&, const InterruptingInput&);

/// Whether service equipment must be marked with the fault current (110.24); a line tells why.
struct FaultMarkingInput {
    bool service_equipment = true;
    bool dwelling = false;
    bool qualified_industrial = false; ///< only qualified persons service it
    bool modified = false; ///< existing equipment whose fault current the work may change
};
bool needs_fault_marking(const Desk&, const FaultMarkingInput&);

} // namespace ohmfolio
