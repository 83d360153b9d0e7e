/// Whether a module may sit on a microinverter: its coldest voltage against the input limit, its
/// voltage at maximum power against the tracking window, its power against the output. Each pair is
/// judged alone, so that a replacement module of another rating may stand beside the old ones.
#pragma once

#include <string>
#include <vector>

#include "code/rules.h"
#include "model/catalogue.h"

namespace ohmfolio::workings {

struct PairInput {
    ModuleRatings module;
    MicroinverterRatings microinverter;
    Celsius coldest{};  ///< of the cells, before sunrise: that of the air
    Celsius hot_cell{}; ///< of the cells on the hottest day
    double ratio_limit = 1.20;
};

struct PairVerdict {
    std::string rule;       ///< "module.input.voltage"
    std::string derivation; ///< id of the check
    bool passes = true;
};

/// Largest module for an output: limit × output (common practice; beyond it the inverter clips).
Term<Watts> largest_module(Desk, Watts output, double ratio_limit);

/// All checks of the pair, voltage first.
std::vector<PairVerdict> judge_pair(Desk, const PairInput&);

} // namespace ohmfolio::workings
