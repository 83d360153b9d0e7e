/// Lengths on paper, exact to the nanometre, so that inches, millimetres and equality are all
/// exact. (Lengths in the building are `Feet`, see quantity.h.)
#pragma once

#include <cmath>
#include <compare>
#include <cstdint>
#include <type_traits>

namespace ohmfolio {

struct Length {
    std::int64_t nm = 0;

    friend constexpr auto operator<=>(Length, Length) = default;
    friend constexpr Length operator+(Length a, Length b) { return {a.nm + b.nm}; }
    friend constexpr Length operator-(Length a, Length b) { return {a.nm - b.nm}; }
    friend constexpr Length operator-(Length a) { return {-a.nm}; }
    friend constexpr Length operator*(Length a, std::int64_t k) { return {a.nm * k}; }
    friend constexpr Length operator*(std::int64_t k, Length a) { return {a.nm * k}; }
    friend constexpr Length operator/(Length a, std::int64_t k) { return {a.nm / k}; }
    friend constexpr std::int64_t operator/(Length a, Length b) { return a.nm / b.nm; }
    constexpr Length& operator+=(Length b) {
        nm += b.nm;
        return *this;
    }
    constexpr Length& operator-=(Length b) {
        nm -= b.nm;
        return *this;
    }

    constexpr double in_points() const { return static_cast<double>(nm) * 72.0 / 25'400'000.0; }
    constexpr double in_inches() const { return static_cast<double>(nm) / 25'400'000.0; }
};

/// Half away from zero, as std::llround, which no constant can be made with before C++23. Lengths
/// that are constants have to be there before the program starts: compilers differ in the order in
/// which they make others.
constexpr std::int64_t nearest_whole(double v) {
    if (!std::is_constant_evaluated())
        return std::llround(v);
    const auto whole = static_cast<std::int64_t>(v);
    const double rest = v - static_cast<double>(whole);
    return rest >= 0.5 ? whole + 1 : rest <= -0.5 ? whole - 1 : whole;
}

constexpr Length inches(double v) { return {nearest_whole(v * 25'400'000.0)}; }
constexpr Length millimetres(double v) { return {nearest_whole(v * 1'000'000.0)}; }
constexpr Length points(double v) { return {nearest_whole(v * 25'400'000.0 / 72.0)}; }
/// `a` times a number that need not be whole, to the nearest nanometre.
constexpr Length scaled(Length a, double k) {
    return {nearest_whole(static_cast<double>(a.nm) * k)};
}

} // namespace ohmfolio
