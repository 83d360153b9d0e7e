/// The appendix: how its documents are numbered, and which of them belongs to what.
#pragma once

#include <string>
#include <vector>

#include "model/system.h"
#include "sheet/layout.h"

namespace ohmfolio::sheets {

/// Number of the first sheet of each appended document, "E-701"; empty for one without pages. The
/// series of the appendix is its own, so that numbers are known before anything is laid out.
std::vector<std::string> appendix_sheets(const SheetLayout& layout, const System& system);

/// The first sheet of the document of a record, or of one appended for a piece of equipment; empty
/// where there is none. A document of the record comes first.
std::string appended_for(const System& system, const std::vector<std::string>& sheets, int record,
                         const std::vector<int>& equipment);

} // namespace ohmfolio::sheets
