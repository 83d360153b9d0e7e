/// The standard method for dwellings (Article 220, Part III): each kind of load at its own demand
/// factor, then the sum. Cooking and drying are of single-phase services: on three phases the code
/// counts twice what hangs between two of them, which is not worked out here.
#pragma once

#include <optional>
#include <vector>

#include "code/load_rules.h"

namespace ohmfolio {

struct StandardInput {
    SquareFeet floor = {};
    int dwelling_units = 1; ///< `floor` and the circuits are of one unit
    int small_appliance_circuits = 2;
    int laundry_circuits = 1;
    /// Fastened in place; no cooking, drying, heating, cooling or vehicles among them.
    std::vector<Term<Watts>> appliances = {};
    std::vector<Term<Watts>> dryers = {};
    std::vector<Term<Watts>> cooking = {}; ///< ranges, ovens, cooktops
    std::optional<Term<Watts>> heating = {};
    std::optional<Term<Watts>> cooling = {};
    std::optional<Term<Watts>> largest_motor = {}; ///< other than that of the cooling
    std::vector<Term<Watts>> vehicles = {};        ///< as `vehicle_load` gives them
    std::vector<Term<Watts>> others = {};          ///< at 100 %
};
LoadResult standard_dwelling_load(const Desk&, const StandardInput&, const ServiceInput&);

// The parts, each a line of the sum.
/// Lighting, receptacles, small-appliance and laundry circuits at their demand factors.
Term<Watts> lighting_demand(const Desk&, const StandardInput&);
/// Four or more appliances at 75 %; in later editions only those of 500 VA or more count as such.
Term<Watts> appliance_demand(const Desk&, const std::vector<Term<Watts>>& appliances);
/// Each at 5000 VA at least, together at the table's share.
Term<Watts> dryer_demand(const Desk&, const std::vector<Term<Watts>>& dryers);
/// By Table 220.55: all by column C and notes 1 and 2, or the small ones by columns A and B (note
/// 3) and the others by column C, whichever is less. Above 27 kW the table ends: the nameplate
/// counts.
Term<Watts> cooking_demand(const Desk&, const std::vector<Term<Watts>>& appliances);
/// The load of one circuit: a range by the table, a cooktop with up to two ovens as one range, an
/// oven or a cooktop alone by its nameplate (note 4).
enum class CookingCircuit { range, cooktop_with_ovens, single_unit };
Term<Watts> cooking_circuit_load(const Desk&, CookingCircuit, const std::vector<Term<Watts>>&);
/// The larger of heating and cooling, each with 25 % of the largest motor that runs beside it.
/// Nothing: there is neither, nor a motor.
std::optional<Term<Watts>> climate_demand(const Desk&, const StandardInput&);

/// The neutral (220.61): lighting and other loads whole, cooking and drying at 70 %, and of what is
/// beyond 200 A 70 %.
struct NeutralInput {
    Term<Watts> lighting;
    std::optional<Term<Watts>> cooking = {}, drying = {};
    std::vector<Term<Watts>> others = {};
    Volts voltage{240};
};
struct NeutralLoad {
    Term<Watts> load;
    Term<Amps> amps;
};
NeutralLoad neutral_load(const Desk&, const NeutralInput&);

} // namespace ohmfolio
