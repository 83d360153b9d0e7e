/// What a cloudless sky gives, in watts on a square meter.
///
/// The clear-sky model of the ASHRAE Handbook of Fundamentals (1972 to 2001; after J. L. Threlkeld,
/// R. C. Jordan, ASHRAE Transactions 64 (1958), p. 45), whose constants A, B, C for each month were
/// fitted to average cloudless days in the United States:
///   beam     A ÷ e ^ (B ÷ cos z), on a plane square to the sun at the zenith angle z
///   diffuse  C × beam, from the sky on the level ground
/// On a plane, the sky is taken as equally bright all over, and the ground as reflecting the same
/// to all sides (B. Y. H. Liu, R. C. Jordan, Solar Energy 7 (1963), p. 53).
///
/// South of the equator the season's constants are those of half a year away, and A follows the
/// sun's distance. In dry air high up the light is up to 15 % stronger, in hazy air as much weaker.
#pragma once

#include <compare>

#include "base/quantity.h"
#include "sun/solar_position.h"

namespace ohmfolio {

struct WattsPerSquareMeter {
    double value = 0.0;
    friend constexpr auto operator<=>(WattsPerSquareMeter, WattsPerSquareMeter) = default;
};

struct ClearSky {
    WattsPerSquareMeter beam;    ///< on a plane square to the sun
    WattsPerSquareMeter diffuse; ///< from the sky, on the level ground
    WattsPerSquareMeter global;  ///< both, on the level ground
};
/// `month` counts from 0, January. Dark when the sun is down.
ClearSky clear_sky(int month, Degrees latitude, Degrees zenith);

/// All that falls on a plane: the beam, its share of the sky, its share of what the ground gives
/// back. `albedo` is the ground's; 0.2 is usual for grass, earth and roofs without snow.
WattsPerSquareMeter on_plane(const ClearSky& sky, const SunPosition& sun, const PlaneAngles& plane,
                             Ratio albedo);

} // namespace ohmfolio
