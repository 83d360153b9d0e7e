/// Runs a program as a user would, and collects what it says.
#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace ohmfolio::test {

/// Program and arguments, handed over as they are: no shell reads them.
using Command = std::vector<std::string>;

struct Circumstances {
    /// Added to the environment of the tests; nothing: taken out of it.
    std::map<std::string, std::optional<std::string>> environment{};
    std::filesystem::path folder{}; ///< to run in; empty: the one the tests run in
    bool output_at_terminal = false;
    bool errors_at_terminal = false;
    std::optional<unsigned long> largest_file{}; ///< in bytes; a longer write fails
    /// What a person types at the terminal that input comes from; nothing: there is no input.
    std::optional<std::string> typed{};
};

struct Outcome {
    int exit_code = -1; ///< 128 and the number of the signal that ended it, as shells say it
    std::string out;
    std::string err;
};

/// Waits for its end. Throws std::system_error when it cannot be started.
Outcome run_program(const Command& command, const Circumstances& circumstances = {});

/// The program under test, with these arguments.
Outcome run_ohmfolio(const Command& arguments, const Circumstances& circumstances = {});

/// A program that runs until it is told to end.
class RunningProgram {
  public:
    explicit RunningProgram(const Command& command);
    ~RunningProgram(); ///< kills it when it has not ended
    RunningProgram(const RunningProgram&) = delete;
    RunningProgram& operator=(const RunningProgram&) = delete;

    /// What it has said so far, errors too.
    std::string output() const;
    /// Waits until it has said `words`. Throws std::runtime_error when it does not come to that.
    void wait_until_it_says(const std::string& words) const;
    /// Sends the signal and waits: the exit code as in Outcome.
    int end(int signal);

  private:
    std::filesystem::path log_;
    int program_ = -1;
};

/// Whether this machine gives out pseudo-terminals; a bare root folder without /dev/pts does not.
bool has_terminals();

} // namespace ohmfolio::test
