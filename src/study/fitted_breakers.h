/// The breakers and fuses that this work puts in: those of new circuits, the mains of new panels,
/// and of their loads.
#pragma once

#include <string>
#include <vector>

#include "model/system.h"
#include "study/study.h"

namespace ohmfolio {

struct FittedDevice {
    int holder = -1; ///< equipment that it sits in
    Amps rating{};
    int poles = 2;
    bool fuses = false; ///< in a switch, or in series with strings: as many as poles
    bool direct_current = false;
    std::string serves;  ///< "Q3", "BLP main", "BLP Kitchen"
    std::string subject; ///< "breaker:Q3", "equipment:BLP"
    Span span;
};

/// Both ends of a circuit were there before this work, or are the utility's: so is what lies
/// between.
bool was_there(const System& system, const Circuit& circuit);

/// In the order of the tags, then of the equipment; devices without a rating are left out.
std::vector<FittedDevice> fitted_devices(const System& system, const Study& study);

} // namespace ohmfolio
