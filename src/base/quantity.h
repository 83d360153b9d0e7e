/// Electrical quantities whose units are checked by the compiler.
///
/// Units in use: volt, ampere, foot (the trade's run length), hour, square inch (raceway fill) and
/// circular mil (conductor area). Everything else is derived: a watt is a volt-ampere, an ohm a
/// volt per ampere. A temperature is a point on a scale, so it is a type of its own and never mixes
/// with a temperature difference.
#pragma once

#include <compare>

namespace ohmfolio {

/// Exponents of the base units.
struct Dimension {
    int volt = 0;
    int amp = 0;
    int foot = 0;
    int hour = 0;
    int square_inch = 0;
    int circular_mil = 0;

    friend constexpr bool operator==(Dimension, Dimension) = default;
    friend constexpr Dimension operator+(Dimension a, Dimension b) {
        return {a.volt + b.volt,
                a.amp + b.amp,
                a.foot + b.foot,
                a.hour + b.hour,
                a.square_inch + b.square_inch,
                a.circular_mil + b.circular_mil};
    }
    friend constexpr Dimension operator-(Dimension a, Dimension b) {
        return {a.volt - b.volt,
                a.amp - b.amp,
                a.foot - b.foot,
                a.hour - b.hour,
                a.square_inch - b.square_inch,
                a.circular_mil - b.circular_mil};
    }
};

template <Dimension D> struct Quantity {
    static constexpr Dimension dimension = D;
    double value = 0.0;

    constexpr Quantity() = default;
    constexpr explicit Quantity(double v) : value(v) {}

    friend constexpr auto operator<=>(Quantity, Quantity) = default;
    friend constexpr Quantity operator+(Quantity a, Quantity b) {
        return Quantity{a.value + b.value};
    }
    friend constexpr Quantity operator-(Quantity a, Quantity b) {
        return Quantity{a.value - b.value};
    }
    friend constexpr Quantity operator*(double k, Quantity a) { return Quantity{k * a.value}; }
    friend constexpr Quantity operator*(Quantity a, double k) { return Quantity{k * a.value}; }
    friend constexpr Quantity operator/(Quantity a, double k) { return Quantity{a.value / k}; }
};

template <Dimension A, Dimension B>
constexpr Quantity<A + B> operator*(Quantity<A> a, Quantity<B> b) {
    return Quantity<A + B>{a.value * b.value};
}
template <Dimension A, Dimension B>
constexpr Quantity<A - B> operator/(Quantity<A> a, Quantity<B> b) {
    return Quantity<A - B>{a.value / b.value};
}

using Ratio = Quantity<Dimension{}>;
using Volts = Quantity<Dimension{.volt = 1}>;
using Amps = Quantity<Dimension{.amp = 1}>;
using Watts = Quantity<Dimension{.volt = 1, .amp = 1}>; ///< also volt-amperes
using Ohms = Quantity<Dimension{.volt = 1, .amp = -1}>;
using WattHours = Quantity<Dimension{.volt = 1, .amp = 1, .hour = 1}>;
using Hours = Quantity<Dimension{.hour = 1}>;
using Feet = Quantity<Dimension{.foot = 1}>;
using FeetPerOhm = Quantity<Dimension{.volt = -1, .amp = 1, .foot = 1}>;
using SquareFeet = Quantity<Dimension{.foot = 2}>; ///< floor area
using WattsPerSquareFoot = Quantity<Dimension{.volt = 1, .amp = 1, .foot = -2}>;
using OhmsPerFoot = Quantity<Dimension{.volt = 1, .amp = -1, .foot = -1}>;
using SquareInches = Quantity<Dimension{.square_inch = 1}>;
using CircularMils = Quantity<Dimension{.circular_mil = 1}>;

/// A difference of temperatures.
struct CelsiusDelta {
    double value = 0.0;
    friend constexpr auto operator<=>(CelsiusDelta, CelsiusDelta) = default;
};

/// A temperature on the Celsius scale.
struct Celsius {
    double value = 0.0;
    friend constexpr auto operator<=>(Celsius, Celsius) = default;
    friend constexpr CelsiusDelta operator-(Celsius a, Celsius b) { return {a.value - b.value}; }
    friend constexpr Celsius operator+(Celsius a, CelsiusDelta d) { return {a.value + d.value}; }
};

} // namespace ohmfolio
