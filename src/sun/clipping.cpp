#include "sun/clipping.h"

#include <algorithm>
#include <numbers>
#include <stdexcept>

namespace ohmfolio {

namespace {

constexpr double reference_light = 1000; ///< W/m², of standard test conditions
constexpr double reference_cell = 25;    ///< °C
constexpr double nominal_light = 800;    ///< W/m², of the nominal operating cell temperature
constexpr double nominal_air = 20;       ///< °C
constexpr int minutes_of_day = 24 * 60;

Watts dc_power(const ClippingInput& input, int month, Hours solar_time) {
    const auto index = static_cast<std::size_t>(month);
    const SunPosition sun = sun_position(input.latitude, typical_year().at(index).day, solar_time);
    Watts sum{};
    if (!sun.up())
        return sum;
    const ClearSky sky = clear_sky(month, input.latitude, sun.zenith);
    for (const ArrayPlane& plane : input.planes) {
        const WattsPerSquareMeter light = on_plane(sky, sun, plane.angles, input.albedo);
        sum = sum + module_power(plane.rated, input.power_per_celsius, light,
                                 cell_temperature(input.air.at(index), input.nominal_cell, light));
    }
    return sum;
}

/// Counts a step of the year in.
void add(ClippingResult& result, const ClippingInput& input, Watts dc, Hours time) {
    const Watts possible = dc * input.efficiency.value;
    const Watts given = std::min(possible, input.output);
    result.available = result.available + possible * time;
    if (possible > input.output) {
        result.clipped = result.clipped + (possible - given) * time;
        result.clipping = result.clipping + time;
    }
    result.peak_dc = std::max(result.peak_dc, dc);
    result.peak_ac = std::max(result.peak_ac, given);
}

} // namespace

Celsius cell_temperature(Celsius air, Celsius nominal, WattsPerSquareMeter light) {
    return air + CelsiusDelta{(nominal.value - nominal_air) / nominal_light * light.value};
}

Watts module_power(Watts rated, double per_celsius, WattsPerSquareMeter light, Celsius cell) {
    const double warmth = 1 + per_celsius * (cell.value - reference_cell);
    return rated * (light.value / reference_light * std::max(0.0, warmth));
}

PowerCoefficient power_coefficient(std::optional<double> stated, std::optional<double> of_vmp,
                                   std::optional<double> of_voc) {
    constexpr double reference_kelvin = 298.15;
    constexpr double of_current = 0.0006; // silicon, short circuit
    if (stated)
        return {*stated, "stated"};
    if (of_vmp)
        return {*of_vmp, "that of the voltage at maximum power"};
    if (of_voc) {
        const double of_fill_factor = (*of_voc - 1 / reference_kelvin) / 6;
        return {of_current + *of_voc + of_fill_factor,
                "derived from that of the open-circuit voltage"};
    }
    return {-0.0035, "common for silicon"};
}

std::array<Celsius, 12> daytime_temperatures(Celsius coldest, Celsius hottest, Degrees latitude) {
    constexpr double winter = 0.40, summer = 0.90; // of the way from coldest to hottest
    const int coldest_month = latitude.value >= 0 ? 0 : 6;
    std::array<Celsius, 12> result;
    for (int month = 0; month < 12; ++month) {
        const double season = std::cos(2 * std::numbers::pi * (month - coldest_month) / 12);
        const double share = (winter + summer) / 2 - (summer - winter) / 2 * season;
        result.at(static_cast<std::size_t>(month)) =
            coldest + CelsiusDelta{share * (hottest - coldest).value};
    }
    return result;
}

ClippingResult clear_sky_clipping(const ClippingInput& input) {
    if (input.step_minutes < 1 || minutes_of_day % input.step_minutes != 0)
        throw std::logic_error("the steps of a day must fill it");
    const double step = input.step_minutes / 60.0;
    const int steps = minutes_of_day / input.step_minutes;
    ClippingResult result;
    for (int month = 0; month < 12; ++month) {
        const int days = typical_year().at(static_cast<std::size_t>(month)).count;
        for (int i = 0; i < steps; ++i)
            add(result, input, dc_power(input, month, Hours{(i + 0.5) * step}), Hours{step * days});
    }
    if (result.available.value > 0)
        result.clipped_share = result.clipped / result.available;
    return result;
}

} // namespace ohmfolio
