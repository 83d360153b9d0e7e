/// Tables as comma-separated values (RFC 4180), as agencies and makers publish them. Semicolons and
/// tabulators part the cells as well where the heading is parted by them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/finding.h"
#include "base/source.h"

namespace ohmfolio {

struct CsvRow {
    int line = 0; ///< of the text, where the row begins
    std::vector<std::string> cells;
};

struct CsvTable {
    int file = -1; ///< of the sources
    std::vector<std::string> headings;
    std::vector<CsvRow> rows; ///< each with as many cells as there are headings
};

/// Nothing when the text is no table; a row that does not fit the heading is a finding and is left
/// out. Blanks around a cell are no part of it; empty lines are passed over.
std::optional<CsvTable> read_csv(int file, const SourceFiles& sources, Findings& findings);

} // namespace ohmfolio
