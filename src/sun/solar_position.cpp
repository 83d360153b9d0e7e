#include "sun/solar_position.h"

#include <algorithm>

namespace ohmfolio {

namespace {

constexpr double days_of_year = 365;
constexpr double minutes_of_hour = 60;
constexpr double degrees_of_hour = 15; ///< by which the earth turns
constexpr double minutes_of_circle = 24 * minutes_of_hour;

double year_angle(double day) { return 2 * std::numbers::pi * (day - 1) / days_of_year; }

} // namespace

Degrees declination(double day) {
    const double a = year_angle(day);
    return degrees_of(0.006918 - 0.399912 * std::cos(a) + 0.070257 * std::sin(a) -
                      0.006758 * std::cos(2 * a) + 0.000907 * std::sin(2 * a) -
                      0.002697 * std::cos(3 * a) + 0.001480 * std::sin(3 * a));
}

Hours equation_of_time(double day) {
    const double a = year_angle(day);
    const double turned = 0.000075 + 0.001868 * std::cos(a) - 0.032077 * std::sin(a) -
                          0.014615 * std::cos(2 * a) - 0.040849 * std::sin(2 * a);
    return Hours{turned * minutes_of_circle / (2 * std::numbers::pi) / minutes_of_hour};
}

Ratio distance_factor(double day) {
    const double a = year_angle(day);
    return Ratio{1.000110 + 0.034221 * std::cos(a) + 0.001280 * std::sin(a) +
                 0.000719 * std::cos(2 * a) + 0.000077 * std::sin(2 * a)};
}

SunPosition sun_position(Degrees latitude, double day, Hours solar_time) {
    const Degrees sun = declination(day);
    const Degrees hour_angle{(solar_time.value - 12) * degrees_of_hour};
    // The sun's direction, seen from the site: up, to the north, to the east.
    const double up =
        sine(latitude) * sine(sun) + cosine(latitude) * cosine(sun) * cosine(hour_angle);
    const double north =
        cosine(latitude) * sine(sun) - sine(latitude) * cosine(sun) * cosine(hour_angle);
    const double east = -cosine(sun) * sine(hour_angle);
    const Degrees azimuth = degrees_of(std::atan2(east, north));
    return {degrees_of(std::acos(std::clamp(up, -1.0, 1.0))),
            azimuth.value < 0 ? azimuth + Degrees{360} : azimuth};
}

double cosine_of_incidence(const SunPosition& sun, const PlaneAngles& plane) {
    return cosine(sun.zenith) * cosine(plane.tilt) +
           sine(sun.zenith) * sine(plane.tilt) * cosine(sun.azimuth - plane.azimuth);
}

const std::array<TypicalDay, 12>& typical_year() {
    // 17 January, 16 February, 16 March, 15 April, 15 May, 11 June, 17 July, 16 August,
    // 15 September, 15 October, 14 November, 10 December.
    static constexpr std::array<TypicalDay, 12> days = {{{17, 31},
                                                         {47, 28},
                                                         {75, 31},
                                                         {105, 30},
                                                         {135, 31},
                                                         {162, 30},
                                                         {198, 31},
                                                         {228, 31},
                                                         {258, 30},
                                                         {288, 31},
                                                         {318, 30},
                                                         {344, 31}}};
    return days;
}

} // namespace ohmfolio
