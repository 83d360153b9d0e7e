/// Which terminals a piece of equipment and its parent are joined by, and what lies behind them.
/// Everything follows from kinds and from the order of the text; the terminals' names are those of
/// model/system.h.
#pragma once

#include <string>

#include "model/system.h"

namespace ohmfolio {

/// What the subtree of a piece of equipment holds.
struct Behind {
    bool pv = false;
    bool storage = false;
    bool generator = false;
    bool loads = false; ///< a panel, and so loads
};
Behind behind(const System& system, int equipment);
/// A panel with loads, or room for them; a panel that collects sources has none.
bool has_loads(const Equipment&);
/// The circuit from `child` to its parent carries direct current: of strings or of storage.
bool carries_direct_current(const System& system, int child);

/// Circuits from `child` to its parent: one, or one a branch from a junction box.
int circuit_count(const System& system, int child);
/// Terminal of `child` from which its circuit `n` (from 0) leaves.
std::string outgoing_terminal(const System& system, int child, int n);
/// Terminal of its parent to which that circuit goes.
std::string incoming_terminal(const System& system, int child, int n);
/// The first of the parent's numbered inputs that `child` takes, from 1.
int first_input(const System& system, int child);

/// An overcurrent device stands at the parent's terminal: breakers of combiners, MIDs and panels,
/// the fuses of a fused disconnect.
bool device_at_parent(const System& system, int child);

/// The meter that meets the utility; -1 when there is none.
int service_meter(const System& system);
/// The equipment ahead of everything else on the premises: what feeds the service meter.
bool is_service_equipment(const System& system, int equipment);

} // namespace ohmfolio
