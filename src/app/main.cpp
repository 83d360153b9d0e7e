/// ohmfolio: text becomes a system, a system becomes a study, system and study become frames,
/// frames become sheets, sheets become files.
#include <cerrno>
#include <csignal>
#include <cstring>
#include <exception>
#include <iostream>
#include <new>

#include <malloc.h>

#include "app/commands.h"

namespace {

/// A run is short and ends by itself: memory that it gives back to the system between its steps is
/// asked for again in the next.
void keep_memory() {
    constexpr int mebibyte = 1024 * 1024;
    ::mallopt(M_MMAP_THRESHOLD, 64 * mebibyte);
    ::mallopt(M_TRIM_THRESHOLD, 256 * mebibyte);
    ::mallopt(M_TOP_PAD, 8 * mebibyte);
}

/// What was told may have gone nowhere: to a full disk, or to no one. `code` is of all else.
int told(int code) {
    errno = 0;
    std::cout.flush();
    if (std::cout)
        return code;
    std::cerr << "ohmfolio: cannot write the standard output";
    if (errno != 0)
        std::cerr << ": " << std::strerror(errno);
    std::cerr << '\n';
    return ohmfolio::exit_machine_failed;
}

} // namespace

int main(int argc, char* argv[]) {
    keep_memory();
    // A file that grows past a limit of the system is told like a full disk.
    std::signal(SIGXFSZ, SIG_IGN);
    try {
        return told(ohmfolio::run(argc, argv, std::cout, std::cerr));
    } catch (const std::bad_alloc&) {
        std::cerr << "ohmfolio: out of memory\n";
    } catch (const std::exception& fault) {
        std::cerr << "ohmfolio: " << fault.what() << '\n';
    }
    return ohmfolio::exit_machine_failed;
}
