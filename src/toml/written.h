/// Values as TOML text.
#pragma once

#include <string>
#include <string_view>

#include "toml/toml.h"

namespace ohmfolio::toml_text {

/// What stands within the quotes of a basic string; control characters become blanks.
std::string escaped(std::string_view text);
std::string quoted(std::string_view text);
/// On one line, tables inline.
std::string written(const Node& node);

} // namespace ohmfolio::toml_text
