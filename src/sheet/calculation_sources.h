/// Where the values of one row of a matrix were read: what all its columns share, and what differs
/// and is not shown by another step of the column.
#pragma once

#include <string>
#include <vector>

#include "code/derivation.h"
#include "sheet/pages.h"

namespace ohmfolio::sheets {

struct RowSources {
    std::string common;           ///< "75 °C COLUMN"
    std::vector<std::string> own; ///< parallel to the lines: "4 CCC", "IN EMT"
};

/// `lines` holds a step or nothing for each column. What only repeats `section` is left out.
RowSources row_sources(const std::vector<const Derivation*>& lines, const std::string& section,
                       const Job& job);

} // namespace ohmfolio::sheets
