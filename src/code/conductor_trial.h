/// One conductor size tried against every check, with the calculation written out. Private to the
/// room: the search for a size and the sheet of the size that is used both come from here.
#pragma once

#include <string>
#include <vector>

#include "code/conductor_rules.h"

namespace ohmfolio {

/// What one check of a size found.
struct ConductorCheck {
    std::string rule;
    bool passes = true;
    std::string governs;   ///< when this check excluded a size
    std::string fault;     ///< when a stated size fails it
    std::string line = {}; ///< id of the derivation
};

struct ConductorTrial {
    bool in_table = false;
    ConductorResult values;
    std::vector<ConductorCheck> checks;
    bool passes() const;
};

/// Tries `size`; the lines go to the worksheet of `desk`.
ConductorTrial try_conductor(const Desk& desk, const ConductorInput& input, WireSize size);

} // namespace ohmfolio
