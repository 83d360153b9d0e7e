/// house.toml, the style of an office, read by the same kind of key table as a description.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string_view>
#include <vector>

#include "base/finding.h"
#include "base/source.h"
#include "model/house.h"
#include "toml/toml.h"

namespace ohmfolio {

/// What the file says, and what of it the reading of a job needs.
struct HouseFile {
    House house;
    std::filesystem::path folder; ///< holds the file; empty: there is no house file
    std::vector<Spanned<std::filesystem::path>> catalogues; ///< files, and folders of them
    std::optional<toml_text::Node> defaults; ///< lies under the tree of every description
};

/// Reads the file. What it names has to lie in its folder or below. Faults become findings and
/// what is at fault is left out, so that the job can be read all the same; the caller stops on
/// errors. `as_written` is how the drafter named the file.
HouseFile read_house(const std::filesystem::path& path, std::string_view as_written,
                     SourceFiles& sources, Findings& findings);

} // namespace ohmfolio
