/// What was there before this work, and stays.
#pragma once

#include "model/system.h"

namespace ohmfolio {

inline bool stays(const Equipment& e) { return e.existing || e.is<Utility>(); }

/// Both of its ends were there, and so was the circuit.
inline bool is_existing(const System& system, const Circuit& circuit) {
    return stays(system.at(system.child_of(circuit))) &&
           stays(system.at(system.parent_of(circuit)));
}

/// Conductors that were there and whose size the description leaves out: what the schedules then
/// show is worked out, and is to be verified in the field. Trunk cable has that of its record.
inline bool is_size_unverified(const System& system, const Circuit& circuit) {
    return is_existing(system, circuit) && !circuit.by_utility && !circuit.stated_size &&
           circuit.use != CircuitUse::trunk;
}

} // namespace ohmfolio
