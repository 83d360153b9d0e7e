/// The text of takeoff/tables/practice.toml, put into the program at build time.
#pragma once

#include "code/embedded_tables.h"

namespace ohmfolio {

const std::vector<EmbeddedTable>& embedded_practice();

} // namespace ohmfolio
