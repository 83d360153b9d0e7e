/// Loads: the circuits of panels, and what a load calculation of the building needs to know.
#pragma once

#include <optional>
#include <string>

#include "base/quantity.h"
#include "base/source.h"
#include "model/supply.h"

namespace ohmfolio {

/// How a load counts in a load calculation (Article 220).
enum class LoadKind {
    general,   ///< lighting and receptacles, counted by floor area
    appliance, ///< fastened in place: counted by its nameplate
    range,     ///< cooking
    dryer,
    cooling,
    heating,   ///< electric resistance heat
    heat_pump, ///< counted with its supplementary heat, if any
    vehicle,   ///< EV supply equipment
    motor
};

struct LoadCircuit {
    std::string name;
    Spanned<Amps> breaker;
    int poles = 2;
    LoadKind kind = LoadKind::general;
    std::optional<Spanned<Watts>> power = {};       ///< nameplate
    std::optional<Spanned<Amps>> locked_rotor = {}; ///< of its largest motor
    bool added = false; ///< comes with this work: new in a calculation for an existing dwelling
    std::string shed_by = {}; ///< id of the load controller that may cut it off; empty: none
    Phases phases = {};       ///< lines of the bus that its poles sit on
};

enum class LoadMethod { optional_dwelling, existing_dwelling, metered, standard };

/// A dwelling, as its load calculation sees it; its appliances are loads of its panels.
struct DwellingLoad {
    LoadMethod method = LoadMethod::optional_dwelling;
    double floor_area = 0; ///< square feet
    int small_appliance_circuits = 2;
    int laundry_circuits = 1;
    Spanned<Watts> peak_demand{}; ///< metered, highest of a year
    Span span;
};

} // namespace ohmfolio
