#include "sheet/pages.h"

namespace ohmfolio::sheets {

std::vector<Frame> branch_map_pages(const Job&) { return {}; }

} // namespace ohmfolio::sheets
