/// What protects people and roofs from an array: arc-fault protection (690.11) and ground-fault
/// protection (690.41(B)).
#pragma once

#include <string>

#include "code/array_place.h"
#include "code/desk.h"
#include "code/verdict.h"

namespace ohmfolio {

/// How a direct-current circuit runs.
enum class DcMethod {
    exposed_singles, ///< single conductors, as under modules
    metal_raceway,   ///< EMT, RMC, FMC, LFMC, metal wireway, metal enclosure
    nonmetallic_raceway,
    mc_cable,
    jacketed_cable, ///< multiconductor, jacketed
    enclosed_tray,  ///< enclosed metallic cable tray
    underground     ///< buried, in raceway or not
};

struct ArcFaultInput {
    Term<Volts> voltage{}; ///< highest of the circuit
    ArrayPlace place = ArrayPlace::dwelling;
    bool output_circuit = false; ///< of a combiner or of converters; else a string
    DcMethod method = DcMethod::exposed_singles;
    bool provided = false; ///< listed protection, commonly in the inverter
};
struct ProtectionResult {
    bool required = false;
    std::string reason;
    RuleVerdicts verdicts = {}; ///< the one on what is provided, when it is required
    bool passes() const { return all_pass(verdicts); }
};
ProtectionResult check_arc_fault(const Desk&, const ArcFaultInput&);

struct GroundFaultInput {
    Term<Volts> voltage{};
    Term<Amps> current{}; ///< by 690.8(A)
    ArrayPlace place = ArrayPlace::dwelling;
    int parallel = 1; ///< circuits in parallel
    bool solidly_grounded = false;
    bool provided = false; ///< listed protection, commonly in the inverter
};
ProtectionResult check_ground_fault(const Desk&, const GroundFaultInput&);

} // namespace ohmfolio
