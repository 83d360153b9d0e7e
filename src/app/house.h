/// Which house style a job is drawn in.
#pragma once

#include <filesystem>

#include "app/commands.h"
#include "base/finding.h"
#include "input/house.h"

namespace ohmfolio {

/// The file that the drafter named, by --house or in OHMFOLIO_HOUSE; else house.toml in the folder
/// of `job`, and no folder above it. Without either an empty house. A logo that cannot be drawn is
/// a finding. `job` may be empty: then only a file that was named counts.
HouseFile read_house_of(const std::filesystem::path& job, const Surroundings& where,
                        SourceFiles& sources, Findings& findings);

} // namespace ohmfolio
