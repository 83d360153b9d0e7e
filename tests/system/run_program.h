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

/// Whether this machine gives out pseudo-terminals; a bare root folder without /dev/pts does not.
bool has_terminals();

} // namespace ohmfolio::test
