/// Questions that the study asks of the tree: which circuit goes on where another ends, what
/// protects it, what feeds it. Answers are indices into the system; -1 means none.
#pragma once

#include <string>
#include <vector>

#include "model/system.h"

namespace ohmfolio::workings {

/// An element by an index of the model, which is signed so that -1 can mean none.
template <class T> T& at(std::vector<T>& all, int index) {
    return all[static_cast<std::size_t>(index)];
}
template <class T> const T& at(const std::vector<T>& all, int index) {
    return all[static_cast<std::size_t>(index)];
}

/// Leaving toward the utility.
const std::vector<int>& circuits_from(const System&, int equipment);
/// Arriving from its children.
const std::vector<int>& circuits_into(const System&, int equipment);

/// The first for which `holds`, of `equipment` and what stands between it and the utility.
template <class F> int first_upward(const System& system, int equipment, F holds) {
    int i = equipment;
    while (i >= 0 && !holds(i))
        i = at(system.equipment, i).parent;
    return i;
}

/// The circuit that carries on where `circuit` ends at its parent, toward the utility. In a
/// junction box that is the splice of the same number ("in2" to "out2").
int next_circuit(const System&, int circuit);
/// The circuits that carry on into `circuit`.
std::vector<int> feeding(const System&, int circuit);
/// All circuits, each after those that feed it.
std::vector<int> sources_first(const System&);
/// The breaker that protects `circuit`: the first on its way toward the utility, before any bus.
int protecting_breaker(const System&, int circuit);
/// The device at the source end of `circuit`, in the equipment that it leaves.
int device_behind(const System&, int circuit);
/// Index of the breaker of exactly this circuit.
int breaker_of(const System&, int circuit);
/// The run whose child is `equipment`.
int run_of(const System&, int equipment);

bool is_bus(const Equipment&);
bool is_source(const Equipment&);
/// A storage circuit on the direct-current side of an inverter.
bool is_dc_storage(const Circuit&);
/// Whether an overcurrent device stands between the bus of `equipment` and the utility: a main, a
/// breaker or fuses on the way, a transfer switch that is service equipment. The rating of the
/// service is none.
bool has_device_ahead(const System&, int equipment);
/// Whether an inverter carries a panel by itself when the grid is away.
bool backs_up(const System&, int inverter);
/// PV that holds a grid without storage; an inverter needs strings for it.
bool forms_by_sun(const System&, const Equipment&);
/// Whether any PV or storage lies below or at `equipment`.
bool has_sources(const System&, int equipment);
/// Sources alone, which a disconnect of their own joins to the service conductors.
bool is_on_supply_side(const System&, int equipment);
/// Branches below `equipment`, in the order of the text.
std::vector<int> branches_below(const System&, int equipment);
std::vector<int> batteries_below(const System&, int equipment);
std::vector<int> generators_below(const System&, int equipment);
/// The device that parts `equipment` and what it feeds from the utility: the nearest interconnect
/// device or transfer switch on the way there, itself included; -1 when there is none.
int island_head(const System&, int equipment);

/// The microinverters that a trunk joins, whose record describes the cable too.
const MicroinverterRatings& microinverter_of(const System&, const Circuit& trunk);

/// Whether the occupancy, in the drafter's words, is a dwelling. Unstated is not: the relief for
/// dwelling services must be claimed.
bool is_dwelling(const System&);

/// Lowest marked temperature of the terminations at both ends.
Celsius terminals(const System&, const Circuit&);
std::string ends(const System&, const Circuit&);             ///< "JB-1 to CP-1"
std::string called(const System&, const Circuit&);           ///< "C5 (JB-1 to CP-1)"
std::string subject_of(const Circuit&);                      ///< "circuit:C5"
std::string subject_of(const Breaker&);                      ///< "breaker:Q5"
std::string subject_of(const Run&);                          ///< "run:R5"
std::string subject_of(const Equipment&);                    ///< "equipment:CP-1"
std::string pair_subject(const System&, const BranchArray&); ///< "pair:module+microinverter"

} // namespace ohmfolio::workings
