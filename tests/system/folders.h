/// Folders that are gone when a test is over, and the files in them.
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "app/temporary_folder.h"

namespace ohmfolio::test {

using ohmfolio::TemporaryFolder;

std::string read_file(const std::filesystem::path& path);
void write_file(const std::filesystem::path& path, const std::string& bytes);
/// Every file below `folder`, hidden ones too, by its path within it.
std::map<std::string, std::string> files_below(const std::filesystem::path& folder);
/// Names of all that is in `folder`, sorted.
std::vector<std::string> names_in(const std::filesystem::path& folder);

/// Descriptions under examples/: the TOML files that have a [project] table, sorted.
std::vector<std::filesystem::path> example_systems();
/// The house that most tests go by.
std::filesystem::path ashgrove();

using Replacements = std::vector<std::pair<std::string, std::string>>;
/// Copies `system` and what lies beside it, other descriptions excepted, to `folder` and makes each
/// replacement once, in whichever of the files holds the text; a system that is changed loses its
/// plans. Returns the path of the copied
/// system. Throws std::logic_error when a text is not there.
std::filesystem::path copied(const std::filesystem::path& system,
                             const std::filesystem::path& folder,
                             const Replacements& replacements = {});

} // namespace ohmfolio::test
