/// Single conductors tried out.
#pragma once

#include <algorithm>

#include "try_out.h"

inline ohmfolio::ConductorInput load(double continuous, double device) {
    return {.continuous = amps(continuous, "I_cont"),
            .required = amps(1.25 * continuous, "I_req"),
            .overcurrent = amps(device, "I_ocpd")};
}

inline ohmfolio::ConductorResult sized(const ohmfolio::ConductorInput& input,
                                       ohmfolio::Edition edition = ohmfolio::Edition::nec2023) {
    TestDesk desk(edition);
    return size_conductor(desk, input);
}

inline bool fails(const ohmfolio::ConductorResult& result, const char* rule) {
    return std::find(result.fault_rules.begin(), result.fault_rules.end(), rule) !=
           result.fault_rules.end();
}
