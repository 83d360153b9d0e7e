/// A folder of our own that is gone with the object.
#pragma once

#include <filesystem>

namespace ohmfolio {

class TemporaryFolder {
  public:
    /// Throws std::system_error when the machine has no room for one.
    TemporaryFolder();
    ~TemporaryFolder();
    TemporaryFolder(const TemporaryFolder&) = delete;
    TemporaryFolder& operator=(const TemporaryFolder&) = delete;

    const std::filesystem::path& path() const { return path_; }

  private:
    std::filesystem::path path_;
};

} // namespace ohmfolio
