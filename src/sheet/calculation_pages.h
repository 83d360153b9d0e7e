/// The calculation sheets, which tell in their summary on which sheet a calculation stands.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "sheet/pages.h"

namespace ohmfolio::sheets {

/// The number of a calculation sheet by its place among them, from 0, and their count.
using SheetName = std::function<std::string(std::size_t page, std::size_t count)>;

/// As calculation_pages(job), which names a sheet "2 OF 3".
std::vector<Frame> calculation_pages(const Job& job, const SheetName& name);

} // namespace ohmfolio::sheets
