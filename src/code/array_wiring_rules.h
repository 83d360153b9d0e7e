/// Wiring methods of direct-current circuits (690.31): which insulation, which method where, what
/// may run together, how conductors are told apart.
#pragma once

#include <string>

#include "base/wire.h"
#include "code/array_safety_rules.h"
#include "code/desk.h"
#include "code/verdict.h"

namespace ohmfolio {

struct DcInsulation {
    Insulation kind = Insulation::pv_wire;
    Volts rating{};                  ///< printed on it: 600, 1000, 2000 V
    bool sunlight_resistant = false; ///< printed on it; PV wire is by its listing
    bool marked_for_raceway = false; ///< USE-2 that is also RHW-2 or XHHW-2
    DcMethod method = DcMethod::exposed_singles;
    Term<Volts> voltage{}; ///< highest of the circuit
};
/// Insulation against voltage, sunlight and raceway.
RuleVerdicts check_dc_insulation(const Desk&, const DcInsulation&);

struct DcRoute {
    DcMethod method = DcMethod::exposed_singles;
    Term<Volts> voltage{};
    Term<Amps> current{};
    bool inside_building = false;
    bool readily_accessible = false; ///< to people without training
    bool guarded = false;            ///< screened, fenced or out of reach
    bool at_penetration = false;     ///< only where it enters the building
    bool hazard_control_system = false;
    bool with_other_systems = false; ///< shares enclosure, cable or raceway
    bool barrier = false;
};
/// The method where it runs: inside buildings, within reach, beside other systems.
RuleVerdicts check_dc_route(const Desk&, const DcRoute&);

/// Colors of conductors as the trade names them: "black", "red", "white", "gray", "green", "blue".
struct DcIdentification {
    std::string positive = "black", negative = "black";
    bool polarity_marked = false; ///< at every termination, connection and splice
    /// Which conductor is solidly grounded, if any.
    enum class Solid { none, positive, negative } solid = Solid::none;
};
RuleVerdicts check_dc_identification(const Desk&, const DcIdentification&);

} // namespace ohmfolio
