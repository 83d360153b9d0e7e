// What a clear sky gives, against printed tables and against models made by others.
#include <cmath>

#include "catch.h"
#include "sun/clear_sky.h"

using namespace ohmfolio;

namespace {

constexpr Degrees north{40};

} // namespace

TEST_CASE("direct light at noon, 40° north, on the 21st of the month") {
    // ASHRAE's tables of solar intensity, 40° N latitude, in Btu/(h ft²) printed whole; from
    // memory. 1 Btu/(h ft²) = 3.1546 W/m². Zenith: latitude less declination.
    struct Row {
        int month;
        double declination, btu;
    };
    for (const Row& row :
         {Row{0, -20.0, 294}, Row{5, 23.45, 279}, Row{6, 20.6, 276}, Row{11, -23.45, 285}}) {
        const ClearSky sky = clear_sky(row.month, north, north - Degrees{row.declination});
        INFO("month " << row.month);
        CHECK(sky.beam.value / 3.1546 == Approx(row.btu).margin(1.1));
    }
}

TEST_CASE("the arithmetic of one hour") {
    // March, sun at 60° from the zenith: 1186 ÷ e^(0.156 ÷ 0.5) = 868.1; × 0.071 = 61.6;
    // 868.1 × 0.5 + 61.6 = 495.7 W/m².
    const ClearSky sky = clear_sky(2, north, {60});
    CHECK(sky.beam.value == Approx(868.1).margin(0.1));
    CHECK(sky.diffuse.value == Approx(61.6).margin(0.05));
    CHECK(sky.global.value == Approx(495.7).margin(0.1));
}

TEST_CASE("light on the level ground, against a model that knows the sun's height alone") {
    // B. Haurwitz, Journal of Meteorology 2 (1945), p. 154: 1098 × cos z × e^(−0.059 ÷ cos z),
    // fitted to another place and other years; best of its kind in SAND2012-2389.
    for (int month = 0; month < 12; ++month) {
        for (double zenith = 0; zenith <= 70; zenith += 10) {
            const double cos_z = cosine({zenith});
            const double haurwitz = 1098 * cos_z * std::exp(-0.059 / cos_z);
            INFO("month " << month << ", zenith " << zenith);
            CHECK(clear_sky(month, north, {zenith}).global.value == Approx(haurwitz).epsilon(0.12));
        }
    }
}

TEST_CASE("the reference light of module ratings, in the mean of the year") {
    // ASTM G173: sun at 48.19°, where the way through the air is 1.5 times the shortest; 900 W/m²
    // of direct light, 1000 W/m² on a slope of 37° that faces the sun.
    double beam = 0, slope = 0;
    for (int month = 0; month < 12; ++month) {
        const SunPosition sun{{48.19}, {180}};
        const ClearSky sky = clear_sky(month, north, sun.zenith);
        beam += sky.beam.value / 12;
        slope += on_plane(sky, sun, {{37}, {180}}, Ratio{0.2}).value / 12;
    }
    CHECK(beam == Approx(900).epsilon(0.03));
    CHECK(slope == Approx(1000).epsilon(0.04));
}

TEST_CASE("when the sun is down it is dark") {
    for (const double zenith : {90.0, 90.1, 180.0}) {
        const ClearSky sky = clear_sky(5, north, {zenith});
        CHECK(sky.beam.value == 0);
        CHECK(sky.diffuse.value == 0);
        CHECK(sky.global.value == 0);
    }
    CHECK(clear_sky(5, north, {89.9}).global.value < 1);
}

TEST_CASE("light never exceeds what comes, and falls with the sun") {
    for (int month = 0; month < 12; ++month) {
        double higher = 1367 * 1.035;
        for (double zenith = 0; zenith < 90; zenith += 0.5) {
            const double beam = clear_sky(month, north, {zenith}).beam.value;
            CHECK(beam < higher);
            higher = beam;
        }
    }
}

TEST_CASE("on a plane: flat, upright, away from the sun") {
    const SunPosition sun{{60}, {180}};
    const ClearSky sky{{800}, {100}, {500}};
    // Flat: 800 × cos 60° + 100.
    CHECK(on_plane(sky, sun, {{0}, {0}}, Ratio{0.2}).value == Approx(500));
    // Upright toward the sun: 800 × sin 60° + 100 ÷ 2 + 500 × 0.2 ÷ 2.
    CHECK(on_plane(sky, sun, {{90}, {180}}, Ratio{0.2}).value ==
          Approx(800 * std::sqrt(3) / 2 + 50 + 50));
    // Upright away from it: sky and ground alone.
    CHECK(on_plane(sky, sun, {{90}, {0}}, Ratio{0.2}).value == Approx(100));
    CHECK(on_plane(sky, sun, {{90}, {0}}, Ratio{0}).value == Approx(50));
}

TEST_CASE("the southern sky is the northern one half a year away, by the sun's distance") {
    // 1 − 0.0167 × cos(360° × (n − 4) ÷ 365.25) astronomical units: 0.9848 on 10 December, 1.0152
    // on 11 June, the days that stand for their months; (1.0152 ÷ 0.9848)² = 1.063.
    const double december = clear_sky(11, {-40}, {20}).beam.value;
    const double june = clear_sky(5, {40}, {20}).beam.value;
    CHECK(december / june == Approx(1.063).margin(0.003));
    CHECK(clear_sky(11, {-40}, {20}).diffuse.value / december == Approx(0.134));
    CHECK(clear_sky(5, {0}, {20}).beam.value == june); // the equator goes with the north
}
