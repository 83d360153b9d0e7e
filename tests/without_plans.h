/// The example is drawn in plan; a test that changes its branches or its equipment leaves the plan
/// out, which would no longer agree with them.
#pragma once

#include <string>

namespace ohmfolio::test {

/// The description up to where it is seen from above, which is its last part.
inline std::string without_plans(std::string description) {
    const std::string heading = "\n# Seen from above";
    return description.substr(0, description.find(heading));
}

} // namespace ohmfolio::test
