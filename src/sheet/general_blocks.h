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

/// The violations from the one numbered `first` (from 1) on; as many as `height` holds, with a
/// remark where there are more. `height` zero: all.
struct ViolationList {
    Group group;
    std::size_t next = 0; ///< number of the first that is not in it; past the last: none
};
ViolationList violation_list(const Findings& violations, std::size_t first, Size room,
                             const Job& job);

} // namespace ohmfolio::sheets
