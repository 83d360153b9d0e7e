/// How much an inverter clips under a clear sky: where its modules could give more than its output.
///
/// What it is for: to tell whether modules and an inverter are a sensible pair, and which of two
/// pairs loses more. What it is not: a forecast. Every day is cloudless; nothing shades, soils or
/// ages the modules, no wind cools them, no wire warms; the inverter is as efficient at every load.
/// So the energy is more than a year gives, and so is the share clipped, by the cloudy days, nearly
/// everywhere. Bright edges of clouds, which lift the light for minutes, are left out.
///
/// A typical year is twelve days, one for each month, each counted as often as the month has days.
/// Within a day the sun is looked at in the middle of every `step_minutes`.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "base/quantity.h"
#include "sun/clear_sky.h"

namespace ohmfolio {

/// Cell temperature from the module's nominal operating one, which is stated at 800 W/m² in air of
/// 20 °C: T_air + (T_nominal − 20 °C) ÷ 800 W/m² × G (IEC 61215; R. G. Ross, 12th IEEE Photovoltaic
/// Specialists Conference, 1976). Modules close to a roof run warmer.
Celsius cell_temperature(Celsius air, Celsius nominal, WattsPerSquareMeter);

/// Output of modules from their rating at 1000 W/m² and 25 °C; never less than nothing.
Watts module_power(Watts rated, double per_celsius, WattsPerSquareMeter, Celsius cell);

/// Temperature coefficient of a module's power, as a fraction per degree, and where it comes from.
struct PowerCoefficient {
    double per_celsius = 0;
    std::string origin; ///< "stated", or what it was taken from, in words for the sheet
};
/// The stated one. Else that of the voltage at maximum power, since the current there hardly moves.
/// Else from the open-circuit voltage: its own, and that of the fill factor, for silicon a sixth of
/// (β − 1 ÷ 298.15 K) (M. A. Green, "Solar Cells", 1982), and +0.06 % for the current. Else −0.35
/// %, common for silicon.
PowerCoefficient power_coefficient(std::optional<double> stated, std::optional<double> of_vmp,
                                   std::optional<double> of_voc);

/// Temperature of the air while the sun is high, January first: a sinusoid with its cold end in
/// January, or in July south of the equator. The design temperatures are a night's and a heat
/// wave's, so it runs from 40 % to 90 % of the way from the coldest to the hottest: an assumption
/// of this program, a little below the published mean daily maxima, which is the side that clips
/// more.
std::array<Celsius, 12> daytime_temperatures(Celsius coldest, Celsius hottest, Degrees latitude);

/// Modules that lie alike.
struct ArrayPlane {
    Watts rated; ///< all of them, at standard test conditions
    PlaneAngles angles;
};

/// One inverter.
struct ClippingInput {
    Degrees latitude;
    std::vector<ArrayPlane> planes;
    double power_per_celsius = -0.0035; ///< fraction, negative
    Celsius nominal_cell{45};           ///< nominal operating cell temperature
    Watts output;                       ///< the most that the inverter gives, AC
    Ratio efficiency{0.97};             ///< of the inverter
    std::array<Celsius, 12> air{};      ///< see `daytime_temperatures`
    Ratio albedo{0.2};
    int step_minutes = 15; ///< must divide a day; else std::logic_error
};

struct ClippingResult {
    WattHours available; ///< AC energy of the clear year, were there no limit
    WattHours clipped;   ///< what is lost of it at the limit
    Ratio clipped_share; ///< clipped ÷ available; zero where there is nothing
    Hours clipping;      ///< of the year, at the limit
    Watts peak_dc;       ///< most that the modules could give
    Watts peak_ac;       ///< most that the inverter gives
};
ClippingResult clear_sky_clipping(const ClippingInput&);

} // namespace ohmfolio
