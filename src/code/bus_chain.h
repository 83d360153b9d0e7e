/// Panels one behind the other: sources in a subpanel flow through every busbar and feeder up to
/// the service, so each is checked with all sources behind it (705.12 applies to each busbar and
/// feeder that sources reach).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "code/bus_rules.h"
#include "code/feeder_rules.h"

namespace ohmfolio {

/// The feeder that joins a panel to the one before it.
struct ChainFeeder {
    Term<Amps> ampacity;
    Term<Amps> device; ///< at the panel before; it is a breaker there
    /// Main in the panel behind it; nothing: main lugs. The smaller of the two protects the busbar.
    std::optional<Term<Amps>> main_beyond = {};
};
struct ChainBus {
    std::string subject; ///< "panel:SP1"
    /// `sources_125` are the sources on this busbar itself; those behind it are added, and limited
    /// where its power control says so. `main` is set aside for a busbar behind a feeder.
    BusInput bus;
    int behind = -1;                        ///< index of the panel before it; -1: the service
    std::optional<ChainFeeder> feeder = {}; ///< none for the first
};
struct ChainResult {
    std::string subject;
    Term<Amps> sources_125; ///< of all sources on the busbar and behind it
    std::vector<BusOption> options;
    RuleVerdicts feeder; ///< passes where no sources flow in it
    bool passes = false;
};
/// Panels in the order from the service inward: `behind` is an earlier index. A busbar that no
/// source reaches passes without options.
std::vector<ChainResult> check_bus_chain(const Desk&, const std::vector<ChainBus>&);

} // namespace ohmfolio
