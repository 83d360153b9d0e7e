/// The texts of code/tables/*.toml, put into the program at build time.
#pragma once

#include <string_view>
#include <vector>

namespace ohmfolio {

struct EmbeddedTable {
    std::string_view name; ///< file name without suffix
    std::string_view text;
};

const std::vector<EmbeddedTable>& embedded_tables();

} // namespace ohmfolio
