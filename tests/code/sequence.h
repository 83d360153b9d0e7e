/// Numbers for properties that must hold whatever the numbers.
#pragma once

#include <random>

#include "base/edition.h"

namespace ohmfolio {

/// A fixed sequence, the same on every machine: the distributions of the library may differ.
class Sequence {
  public:
    explicit Sequence(unsigned seed = 20170) : engine_(seed) {}
    int whole(int from, int to) {
        return from + static_cast<int>(engine_() % static_cast<unsigned>(to - from + 1));
    }
    bool coin() { return whole(0, 1) == 0; }
    double tenths(int from, int to) { return whole(from * 10, to * 10) / 10.0; }
    Edition edition() { return all_editions[static_cast<std::size_t>(whole(0, 2))]; }

  private:
    std::mt19937 engine_; // any seed will do; it must not change
};

} // namespace ohmfolio
