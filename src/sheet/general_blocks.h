/// The blocks of the general sheet, each made at the width of its column. A block that has nothing
/// to say comes back without entries and is left out.
#pragma once

#include <string_view>
#include <vector>

#include "sheet/flow.h"
#include "sheet/pages.h"

namespace ohmfolio::sheets {

/// The block called `name` (see general_block_names()).
Group general_block(std::string_view name, Length width, const Job& job,
                    const GeneralContents& contents);

} // namespace ohmfolio::sheets
