// Most microinverters on a branch. 690.8 and 705: 125 % of their continuous output within the
// breaker, rounded down.
#include "catch.h"

#include "study/branches.h"

using namespace ohmfolio;
using namespace ohmfolio::workings;

namespace {

double most(Amps breaker, Amps output) {
    static const CodeBook book(Edition::nec2023);
    Worksheet sheet;
    return most_inverters({sheet, book, "equipment:PV-1"}, "breaker", constant(breaker),
                          constant(output))
        .value.value;
}

} // namespace

TEST_CASE("microinverters on a branch, worked by hand") {
    // 20 A ÷ 1.25 = 16 A of continuous output.
    CHECK(most(Amps{20}, Amps{1.42}) == 11); // 16 ÷ 1.42 = 11.27
    CHECK(most(Amps{20}, Amps{1.0}) == 16);  // 16 ÷ 1.0
    CHECK(most(Amps{20}, Amps{1.21}) == 13); // 16 ÷ 1.21 = 13.22
    CHECK(most(Amps{15}, Amps{1.42}) == 8);  // 12 ÷ 1.42 = 8.45
}

TEST_CASE("an exact multiple does not lose one to binary arithmetic") {
    CHECK(most(Amps{20}, Amps{1.6}) == 10); // 16 ÷ 1.6
    CHECK(most(Amps{30}, Amps{0.8}) == 30); // 24 ÷ 0.8
    CHECK(most(Amps{20}, Amps{0.32}) == 50);
}
