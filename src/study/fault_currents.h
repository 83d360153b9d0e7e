/// The fault current available at the service: what the summary, the notes, the diagram and the
/// marking of the service equipment (110.24) state.
#pragma once

#include "study/study.h"

namespace ohmfolio {

struct ServiceFault {
    Amps current{};          ///< 0: neither stated nor to be worked out
    bool calculated = false; ///< from the utility's transformer; false: stated by the utility
};
ServiceFault fault_at_service(const System& system, const Study& study);

} // namespace ohmfolio
