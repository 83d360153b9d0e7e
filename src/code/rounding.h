/// Figures that arithmetic gives, held against a limit: what misses it by no more than doubles
/// round by has not missed it. Private to the room.
#pragma once

#include <algorithm>
#include <cmath>

namespace ohmfolio {

/// Whether what is between them is no more than arithmetic on a handful of doubles may leave
/// behind.
inline bool about_equal(double a, double b) {
    constexpr double relative_error = 1e-9;
    return std::abs(a - b) <= relative_error * std::max(std::abs(a), std::abs(b));
}

inline bool at_most(double figure, double limit) {
    return figure < limit || about_equal(figure, limit);
}
template <class Q> bool at_most(Q figure, Q limit) { return at_most(figure.value, limit.value); }

} // namespace ohmfolio
