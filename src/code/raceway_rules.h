/// Raceways and how full they may be (Chapter 9). Trade sizes begin with 1/2.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/wire.h"
#include "code/desk.h"

namespace ohmfolio {

/// Conductors alike. Equipment grounding conductors belong to the list, insulated or bare: they
/// take room, whatever they carry.
struct FillConductor {
    int count = 0;
    WireSize size{};
    Insulation insulation = Insulation::thwn_2; ///< bare for a bare equipment ground
    /// Outer diameter in inches by its maker, for what no table lists: PV wire, cables. Of an
    /// elliptical cable the major one. 0: by the table.
    double outer_diameter = 0;
    std::string called = {}; ///< "PV wire", "trunk cable"; empty: the insulation's name
    bool cable = false;      ///< of several conductors: counts as one
};
struct RacewayInput {
    RacewayKind kind = RacewayKind::emt;
    std::vector<FillConductor> conductors = {};
    Feet length{};
    std::optional<TradeSize> stated = {};
};
struct RacewayResult {
    bool found = false;
    TradeSize size{};
    SquareInches conductors{}, allowed{}, inside{};
    double fill = 0;
    bool passes = true;
    bool may_jam = false; ///< advice: three conductors alike, the raceway about three times as wide
    std::optional<TradeSize> smallest_that_complies = {};
};
RacewayResult size_raceway(const Desk&, const RacewayInput&);

/// How many conductors alike a raceway holds, as Annex C counts them: one where 53 % of it is
/// enough, two where 31 % is, more by 40 %; a number that ends in 0.8 or more is rounded up.
/// Nothing when a table lacks the raceway or the conductor.
std::optional<int> most_conductors(const CodeBook&, RacewayKind, TradeSize, const FillConductor&,
                                   bool nipple = false);

} // namespace ohmfolio
