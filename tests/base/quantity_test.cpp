/// Unit algebra, proven by the compiler: this file is its own test once it compiles.
#include "base/quantity.h"

#include <concepts>
#include <type_traits>

#include "base/length.h"
#include "catch.h"

using namespace ohmfolio;

template <class A, class B>
concept addable = requires(A a, B b) {
    a + b;
};
template <class A, class B>
concept comparable = requires(A a, B b) {
    a < b;
};
template <class A, class B>
concept subtractable = requires(A a, B b) {
    a - b;
};

// The definitions of SI derived units (BIPM, The International System of Units, 9th ed., table 4):
// a watt is a volt times an ampere, an ohm a volt per ampere.
static_assert(std::same_as<decltype(Volts{} * Amps{}), Watts>);
static_assert(std::same_as<decltype(Volts{} / Amps{}), Ohms>);
static_assert(std::same_as<decltype(Watts{} / Volts{}), Amps>);
static_assert(std::same_as<decltype(Watts{} * Hours{}), WattHours>);
static_assert(std::same_as<decltype(OhmsPerFoot{} * Feet{}), Ohms>);
static_assert(std::same_as<decltype(Amps{} * (OhmsPerFoot{} * Feet{})), Volts>);
static_assert(std::same_as<decltype(Volts{} / Volts{}), Ratio>);
static_assert(std::same_as<decltype(1.25 * Amps{}), Amps>);
static_assert((Amps{2.0} * Ohms{3.0}).value == 6.0);
static_assert((Volts{240.0} / Volts{120.0}).value == 2.0);

// What has no meaning does not compile.
static_assert(addable<Volts, Volts>);
static_assert(!addable<Volts, Amps>);
static_assert(!addable<SquareInches, CircularMils>);
static_assert(!comparable<Volts, Amps>);
static_assert(!std::is_convertible_v<double, Amps>);

// A temperature is a point on a scale: two of them differ by an amount, but do not add up.
static_assert(std::same_as<decltype(Celsius{} - Celsius{}), CelsiusDelta>);
static_assert(std::same_as<decltype(Celsius{} + CelsiusDelta{}), Celsius>);
static_assert(!addable<Celsius, Celsius>);
static_assert(!comparable<Celsius, CelsiusDelta>);
static_assert(!subtractable<CelsiusDelta, Celsius>);

// An inch is 25.4 mm and 72 points exactly.
static_assert(Length{25'400'000}.in_points() == 72.0);
static_assert(Length{25'400'000}.in_inches() == 1.0);
static_assert(!std::is_convertible_v<double, Length>);

TEST_CASE("paper lengths of different units meet exactly") {
    CHECK(inches(1.0) == millimetres(25.4));
    CHECK(points(72.0) == inches(1.0));
    CHECK(inches(17.0) == points(1224.0));
    CHECK(scaled(points(10.0), 0.711) == points(7.11));
}
