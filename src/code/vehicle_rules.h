/// Vehicle supply equipment: its load (220.57, 625.42), its circuit (625.40, 625.41, 625.54), and
/// what it is when it feeds the premises (625.48).
#pragma once

#include <optional>
#include <vector>

#include "code/desk.h"
#include "code/load_rules.h"
#include "code/verdict.h"

namespace ohmfolio {

struct VehicleInput {
    Term<Amps>
        nameplate; ///< or the setting that replaces it on the nameplate (adjustable equipment)
    Volts voltage{240};
    std::optional<Term<Amps>> managed =
        {}; ///< largest current that a management system lets through
};
/// What the equipment counts in a load calculation. A managed current replaces the nameplate; else
/// 7200 VA is the least from 2023 on.
Term<Watts> vehicle_load(const Desk&, const VehicleInput&);

struct VehicleCircuitInput {
    Term<Amps> current; ///< nameplate, or the managed current
    Volts voltage{240};
    bool receptacle = false; ///< plug and receptacle; false: connected for good
    bool ground_fault_protected = false;
    bool shares_circuit = false; ///< other outlets are on the circuit
    bool managed = false;        ///< a management system shares out the circuit
    bool exports = false;        ///< can feed the premises
    bool listed_for_export = false;
};
struct VehicleCircuit {
    Term<Amps> required; ///< rating of conductor and device
    RuleVerdicts verdicts = {};
};
VehicleCircuit vehicle_circuit(const Desk&, const VehicleCircuitInput&);

} // namespace ohmfolio
