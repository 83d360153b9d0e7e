/// A comparison as text for people and as JSON for programs.
#pragma once

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

} // namespace ohmfolio
