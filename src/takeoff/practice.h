/// What the trade adds to what is drawn: waste, clips, straps, colors. The numbers stand in
/// takeoff/tables/practice.toml, each with its source.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "base/quantity.h"
#include "base/wire.h"

namespace ohmfolio {

/// Colors of the conductors of systems up to a voltage between lines.
struct WireColors {
    Volts up_to;
    std::array<std::string, 3> lines; ///< A, B, C
    std::string neutral;
};

/// How a raceway is strapped.
struct StrapRule {
    std::string kind; ///< "emt", "pvc" of either schedule
    TradeSize up_to;
    Feet from_box, apart;
    std::string section; ///< "358.30(A)"
};

struct Practice {
    double waste; ///< fraction
    Feet clip_spacing;
    Feet raceway_length;                    ///< of a straight length as sold
    int connectors_per_string;              ///< pairs
    WireSize remarked_from;                 ///< this size and larger may be marked at its ends
    std::string ground, positive, negative; ///< colors
    std::vector<WireColors> systems;        ///< by rising voltage
    std::vector<StrapRule> straps;

    const WireColors& colors(Volts between_lines) const;
    /// nullptr for what has no straps of its own: free air, cable.
    const StrapRule* strap(RacewayKind kind, TradeSize size) const;
};

const Practice& practice_of_trade();

/// Straps of a run of `length` between two boxes: within `from_box` of each, and no more than
/// `apart` from one to the next. One does for a run that it is near enough to both ends of.
int straps_for(Feet length, const StrapRule& rule);
/// Couplings of straight lengths joined end to end.
int couplings_for(Feet length, Feet piece);
/// Whole pieces for `amount`, never fewer than needed; noise of binary arithmetic does not count.
int whole_pieces(double amount);

} // namespace ohmfolio
