/// Text from the disk.
#pragma once

#include <filesystem>
#include <optional>

#include "base/finding.h"
#include "base/source.h"

namespace ohmfolio {

/// True for `path` in `folder` or below, wherever links lead.
bool lies_in(const std::filesystem::path& path, const std::filesystem::path& folder);

/// Adds the file to `sources` and returns its index there; a file that is missing or cannot be
/// opened is a finding at `named_at`, which asks for what is `wanted`. Throws std::system_error
/// when reading fails.
std::optional<int> read_source(const std::filesystem::path& path, std::string_view as_written,
                               Span named_at, SourceFiles& sources, Findings& findings,
                               std::string_view wanted = "the path of a TOML file");

} // namespace ohmfolio
