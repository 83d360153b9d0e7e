/// Names of files within a folder.
#pragma once

#include <string_view>

namespace ohmfolio {

/// Whether `name`, with slashes between its parts, names a file of the folder it is relative to:
/// no absolute path, no way up, nothing that another system would take for one.
bool stays_in_folder(std::string_view name);

} // namespace ohmfolio
