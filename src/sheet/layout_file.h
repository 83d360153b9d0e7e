/// Inside this room: the file of a sheet format joined with the files that it names as its base,
/// and which formats there are. Every value keeps the place where it was written.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "base/finding.h"
#include "sheet/layout.h"
#include "toml/toml.h"

namespace ohmfolio::sheets {

/// `format`.toml over its base, that over its own, and so on. A file of the office may have the
/// one that it takes the place of as its base. Nothing, with findings, when
/// there is no such format, when a file cannot be read, or when bases lead in a circle.
std::optional<toml_text::Node> read_layout_file(const LayoutFolders& folders,
                                                const Spanned<std::string>& format,
                                                SourceFiles& sources, Findings& findings);

} // namespace ohmfolio::sheets
