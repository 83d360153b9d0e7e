#include "app/file_watch.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>
#include <cstddef>
#include <system_error>

#include <poll.h>
#include <sys/inotify.h>
#include <sys/signalfd.h>
#include <unistd.h>

namespace ohmfolio {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void fail(const char* what) {
    throw std::system_error(errno, std::generic_category(), what);
}

/// A rename that puts a file into its place completes it as closing it does.
constexpr std::uint32_t completed = IN_CLOSE_WRITE | IN_MOVED_TO;

bool is_of_a_job(const fs::path& name) {
    constexpr std::array kinds = {".toml", ".svg", ".pdf", ".png", ".jpg", ".jpeg"};
    return std::ranges::find(kinds, name.extension()) != kinds.end();
}

} // namespace

FileWatch::FileWatch() : changes_(::inotify_init1(IN_CLOEXEC | IN_NONBLOCK)) {
    if (changes_ < 0) {
        fail("watching files");
    }
    sigset_t ends;
    sigemptyset(&ends);
    for (const int signal : {SIGINT, SIGTERM, SIGHUP}) {
        sigaddset(&ends, signal);
    }
    ::pthread_sigmask(SIG_BLOCK, &ends, nullptr);
    signals_ = ::signalfd(-1, &ends, SFD_CLOEXEC);
    if (signals_ < 0) {
        fail("waiting for signals");
    }
}

FileWatch::~FileWatch() {
    ::close(changes_);
    ::close(signals_);
}

void FileWatch::follow(const std::set<fs::path>& files) {
    files_.clear();
    std::set<fs::path> folders;
    for (const fs::path& file : files) {
        files_.insert(fs::absolute(file).lexically_normal());
        folders.insert(fs::absolute(file).lexically_normal().parent_path());
    }
    std::erase_if(folders_, [&](const auto& folder) {
        const bool gone = !folders.contains(folder.first);
        if (gone) {
            ::inotify_rm_watch(changes_, folder.second);
        }
        return gone;
    });
    for (const fs::path& folder : folders) {
        // A folder that is not there has no files that could be written.
        const int watch = ::inotify_add_watch(changes_, folder.c_str(), completed);
        if (watch >= 0) {
            folders_[folder] = watch;
        }
    }
}

bool FileWatch::concerns(int folder, const std::string& name) const {
    const auto of =
        std::ranges::find_if(folders_, [&](const auto& known) { return known.second == folder; });
    if (of == folders_.end() || name.empty() || name.front() == '.') {
        return false;
    }
    return files_.contains(of->first / name) || is_of_a_job(name);
}

/// Whether one of the files was among what has changed so far.
bool FileWatch::read_changes() {
    bool concerned = false;
    alignas(inotify_event) std::array<char, 16384> buffer;
    for (;;) {
        const ssize_t size = ::read(changes_, buffer.data(), buffer.size());
        if (size <= 0) {
            return concerned;
        }
        for (std::size_t at = 0; at < static_cast<std::size_t>(size);) {
            const auto* event = reinterpret_cast<const inotify_event*>(buffer.data() + at);
            concerned = concerned || (event->mask & IN_Q_OVERFLOW) != 0 ||
                        (event->len > 0 && concerns(event->wd, event->name));
            at += sizeof(inotify_event) + event->len;
        }
    }
}

FileWatch::Event FileWatch::wait() {
    for (;;) {
        std::array<pollfd, 2> either = {{{changes_, POLLIN, 0}, {signals_, POLLIN, 0}}};
        if (::poll(either.data(), either.size(), -1) < 0) {
            if (errno == EINTR) {
                continue;
            }
            fail("waiting for files");
        }
        if (either[1].revents != 0) {
            return Event::end;
        }
        if (read_changes()) {
            return Event::written;
        }
    }
}

} // namespace ohmfolio
