#include "run_program.h"

#include <array>
#include <cerrno>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <system_error>
#include <thread>
#include <utility>

#include <fcntl.h>
#include <poll.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

namespace ohmfolio::test {

namespace {

void require(bool holds, const std::string& what) {
    if (!holds) {
        throw std::system_error(errno, std::generic_category(), what);
    }
}

class Descriptor {
  public:
    explicit Descriptor(int fd = -1) : fd_(fd) {}
    ~Descriptor() { close(); }
    Descriptor(Descriptor&& other) noexcept : fd_(std::exchange(other.fd_, -1)) {}
    Descriptor& operator=(Descriptor&& other) noexcept {
        std::swap(fd_, other.fd_);
        return *this;
    }
    int get() const { return fd_; }
    bool open() const { return fd_ >= 0; }
    void close() {
        if (fd_ >= 0) {
            ::close(fd_);
        }
        fd_ = -1;
    }

  private:
    int fd_;
};

/// Two ends: what the program writes to `theirs` can be read from `ours`.
struct Channel {
    Descriptor ours, theirs;
};

Channel pipe_channel() {
    int ends[2];
    require(::pipe2(ends, O_CLOEXEC) == 0, "pipe");
    return {Descriptor(ends[0]), Descriptor(ends[1])};
}

Channel terminal_channel() {
    Descriptor ours(::posix_openpt(O_RDWR | O_NOCTTY | O_CLOEXEC));
    require(ours.open(), "posix_openpt");
    require(::grantpt(ours.get()) == 0 && ::unlockpt(ours.get()) == 0, "unlockpt");
    std::array<char, 128> name{};
    require(::ptsname_r(ours.get(), name.data(), name.size()) == 0, "ptsname_r");
    Descriptor theirs(::open(name.data(), O_RDWR | O_NOCTTY | O_CLOEXEC));
    require(theirs.open(), name.data());
    return {std::move(ours), std::move(theirs)};
}

std::vector<std::string> environment_with(const Circumstances& circumstances) {
    std::vector<std::string> result;
    for (char** entry = environ; *entry != nullptr; ++entry) {
        const std::string text = *entry;
        if (!circumstances.environment.contains(text.substr(0, text.find('=')))) {
            result.push_back(text);
        }
    }
    for (const auto& [name, value] : circumstances.environment) {
        if (value) {
            result.push_back(name + "=" + *value);
        }
    }
    return result;
}

std::vector<char*> pointers(std::vector<std::string>& strings) {
    std::vector<char*> result;
    for (std::string& text : strings) {
        result.push_back(text.data());
    }
    result.push_back(nullptr);
    return result;
}

/// Between fork and exec: nothing here may allocate.
void limit_files(unsigned long bytes) {
    // Without the signal, which would end the program, the write fails as on a full disk.
    ::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{bytes, bytes};
    ::setrlimit(RLIMIT_FSIZE, &limit);
}

/// False at the end. A terminal whose other side is closed reports an error instead of an end.
bool read_some(const Descriptor& from, std::string& into) {
    std::array<char, 4096> buffer{};
    const ssize_t count = ::read(from.get(), buffer.data(), buffer.size());
    if (count < 0 && errno == EINTR) {
        return true;
    }
    if (count <= 0) {
        return false;
    }
    into.append(buffer.data(), static_cast<std::size_t>(count));
    return true;
}

void read_both(Descriptor& out, Descriptor& err, Outcome& outcome) {
    while (out.open() || err.open()) {
        std::array<pollfd, 2> waiting{{{out.get(), POLLIN, 0}, {err.get(), POLLIN, 0}}};
        if (::poll(waiting.data(), waiting.size(), -1) < 0) {
            require(errno == EINTR, "poll");
            continue;
        }
        if (waiting[0].revents != 0 && !read_some(out, outcome.out)) {
            out.close();
        }
        if (waiting[1].revents != 0 && !read_some(err, outcome.err)) {
            err.close();
        }
    }
}

int wait_for(pid_t program) {
    int status = 0;
    while (::waitpid(program, &status, 0) < 0) {
        require(errno == EINTR, "waitpid");
    }
    constexpr int ended_by_signal = 128;
    return WIFEXITED(status) ? WEXITSTATUS(status) : ended_by_signal + WTERMSIG(status);
}

} // namespace

Outcome run_program(const Command& command, const Circumstances& circumstances) {
    Command words = command;
    std::vector<std::string> environment = environment_with(circumstances);
    const std::vector<char*> arguments = pointers(words);
    const std::vector<char*> settings = pointers(environment);
    const std::string folder = circumstances.folder.empty() ? "." : circumstances.folder.string();
    Channel out = circumstances.output_at_terminal ? terminal_channel() : pipe_channel();
    Channel err = circumstances.errors_at_terminal ? terminal_channel() : pipe_channel();
    Channel keyboard;
    Descriptor input(::open("/dev/null", O_RDONLY | O_CLOEXEC));
    if (circumstances.typed) {
        keyboard = terminal_channel();
        input = std::move(keyboard.theirs);
        const std::string& typed = *circumstances.typed;
        require(::write(keyboard.ours.get(), typed.data(), typed.size()) ==
                    static_cast<ssize_t>(typed.size()),
                "typing");
    }
    constexpr int could_not_start = 127;

    const pid_t program = ::fork();
    require(program >= 0, "fork");
    if (program == 0) {
        ::dup2(input.get(), STDIN_FILENO);
        ::dup2(out.theirs.get(), STDOUT_FILENO);
        ::dup2(err.theirs.get(), STDERR_FILENO);
        if (circumstances.largest_file) {
            limit_files(*circumstances.largest_file);
        }
        if (::chdir(folder.c_str()) == 0) {
            ::execvpe(arguments[0], arguments.data(), settings.data());
        }
        ::_exit(could_not_start);
    }
    out.theirs.close();
    err.theirs.close();
    Outcome outcome;
    read_both(out.ours, err.ours, outcome);
    outcome.exit_code = wait_for(program);
    if (outcome.exit_code == could_not_start) {
        throw std::system_error(ENOENT, std::generic_category(), command.front());
    }
    return outcome;
}

Outcome run_ohmfolio(const Command& arguments, const Circumstances& circumstances) {
    Command command{OHMFOLIO_BINARY};
    command.insert(command.end(), arguments.begin(), arguments.end());
    return run_program(command, circumstances);
}

RunningProgram::RunningProgram(const Command& command) {
    std::string log = (std::filesystem::temp_directory_path() / "ohmfolio-test-XXXXXX").string();
    const Descriptor output(::mkstemp(log.data()));
    require(output.open(), log);
    log_ = log;
    Command words = command;
    const std::vector<char*> arguments = pointers(words);
    program_ = ::fork();
    require(program_ >= 0, "fork");
    if (program_ == 0) {
        ::dup2(output.get(), STDOUT_FILENO);
        ::dup2(output.get(), STDERR_FILENO);
        ::execvp(arguments[0], arguments.data());
        constexpr int could_not_start = 127;
        ::_exit(could_not_start);
    }
}

RunningProgram::~RunningProgram() {
    if (program_ > 0) {
        end(SIGKILL);
    }
    std::filesystem::remove(log_);
}

std::string RunningProgram::output() const {
    std::ifstream in(log_);
    return {std::istreambuf_iterator<char>(in), {}};
}

void RunningProgram::wait_until_it_says(const std::string& words) const {
    constexpr int most_tries = 1200;
    for (int tries = 0; tries < most_tries; ++tries) {
        if (output().find(words) != std::string::npos) {
            return;
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(25));
    }
    throw std::runtime_error("it did not say \"" + words + "\" but: " + output());
}

int RunningProgram::end(int signal) {
    ::kill(program_, signal);
    const int code = wait_for(program_);
    program_ = -1;
    return code;
}

bool has_terminals() {
    const int controller = ::posix_openpt(O_RDWR | O_NOCTTY);
    if (controller < 0) {
        return false;
    }
    ::close(controller);
    return true;
}

} // namespace ohmfolio::test
