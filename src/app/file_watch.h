/// Waits until files are written anew, or until the program is asked to end.
#pragma once

#include <filesystem>
#include <map>
#include <set>

namespace ohmfolio {

/// Made before any thread is started, so that none of them takes the signals that end the program.
class FileWatch {
  public:
    /// Throws std::system_error when the machine has no watch to give.
    FileWatch();
    ~FileWatch();
    FileWatch(const FileWatch&) = delete;
    FileWatch& operator=(const FileWatch&) = delete;

    /// Watches the folders of these files, since editors put a new file into the place of the old
    /// one. A file joins when it is written beside them and its kind is one that a job is made of.
    void follow(const std::set<std::filesystem::path>& files);

    enum class Event { written, end };
    /// Returns as soon as one of the files is complete.
    Event wait();

  private:
    bool concerns(int folder, const std::string& name) const;
    bool read_changes();

    int changes_ = -1, signals_ = -1;
    std::set<std::filesystem::path> files_;
    std::map<std::filesystem::path, int> folders_;
};

} // namespace ohmfolio
