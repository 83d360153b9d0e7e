/// The drafter's TOML becomes a `System`. One table of keys drives reading, messages and (later)
/// the JSON Schema and the reference page: see keys.h.
#pragma once

#include <filesystem>
#include <optional>
#include <vector>

#include "base/finding.h"
#include "base/source.h"
#include "input/house.h"
#include "model/system.h"
#include "toml/toml.h"

namespace ohmfolio {

/// What a description may lean on.
struct Office {
    HouseFile house;
    std::filesystem::path catalogues = {}; ///< folder of those that came with the program
};

/// Reads the description and the catalogues it names (paths relative to the description). All
/// faults become findings; a system is returned only when none of them is an error. Throws
/// std::system_error only when the machine fails (a disk error after a file was opened); a file
/// that is missing or unreadable is a finding.
std::optional<System> read_system(const std::filesystem::path& path, SourceFiles& sources,
                                  Findings& findings);
/// The same within an office: the house states what the job does not, and catalogues are looked for
/// beside the job, then in the house, then among those of the program.
std::optional<System> read_system(const std::filesystem::path& path, const Office& office,
                                  SourceFiles& sources, Findings& findings);

/// The trees of these catalogue files, or of all of the office and the program where none are
/// named, with records that extend others complete. Faults of the files and of nameplates are
/// findings.
std::vector<toml_text::Node> read_catalogue_trees(const std::vector<std::filesystem::path>& files,
                                                  const Office& office, SourceFiles& sources,
                                                  Findings& findings);

/// A system from texts in memory, for tests: the description, and the catalogue it names.
std::optional<System> read_system_text(std::string text, std::string catalogue,
                                       SourceFiles& sources, Findings& findings,
                                       std::optional<Edition> edition = {});

} // namespace ohmfolio
