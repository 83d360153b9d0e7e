// Where the sun stands, against published positions. "Duffie and Beckman" is J. A. Duffie, W. A.
// Beckman, "Solar Engineering of Thermal Processes", 4th ed. (2013), chapter 1.
#include <numbers>

#include "catch.h"
#include "sun/solar_position.h"

using namespace ohmfolio;

namespace {

Degrees incidence(const SunPosition& sun, const PlaneAngles& plane) {
    return degrees_of(std::acos(cosine_of_incidence(sun, plane)));
}

/// Energy above the air on the level ground, summed minute by minute, MJ/m² in a day.
double above_the_air(Degrees latitude, double day) {
    constexpr double solar_constant = 1367; // W/m², Duffie and Beckman, section 1.2
    double sum = 0;
    for (int minute = 0; minute < 24 * 60; ++minute) {
        const SunPosition sun = sun_position(latitude, day, Hours{(minute + 0.5) / 60});
        if (sun.up())
            sum += cosine(sun.zenith) * 60;
    }
    return sum * solar_constant * distance_factor(day).value / 1e6;
}

} // namespace

TEST_CASE("the worked example of NREL's solar position algorithm, to the series' own accuracy") {
    // I. Reda, A. Andreas, NREL/TP-560-34302, appendix: Golden, Colorado, 17 October 2003 at
    // 12:30:30, seven hours behind Greenwich. Zenith 50.11162°, azimuth 194.34024°; incidence on a
    // slope of 30° facing 10° east of south 25.18700°. Its sun crosses the meridian at 11.768 h.
    const Degrees latitude{39.742476};
    const double longitude = -105.1786, clock = 12 + 30.0 / 60 + 30.0 / 3600;
    const double day = 290 + (clock + 7) / 24; // of Greenwich
    const double mean_time = clock + (longitude + 105) / 15;
    const Hours solar_time = Hours{mean_time} + equation_of_time(day);
    CHECK(12 - (longitude + 105) / 15 - equation_of_time(day).value ==
          Approx(11.768).margin(0.5 / 60));
    const SunPosition sun = sun_position(latitude, day, solar_time);
    CHECK(sun.zenith.value == Approx(50.11162).margin(0.05));
    CHECK(sun.azimuth.value == Approx(194.34024).margin(0.15));
    CHECK(incidence(sun, {{30}, {170}}).value == Approx(25.187).margin(0.1));
}

TEST_CASE("sunrise of the same example, half of its day before noon") {
    // From 6.212 h to 17.314 h the upper limb is up, refraction of 0.5667° and a half-disk of
    // 0.2667° counted: its middle then stands 0.83° below the horizon.
    const SunPosition sun = sun_position({39.742476}, 290, Hours{12 - (17.314 - 6.212) / 2});
    CHECK(sun.zenith.value == Approx(90.83).margin(0.3));
    CHECK_FALSE(sun.up());
}

TEST_CASE("zenith, azimuth and incidence of Duffie and Beckman") {
    // Example 1.6.1, 43° N, 13 February at 10:30, slope 45°, 15° west of south: 35.0°. The book
    // rounds the declination of that day to −14°.
    const SunPosition morning = sun_position({43}, 44, Hours{10.5});
    CHECK(incidence(morning, {{45}, {195}}).value == Approx(35.0).margin(0.5));
    // Example 1.6.2, the same place: 9:30 on that day 66.5° and 40.0° east of south; 18:30 on
    // 1 July 79.6° and 112.0° west of south.
    const SunPosition winter = sun_position({43}, 44, Hours{9.5});
    CHECK(winter.zenith.value == Approx(66.5).margin(0.5));
    CHECK(winter.azimuth.value == Approx(180 - 40.0).margin(0.5));
    const SunPosition summer = sun_position({43}, 182, Hours{18.5});
    CHECK(summer.zenith.value == Approx(79.6).margin(0.1));
    CHECK(summer.azimuth.value == Approx(180 + 112.0).margin(0.2));
}

TEST_CASE("declination at solstices and equinoxes") {
    // The obliquity of the ecliptic is 23.44°; equinoxes of 20 March and 23 September move by a
    // day.
    CHECK(declination(172).value == Approx(23.44).margin(0.05));
    CHECK(declination(355).value == Approx(-23.44).margin(0.05));
    CHECK(declination(79.5).value == Approx(0).margin(0.3));
    CHECK(declination(266).value == Approx(0).margin(0.3));
}

TEST_CASE("the equation of time at its four turns") {
    // Astronomical almanacs: −14.2 min on 11 February, +3.7 on 14 May, −6.5 on 26 July and +16.4 on
    // 3 November.
    CHECK(equation_of_time(42).value * 60 == Approx(-14.2).margin(0.3));
    CHECK(equation_of_time(134).value * 60 == Approx(3.7).margin(0.3));
    CHECK(equation_of_time(207).value * 60 == Approx(-6.5).margin(0.3));
    CHECK(equation_of_time(307).value * 60 == Approx(16.4).margin(0.3));
}

TEST_CASE("the sun's distance") {
    // 0.9833 astronomical units in early January, 1.0167 in early July; its light goes by the
    // square.
    CHECK(distance_factor(3).value == Approx(1 / (0.9833 * 0.9833)).margin(0.002));
    CHECK(distance_factor(185).value == Approx(1 / (1.0167 * 1.0167)).margin(0.002));
}

TEST_CASE("energy above the air over a day") {
    // Duffie and Beckman, example 1.10.1: 43° N on 15 April, 33.8 MJ/m².
    CHECK(above_the_air({43}, 105) == Approx(33.8).margin(0.15));
    // FAO Irrigation and Drainage Paper 56, example 8: 20° S on 3 September, 32.2 MJ/m². Its
    // declination, 6.9°, is coarser than the sun's own 7.6°, which alone makes 1 %.
    CHECK(above_the_air({-20}, 246) == Approx(32.2).epsilon(0.02));
}

TEST_CASE("noon: latitude less declination, in the south or in the north") {
    const SunPosition north = sun_position({40}, 172, Hours{12});
    CHECK(north.zenith.value == Approx(40 - 23.44).margin(0.05));
    CHECK(north.azimuth.value == Approx(180));
    const SunPosition south = sun_position({-40}, 355, Hours{12});
    CHECK(south.zenith.value == Approx(40 - 23.44).margin(0.05));
    CHECK(std::fmod(south.azimuth.value + 1, 360) == Approx(1).margin(1e-6));
}

TEST_CASE("at the equinox the day has twelve hours at every latitude") {
    // Of the middle of the sun, without refraction.
    double day = 79; // where the series itself crosses the equator
    while (declination(day).value < 0)
        day += 0.001;
    for (const double latitude : {-60.0, -20.0, 0.0, 35.0, 65.0}) {
        CHECK(sun_position({latitude}, day, Hours{6}).zenith.value == Approx(90).margin(0.01));
        CHECK(sun_position({latitude}, day, Hours{18}).zenith.value == Approx(90).margin(0.01));
        CHECK(sun_position({latitude}, day, Hours{6}).azimuth.value == Approx(90).margin(0.01));
    }
}

TEST_CASE("day length by the sunset hour angle") {
    // cos ω = −tan φ × tan δ, geometry. 39.74° N at the summer solstice: ω = 111.1°, 14.8 h.
    const double half =
        std::acos(-std::tan(radians({39.74})) * std::tan(radians(declination(172)))) /
        std::numbers::pi * 12;
    CHECK(half * 2 == Approx(14.8).margin(0.05));
    CHECK(sun_position({39.74}, 172, Hours{12 + half - 0.01}).up());
    CHECK_FALSE(sun_position({39.74}, 172, Hours{12 + half + 0.01}).up());
}

TEST_CASE("beyond the polar circle the sun stays up, or down") {
    for (int hour = 0; hour < 24; ++hour) {
        CHECK(sun_position({70}, 172, Hours{double(hour)}).up());
        CHECK_FALSE(sun_position({70}, 355, Hours{double(hour)}).up());
    }
}

TEST_CASE("a plane: flat it sees the zenith angle, square to the sun all of it") {
    const SunPosition sun = sun_position({35}, 100, Hours{15});
    CHECK(cosine_of_incidence(sun, {{0}, {123}}) == Approx(cosine(sun.zenith)));
    CHECK(cosine_of_incidence(sun, {sun.zenith, sun.azimuth}) == Approx(1));
    CHECK(cosine_of_incidence(sun, {{90}, sun.azimuth - Degrees{180}}) < 0);
}

TEST_CASE("a typical year has all its days, each in its month") {
    int days = 0;
    for (const TypicalDay& one : typical_year()) {
        CHECK(one.day > days);
        days += one.count;
        CHECK(one.day <= days);
    }
    CHECK(days == 365);
    // Duffie and Beckman, table 1.6.1: declinations of these days by a formula that errs by up
    // to 1.5°.
    const double book[] = {-20.9, -13.0, -2.4, 9.4,  18.8,  23.1,
                           21.2,  13.5,  2.2,  -9.6, -18.9, -23.0};
    for (std::size_t month = 0; month < 12; ++month)
        CHECK(declination(typical_year().at(month).day).value == Approx(book[month]).margin(1.5));
}
