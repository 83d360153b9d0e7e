/// Where the program's own data is: symbols, layouts and texts.
#pragma once

#include <filesystem>

namespace ohmfolio {

/// share/ohmfolio beside the folder the program stands in, after installation as in the build tree.
std::filesystem::path data_folder();

} // namespace ohmfolio
