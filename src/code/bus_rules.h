/// Sources on a busbar: each rule by which 705.12 and 705.13 let them connect on the load side.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "code/desk.h"

namespace ohmfolio {

/// Conductors on lugs of the busbar, without a breaker of the panel between.
struct FeedThrough {
    Term<Amps> ampacity;
    std::optional<Term<Amps>> supply_device = {}; ///< overcurrent device where they begin
    std::optional<Term<Amps>> load_device = {};   ///< where they end: main of the next panel
};

/// A power control system that limits currents on the busbar (705.13). It may hold its sources to a
/// setting, or all that flows on the busbar, or both.
struct PowerControlOnBus {
    std::optional<Term<Amps>> sources = {}; ///< most that the controlled sources deliver together
    std::optional<Term<Amps>> uncontrolled_125 = {}; ///< 125 % of sources it does not control
    std::optional<Term<Amps>> bus = {};              ///< most that all supplies bring to the busbar
    bool listed = false;                             ///< false: not stated
};

struct BusInput {
    Term<Amps> bus;         ///< rating of the busbar; of several, the smallest
    Term<Amps> main;        ///< overcurrent device that protects the bus from the utility
    Term<Amps> sources_125; ///< 125 % of the output currents of all sources on it
    std::vector<Term<Amps>> breakers = {}; ///< all load and source breakers, main excluded
    bool opposite_end = false;             ///< false: not stated
    bool centre_fed = false;               ///< with the sources at one end
    bool dwelling = true;
    bool loads_described = true;     ///< false: `breakers` may lack those of the loads
    bool several_ampacities = false; ///< sections of different ampacity, see `check_bus_sections`
    bool single_load = false; ///< cannot supply more than one branch circuit or feeder; not stated
    std::optional<FeedThrough> feed_through = {};
    std::optional<PowerControlOnBus> power_control = {};
    std::string engineered_study = {}; ///< the document that covers the connection; empty: none
};
struct BusOption {
    std::string rule;    ///< "Sum of main and sources"
    std::string rule_id; ///< "bus.sum"
    Citation cite;
    bool applies = true;
    bool passes = false;
    bool counted = false; ///< does not apply by itself, but limits what the others count
    std::string reason;
    std::vector<std::string> steps = {};
};
/// Every load-side rule for busbars, tried in the order of the edition: sum of main and sources,
/// 120 % at opposite ends, sum of breakers, center-fed; then, of what the input describes,
/// equipment for a single load, the engineered study, feed-through conductors and the power control
/// system. Feed-through conductors that are too small for what may flow in them fail every rule but
/// the study.
std::vector<BusOption> try_bus_rules(const Desk&, const BusInput&);
/// True when one of the rules passes.
bool any_passes(const std::vector<BusOption>& options);

/// What counts as the 125 % of the sources: with a listed power control system, where the edition
/// knows one, 125 % of its setting and of what it does not control, if that is less. Records lines
/// only where the setting counts.
Term<Amps> sources_counted(const Desk&, const BusInput&);

/// A busbar section of its own ampacity.
struct BusSection {
    std::string name; ///< "upper section", part of the derivations' ids as "upper_section"
    Term<Amps> rating;
    Term<Amps> device;                     ///< what protects the section from the utility
    Term<Amps> sources_125;                ///< of all sources whose current may flow in the section
    std::vector<Term<Amps>> breakers = {}; ///< all on the section and on those that it supplies
};
struct BusSectionResult {
    std::string name;
    std::vector<BusOption> options; ///< sum of main and sources, sum of breakers
    bool passes = false;
};
/// Busbars of several ampacities: each section by itself, by the rules that ask nothing of places.
std::vector<BusSectionResult> check_bus_sections(const Desk&, const std::vector<BusSection>&);

} // namespace ohmfolio
