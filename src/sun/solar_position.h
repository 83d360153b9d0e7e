/// Where the sun stands.
///
/// Low precision, for energy over a year: declination, equation of time and distance by the Fourier
/// series of J. W. Spencer, "Fourier series representation of the position of the sun", Search 2
/// (1971), p. 172. Declination is good to 0.05°, and to 0.3° where the calendar has drifted through
/// a leap cycle; the equation of time to half a minute. Refraction is left out.
///
/// `day` is the day of the year, 1 January = 1; a fraction is a time of that day. Time is true
/// solar time: at 12 h the sun crosses the meridian, whatever the clock says.
#pragma once

#include <array>

#include "base/angle.h"
#include "base/quantity.h"

namespace ohmfolio {

Degrees declination(double day);
/// True solar time less mean time, between −14 and +16 minutes.
Hours equation_of_time(double day);
/// Share by which the sun is stronger than at its mean distance, 0.967 to 1.035.
Ratio distance_factor(double day);

struct SunPosition {
    Degrees zenith;  ///< from the vertical; from 90 on the sun is down
    Degrees azimuth; ///< clockwise from north, 0 to 360
    bool up() const { return zenith.value < 90; }
};

/// Latitude is positive to the north.
SunPosition sun_position(Degrees latitude, double day, Hours solar_time);

/// How a plane lies: tilt 0 is flat; azimuth is the way it faces, clockwise from north.
struct PlaneAngles {
    Degrees tilt;
    Degrees azimuth;
};

/// Cosine of the angle between the sun and what stands square on the plane; negative: the sun is
/// behind it.
double cosine_of_incidence(const SunPosition& sun, const PlaneAngles& plane);

/// A day that stands for its month: the one whose light above the air is the month's mean.
struct TypicalDay {
    int day;   ///< of the year
    int count; ///< days of the month
};
/// January first (S. A. Klein, "Calculation of monthly average insolation on tilted surfaces",
/// Solar Energy 19 (1977), p. 325).
const std::array<TypicalDay, 12>& typical_year();

} // namespace ohmfolio
