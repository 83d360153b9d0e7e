#include <cmath>

#include "base/length.h"
#include "catch.h"

using namespace ohmfolio;

// An inch is 25.4 mm exactly (international yard and pound agreement, 1959), a point 1/72 in.
static_assert(inches(1).nm == 25'400'000);
static_assert(millimetres(25.4) == inches(1));
static_assert(points(72) == inches(1));
// Pens are constants: a table that is made from them before the program starts finds them there.
static_assert(millimetres(0.18).nm == 180'000);
static_assert(scaled(inches(1), 0.5) == millimetres(12.7));

TEST_CASE("a length that is a constant is rounded as one that is not") {
    // Halves, their neighbours, and both signs.
    constexpr double values[] = {0.5, 1.5, 2.5, -0.5, -1.5, 0.49999999999999994, 0.0, 1e9 + 0.5};
    constexpr std::int64_t made[] = {nearest_whole(values[0]), nearest_whole(values[1]),
                                     nearest_whole(values[2]), nearest_whole(values[3]),
                                     nearest_whole(values[4]), nearest_whole(values[5]),
                                     nearest_whole(values[6]), nearest_whole(values[7])};
    for (std::size_t i = 0; i < std::size(values); ++i) {
        volatile double at_run_time = values[i];
        CHECK(nearest_whole(at_run_time) == made[i]);
        CHECK(std::llround(values[i]) == made[i]);
    }
}
