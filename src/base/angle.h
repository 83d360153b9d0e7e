/// Angles in degrees, as drawings and nameplates give them. A type of its own, so that none meets
/// the radians of the standard library unconverted.
#pragma once

#include <cmath>
#include <compare>
#include <numbers>

namespace ohmfolio {

struct Degrees {
    double value = 0.0;
    friend constexpr auto operator<=>(Degrees, Degrees) = default;
    friend constexpr Degrees operator+(Degrees a, Degrees b) { return {a.value + b.value}; }
    friend constexpr Degrees operator-(Degrees a, Degrees b) { return {a.value - b.value}; }
};

constexpr double radians(Degrees angle) { return angle.value * std::numbers::pi / 180; }
constexpr Degrees degrees_of(double radians) { return {radians * 180 / std::numbers::pi}; }
inline double sine(Degrees angle) { return std::sin(radians(angle)); }
inline double cosine(Degrees angle) { return std::cos(radians(angle)); }

} // namespace ohmfolio
