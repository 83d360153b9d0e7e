#include "sun/clear_sky.h"

#include <algorithm>

namespace ohmfolio {

namespace {

struct Air {
    double a; ///< W/m², apparent light above the air
    double b; ///< extinction
    double c; ///< diffuse to beam
};
constexpr std::array<Air, 12> northern_air = {{{1230, 0.142, 0.058},
                                               {1215, 0.144, 0.060},
                                               {1186, 0.156, 0.071},
                                               {1136, 0.180, 0.097},
                                               {1104, 0.196, 0.121},
                                               {1088, 0.205, 0.134},
                                               {1085, 0.207, 0.136},
                                               {1107, 0.201, 0.122},
                                               {1151, 0.177, 0.092},
                                               {1192, 0.160, 0.073},
                                               {1221, 0.149, 0.063},
                                               {1233, 0.142, 0.057}}};

double distance_factor_of(std::size_t month) {
    return distance_factor(typical_year().at(month).day).value;
}

Air air_of(std::size_t month, Degrees latitude) {
    if (latitude.value >= 0)
        return northern_air.at(month);
    const std::size_t opposite = (month + 6) % 12;
    Air air = northern_air.at(opposite);
    air.a *= distance_factor_of(month) / distance_factor_of(opposite);
    return air;
}

} // namespace

ClearSky clear_sky(int month, Degrees latitude, Degrees zenith) {
    if (zenith.value >= 90)
        return {};
    const Air air = air_of(static_cast<std::size_t>(month), latitude);
    const double beam = air.a * std::exp(-air.b / cosine(zenith));
    const double diffuse = air.c * beam;
    return {{beam}, {diffuse}, {beam * cosine(zenith) + diffuse}};
}

WattsPerSquareMeter on_plane(const ClearSky& sky, const SunPosition& sun, const PlaneAngles& plane,
                             Ratio albedo) {
    const double beam = sky.beam.value * std::max(0.0, cosine_of_incidence(sun, plane));
    const double share_of_sky = (1 + cosine(plane.tilt)) / 2;
    const double share_of_ground = (1 - cosine(plane.tilt)) / 2;
    return {beam + sky.diffuse.value * share_of_sky +
            sky.global.value * albedo.value * share_of_ground};
}

} // namespace ohmfolio
