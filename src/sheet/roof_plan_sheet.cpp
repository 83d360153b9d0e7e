#include "sheet/pages.h"

namespace ohmfolio::sheets {

std::vector<Frame> roof_plan_pages(const Job&) { return {}; }

} // namespace ohmfolio::sheets
