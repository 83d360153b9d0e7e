/// Which of the codes that the book knows a jurisdiction has adopted, by the words of the
/// description.
#pragma once

#include <string>
#include <vector>

#include "model/system.h"

namespace ohmfolio::workings {

struct AdoptedCode {
    std::string id; ///< "IRC 2021"
    bool stated = false;
};

/// The first of `known` that [project] other_codes names, in whatever order it names them; `usual`
/// where it names none.
AdoptedCode adopted_code(const System& system, const std::vector<std::string>& known,
                         const std::string& usual);

} // namespace ohmfolio::workings
