/// The material list as a table: what the take-off counts, and the placards of the job.
#pragma once

#include "drawing/table.h"
#include "sheet/pages.h"

namespace ohmfolio::sheets {

/// Without rows where nothing is to be bought.
Table material_list(const Job& job);

} // namespace ohmfolio::sheets
