/// The optional methods for dwellings: a new or whole one (220.82), an existing one that is to
/// carry more (220.83). Nameplates are taken as they stand; only a share of what lies beyond the
/// first 10 or 8 kVA counts.
#pragma once

#include <optional>
#include <vector>

#include "code/load_rules.h"

namespace ohmfolio {

/// What all dwellings have. `appliances` are those fastened in place, permanently connected or on a
/// circuit of their own: ranges, ovens, dryers, water heaters, motors, each at its nameplate.
struct GeneralLoads {
    SquareFeet floor = {}; ///< outside dimensions; no open porches, garages, unfinished spaces
    int small_appliance_circuits = 2;
    int laundry_circuits = 1;
    std::vector<Term<Watts>> appliances = {};
    /// Of vehicle supply equipment, as `vehicle_load` gives them. The methods do not name vehicles;
    /// most read them as appliances, some reviewers ask for the whole load on top.
    std::vector<Term<Watts>> vehicles = {};
    bool vehicles_whole = false;
};

/// Heating and cooling, by nameplate; nothing where there is none.
struct ClimateLoads {
    std::optional<Term<Watts>> cooling = {};
    std::optional<Term<Watts>> heat_pump = {};         ///< compressor and fans
    std::optional<Term<Watts>> supplemental_heat = {}; ///< electric heat behind a heat pump
    bool compressor_locked_out = false; ///< cannot run together with the supplemental heat
    std::optional<Term<Watts>> space_heating = {};
    int space_heating_units = 1;                     ///< controlled apart
    std::optional<Term<Watts>> thermal_storage = {}; ///< and other heat that runs on at full load
};

struct OptionalInput {
    GeneralLoads general;
    ClimateLoads climate = {};
    bool one_dwelling_unit = true;
    bool three_wire = true; ///< 120/240 V or 208Y/120 V, 3-wire
};
/// Optional method, 220.82. Asks for the rating of the service, which decides whether it applies;
/// without one it is taken to apply.
LoadResult optional_dwelling_load(const Desk&, const OptionalInput&, const ServiceInput&);

struct ExistingInput {
    GeneralLoads general;      ///< what is there and what is added
    ClimateLoads climate = {}; ///< likewise
    bool climate_added =
        false; ///< heating or cooling is added or replaced by larger: (B), else (A)
    bool three_wire = true;
};
/// Existing dwelling, 220.83.
LoadResult existing_dwelling_load(const Desk&, const ExistingInput&, const ServiceInput&);

} // namespace ohmfolio
