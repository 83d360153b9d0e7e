/// One system made at random, drawn and looked over.
#pragma once

#include <string>
#include <vector>

namespace ohmfolio::drawn {

struct Fault {
    std::string rule; ///< "lint.text_over_text", "exception"
    std::string said; ///< in words, with place and subject
};

struct Trial {
    int pieces = 0; ///< of equipment
    int pages = 0;  ///< of the diagram
    std::vector<Fault> faults;
};

/// Carries the system `number` through all stages: it is read, nothing throws, the sheets are clean
/// (lint gives nothing above advice), the drawn wires join what the system joins, and no power
/// wires cross.
Trial try_system(unsigned number);

/// What goes wrong when the system `number` is only read and studied; empty: nothing.
std::string study_fault(unsigned number);

} // namespace ohmfolio::drawn
