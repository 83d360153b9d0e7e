/// Raceways and how full they may be (Chapter 9).
#pragma once

#include <optional>
#include <vector>

#include "base/wire.h"
#include "code/desk.h"

namespace ohmfolio {

struct FillConductor {
    int count = 0;
    WireSize size{};
    Insulation insulation = Insulation::thwn_2; ///< bare for a bare equipment ground
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
};
RacewayResult size_raceway(const Desk&, const RacewayInput&);

} // namespace ohmfolio
