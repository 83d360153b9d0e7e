/// Rapid shutdown of PV on buildings (690.12): whether it is required, which limits hold where, and
/// by which of the permitted ways a design meets them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "code/array_place.h"
#include "code/desk.h"
#include "code/verdict.h"

namespace ohmfolio {

/// What the array stands on.
enum class ArrayStands {
    building,
    open_structure, ///< detached and not enclosed: carport, shade, trellis
    ground
};
/// Where its circuits go.
enum class CircuitsGo {
    off_buildings,      ///< neither on nor in a building
    ends_outside,       ///< end on the outside of a building
    as_outside,         ///< in a building, but run as 230.6 counts as outside it
    equipment_building, ///< enter only a building that houses PV equipment alone
    into_building
};
struct ShutdownScope {
    bool required = false;
    std::string reason;
    std::string rule; ///< which paragraph decides
};
ShutdownScope shutdown_scope(const Desk&, ArrayStands, CircuitsGo);

/// Where a controlled conductor is: inside the boundary 80 V may remain, outside 30 V.
enum class BoundarySide { inside, outside };
struct ConductorPlace {
    bool in_building = false;
    Feet from_array{}; ///< shortest distance; on the outside of the building
    Feet from_entry{}; ///< length inside the building from the point of entry
};
BoundarySide boundary_side(const Desk&, const ConductorPlace&);

/// How a design shuts down.
enum class ShutdownMeans {
    none,
    microinverters,     ///< no direct-current circuit leaves a module; output stops with the supply
    module_electronics, ///< a device at each module or pair of modules opens or reduces it
    string_device       ///< a device at the array's edge opens the string
};
struct ShutdownDesign {
    ShutdownMeans means = ShutdownMeans::none;
    Term<Volts> string_voltage{}; ///< highest, of the whole string
    Term<Volts> module_voltage{}; ///< highest, of one module when cold
    int modules_per_device = 1;   ///< that stay in series behind one device
    /// Of the string, after shutdown, by what its devices state.
    std::optional<Term<Volts>> left_outside = {};
    std::optional<double> seconds = {}; ///< until then, as the devices state
    bool listed_system = false; ///< hazard control system (2017: array listed for rapid shutdown)
    bool exposed_parts = true;  ///< false: no exposed wiring, no exposed conductive parts
    Feet from_grounded_metal{}; ///< and from ground
    bool listed_equipment = false;
    /// What the description says is there, "electronics at each module", without naming it: stands
    /// for what no device's record states.
    std::string on_word = {};
};
/// One of the ways that are permitted inside the boundary.
struct ShutdownOption {
    std::string name; ///< "80 V within 30 s"
    std::string rule;
    bool exists = true; ///< false: the edition does not have it
    bool passes = false;
    std::string reason;
};
struct ShutdownResult {
    std::vector<ShutdownOption> inside;
    RuleVerdicts verdicts; ///< outside, inside (one of the options), time, listing
    bool passes() const { return all_pass(verdicts); }
};
ShutdownResult check_rapid_shutdown(const Desk&, const ShutdownDesign&);

struct ShutdownInitiation {
    bool dwelling = true;
    int devices = 1;
    bool readily_accessible = false, outdoors = false;
    bool grouped = true; ///< when more than one
};
RuleVerdicts check_shutdown_initiation(const Desk&, const ShutdownInitiation&);

} // namespace ohmfolio
