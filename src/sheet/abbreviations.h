/// Which abbreviations occur on sheets.
#pragma once

#include <string_view>
#include <vector>

#include "drawing/frame.h"
#include "sheet/texts.h"

namespace ohmfolio::sheets {

/// True when `letters` stands in `text` as a word of its own, or as a unit after a number.
bool occurs(std::string_view letters, std::string_view text);
/// Those of `all` that occur in the lettering of `frames`, symbols of formulas aside.
std::vector<Abbreviation> occurring(const std::vector<Abbreviation>& all,
                                    const std::vector<const Frame*>& frames);

} // namespace ohmfolio::sheets
