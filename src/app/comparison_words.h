/// A comparison as text for people and as JSON for programs.
#pragma once

#include <filesystem>
#include <string>
#include <utility>
#include <vector>

#include "revision/comparison.h"

namespace ohmfolio {

/// All jobs of two folders.
struct FolderComparison {
    std::vector<std::pair<std::string, revision::Comparison>> jobs; ///< by stem
    std::vector<std::string> only_older, only_newer, unreadable;
};

/// Cause before consequence: what the drafter changed, then what followed.
std::string as_text(const revision::Comparison& comparison);
std::string as_text(const FolderComparison& comparison);
std::string as_json(const revision::Comparison& comparison);
std::string as_json(const FolderComparison& comparison);

/// Whether a file is the description of a job, as far as can be told without understanding it: a
/// catalogue or a house style has no project.
bool is_description(const std::filesystem::path& file);

} // namespace ohmfolio
