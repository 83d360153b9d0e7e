// Loaded before the C library, into the program under test: the machine fails, or the process is
// killed, at one call that changes files below a folder.
//
//   OHMFOLIO_FAULT_FOLDER  the folder; calls elsewhere go through untouched
//   OHMFOLIO_FAULT_CALL    which of the calls, from 1
//   OHMFOLIO_FAULT_KIND    "kill": killed before the call; "half": a write puts down half of its
//                          bytes, then the process is killed; "full": the disk is full
//   OHMFOLIO_FAULT_CALLS   a file that gets the names of the calls, a line each, when the process
//   ends
//                          by itself
#include <cerrno>
#include <csignal>
#include <cstdarg>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string>

#include <dlfcn.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace {

constexpr int most_files = 1024;
bool watched[most_files];
std::string* calls_made = nullptr;
long calls = 0;

template <class Call> Call next(const char* name) {
    return reinterpret_cast<Call>(::dlsym(RTLD_NEXT, name));
}

bool below_folder(const char* path) {
    const char* folder = std::getenv("OHMFOLIO_FAULT_FOLDER");
    if (folder == nullptr || path == nullptr)
        return false;
    const std::size_t length = std::strlen(folder);
    return std::strncmp(path, folder, length) == 0 && (path[length] == '/' || path[length] == 0);
}

bool is_kind(const char* kind) {
    const char* wanted = std::getenv("OHMFOLIO_FAULT_KIND");
    return wanted != nullptr && std::strcmp(wanted, kind) == 0;
}

/// Counts the call; true when it is the one that fails for want of room.
bool fails_now(const char* name) {
    const char* at = std::getenv("OHMFOLIO_FAULT_CALL");
    if (calls_made == nullptr)
        calls_made = new std::string;
    *calls_made += std::string(name) + "\n";
    ++calls;
    if (at == nullptr || calls != std::atol(at))
        return false;
    if (is_kind("full"))
        return true;
    if (is_kind("kill"))
        ::kill(::getpid(), SIGKILL);
    return false;
}

bool dies_in_write() {
    const char* at = std::getenv("OHMFOLIO_FAULT_CALL");
    return is_kind("half") && at != nullptr && calls == std::atol(at);
}

int opened(int file, bool ours) {
    if (file >= 0 && file < most_files)
        watched[file] = ours;
    return file;
}

int refuse() {
    errno = ENOSPC;
    return -1;
}

struct Report {
    ~Report() {
        const char* path = std::getenv("OHMFOLIO_FAULT_CALLS");
        if (path == nullptr || calls_made == nullptr)
            return;
        if (std::FILE* file = std::fopen(path, "w")) {
            std::fwrite(calls_made->data(), 1, calls_made->size(), file);
            std::fclose(file);
        }
    }
} report;

} // namespace

extern "C" {

int open(const char* path, int flags, ...) {
    mode_t mode = 0;
    if ((flags & O_CREAT) != 0) {
        va_list arguments;
        va_start(arguments, flags);
        mode = va_arg(arguments, mode_t);
        va_end(arguments);
    }
    const bool ours = (flags & (O_WRONLY | O_RDWR)) != 0 && below_folder(path);
    if (ours && fails_now("open"))
        return refuse();
    return opened(next<int (*)(const char*, int, ...)>("open")(path, flags, mode), ours);
}

ssize_t write(int file, const void* bytes, size_t count) {
    const auto call = next<ssize_t (*)(int, const void*, size_t)>("write");
    if (file < 0 || file >= most_files || !watched[file])
        return call(file, bytes, count);
    if (fails_now("write"))
        return refuse();
    if (dies_in_write()) {
        call(file, bytes, count / 2);
        ::kill(::getpid(), SIGKILL);
    }
    return call(file, bytes, count);
}

int close(int file) {
    if (file >= 0 && file < most_files)
        watched[file] = false;
    return next<int (*)(int)>("close")(file);
}

int fsync(int file) {
    if (file >= 0 && file < most_files && watched[file] && fails_now("fsync"))
        return refuse();
    return next<int (*)(int)>("fsync")(file);
}

int rename(const char* from, const char* to) {
    if (below_folder(to) && fails_now("rename"))
        return refuse();
    return next<int (*)(const char*, const char*)>("rename")(from, to);
}

int remove(const char* path) {
    if (below_folder(path) && fails_now("remove"))
        return refuse();
    return next<int (*)(const char*)>("remove")(path);
}

int mkdir(const char* path, mode_t mode) {
    if (below_folder(path) && fails_now("mkdir"))
        return refuse();
    return next<int (*)(const char*, mode_t)>("mkdir")(path, mode);
}

} // extern "C"
