#include "app/data_folder.h"

#include <stdexcept>

namespace ohmfolio {

std::filesystem::path data_folder() {
    const std::filesystem::path program = std::filesystem::read_symlink("/proc/self/exe");
    std::filesystem::path folder = program.parent_path().parent_path() / "share" / "ohmfolio";
    if (!std::filesystem::is_directory(folder / "symbols")) {
        throw std::runtime_error("the data folder " + folder.string() +
                                 " is missing; reinstall, or name one with --data");
    }
    return folder;
}

} // namespace ohmfolio
