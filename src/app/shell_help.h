/// The command line told to shells and to the reader of manuals, out of the same parser that reads
/// it.
#pragma once

#include <string>
#include <vector>

#include <CLI/CLI.hpp>

namespace ohmfolio {

enum class Shell { bash, zsh, fish };

/// A completion script of `app`.
std::string completion(const CLI::App& app, Shell shell);

/// A manual page, section 1, in the macros of man(7).
std::string manual(const CLI::App& app);

} // namespace ohmfolio
