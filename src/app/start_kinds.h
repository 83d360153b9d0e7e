/// A first description of a system to go on from: one of the kinds in the folder starts/ of the
/// data, with the drafter's name, address and number of modules in it.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace ohmfolio {

/// A file of starts/. Its first two lines, which begin with "#!", state what kind of system it is
/// and how modules are divided: "3 groups of 1 to 11 modules". A line that begins with "#*" stands
/// once for each group, a branch or a string.
struct StartKind {
    std::string name; ///< the file's, without its ending
    std::string meaning;
    int groups = 1, least = 1, most = 1; ///< modules of a group
    std::string text;                    ///< what follows the two lines
};

/// By name. Throws std::runtime_error for a file that does not begin as it should.
std::vector<StartKind> start_kinds(const std::filesystem::path& folder);

/// Modules of each group, as even as can be; none where the number cannot be divided so.
std::vector<int> divided(const StartKind& kind, int modules);

struct StartAnswers {
    std::string name, address;
    std::string date; ///< "2026-03-02"
    std::string file; ///< where it will stand, for the comment that says how to draw it
    int modules = 0;
};

/// The description. `answers.modules` can be divided.
std::string filled_start(const StartKind& kind, const StartAnswers& answers);

} // namespace ohmfolio
