#include "sheet/pages.h"

namespace ohmfolio::sheets {

std::vector<Frame> site_plan_pages(const Job&) { return {}; }

} // namespace ohmfolio::sheets
