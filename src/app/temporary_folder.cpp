#include "app/temporary_folder.h"

#include <cerrno>
#include <cstdlib>
#include <system_error>

namespace ohmfolio {

TemporaryFolder::TemporaryFolder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "ohmfolio-XXXXXX").string();
    if (::mkdtemp(pattern.data()) == nullptr) {
        throw std::system_error(errno, std::generic_category(), "cannot make a temporary folder");
    }
    path_ = pattern;
}

TemporaryFolder::~TemporaryFolder() {
    std::error_code ignored; // what cannot be removed is left to the system
    std::filesystem::remove_all(path_, ignored);
}

} // namespace ohmfolio
