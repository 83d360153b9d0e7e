#include "app/files.h"

#include <algorithm>
#include <cerrno>
#include <regex>
#include <set>
#include <system_error>
#include <utility>

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/text.h"
#include "sheet/packet.h"

namespace ohmfolio {

namespace {

[[noreturn]] void fail(const std::string& what, const std::filesystem::path& path) {
    throw std::system_error(errno, std::generic_category(), what + " " + path.string());
}

/// A file descriptor that is closed whatever happens.
class Descriptor {
  public:
    explicit Descriptor(int fd) : fd_(fd) {}
    ~Descriptor() {
        if (fd_ >= 0) {
            ::close(fd_);
        }
    }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    int get() const { return fd_; }
    int release() { return std::exchange(fd_, -1); }
    bool close() {
        const int fd = fd_;
        fd_ = -1;
        return ::close(fd) == 0;
    }

  private:
    int fd_;
};

void write_durably(const std::filesystem::path& path, const std::string& bytes) {
    constexpr mode_t readable = 0644;
    // A link that was put in its place would have another file overwritten.
    Descriptor file(
        ::open(path.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC | O_NOFOLLOW, readable));
    if (file.get() < 0) {
        fail("cannot write", path);
    }
    if (!write_fully(file.get(), bytes) || ::fsync(file.get()) != 0 || !file.close()) {
        fail("cannot write", path);
    }
}

/// So that the names are on the disk as well as the bytes. A file system that cannot do so for a
/// folder leaves it to the system.
void make_durable(const std::filesystem::path& folder) {
    const Descriptor opened(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (opened.get() >= 0) {
        ::fsync(opened.get());
    }
}

void make_folder(const std::filesystem::path& folder) {
    std::error_code failed;
    std::filesystem::create_directories(folder, failed);
    if (failed) {
        throw std::system_error(failed, "cannot make the folder " + folder.string());
    }
}

std::filesystem::path temporary(const std::filesystem::path& path) {
    return path.parent_path() / ("." + path.filename().string() + ".part");
}

} // namespace

PacketLock::PacketLock(const std::filesystem::path& folder, const std::string& stem)
    : path_(folder / ("." + stem + ".lock")) {
    make_folder(folder);
    constexpr mode_t owned = 0600;
    while (descriptor_ < 0) {
        Descriptor file(::open(path_.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, owned));
        if (file.get() < 0) {
            fail("cannot write", path_);
        }
        while (::flock(file.get(), LOCK_EX) != 0 && errno == EINTR) {}
        // Whoever held it before may have removed it while this run waited.
        struct stat held {};
        struct stat named {};
        if (::fstat(file.get(), &held) == 0 && ::lstat(path_.c_str(), &named) == 0 &&
            held.st_ino == named.st_ino && held.st_dev == named.st_dev) {
            descriptor_ = file.release();
        }
    }
}

PacketLock::~PacketLock() {
    ::unlink(path_.c_str());
    ::close(descriptor_);
}

bool write_fully(int descriptor, const std::string& bytes) {
    std::size_t done = 0;
    while (done < bytes.size()) {
        const ssize_t wrote = ::write(descriptor, bytes.data() + done, bytes.size() - done);
        if (wrote < 0 && errno != EINTR) {
            return false;
        }
        done += wrote > 0 ? static_cast<std::size_t>(wrote) : 0;
    }
    return true;
}

void write_all(const std::filesystem::path& folder, const std::vector<OutputFile>& files) {
    make_folder(folder);
    for (const OutputFile& file : files) {
        make_folder((folder / file.name).parent_path());
        if (std::filesystem::is_directory(folder / file.name)) {
            errno = EISDIR;
            fail("cannot write", folder / file.name);
        }
    }
    std::set<std::filesystem::path> folders;
    try {
        for (const OutputFile& file : files) {
            write_durably(temporary(folder / file.name), file.bytes);
        }
        for (auto file = files.rbegin(); file != files.rend(); ++file) {
            std::filesystem::rename(temporary(folder / file->name), folder / file->name);
        }
        for (const OutputFile& file : files) {
            folders.insert((folder / file.name).parent_path());
        }
        std::ranges::for_each(folders, make_durable);
    } catch (...) {
        for (const OutputFile& file : files) {
            std::error_code ignored;
            std::filesystem::remove(temporary(folder / file.name), ignored);
        }
        throw;
    }
}

bool is_part_of_packet(const std::string& name, const std::string& stem) {
    static const std::regex rest("-[A-Z]{1,2}-[0-9]{3}\\.svg|-(" +
                                 join(machine_table_names(), "|") + ")\\.csv");
    return name.starts_with(stem) && std::regex_match(name.substr(stem.size()), rest);
}

void remove_stale_sheets(const std::filesystem::path& folder, const std::string& stem,
                         const std::vector<OutputFile>& files) {
    const std::string part = ".part";
    std::vector<std::filesystem::path> stale;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        const std::string name = entry.path().filename().string();
        const bool current = std::any_of(files.begin(), files.end(),
                                         [&name](const OutputFile& f) { return f.name == name; });
        const bool temporary_of_ours =
            name.size() > part.size() && name.front() == '.' && name.ends_with(part);
        const std::string inner =
            temporary_of_ours ? name.substr(1, name.size() - part.size() - 1) : std::string{};
        const bool left_over = is_part_of_packet(inner, stem) || inner == stem + ".pdf" ||
                               inner == stem + "-response.pdf";
        if ((is_part_of_packet(name, stem) && !current) || left_over) {
            stale.push_back(entry.path());
        }
    }
    for (const auto& path : stale) {
        std::filesystem::remove(path);
    }
}

} // namespace ohmfolio
