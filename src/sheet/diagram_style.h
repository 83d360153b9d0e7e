/// The wording beside equipment on the single-line diagram and its keyed notes, from
/// layouts/callouts.toml.
#pragma once

#include <filesystem>
#include <optional>

#include "diagram/diagram.h"
#include "sheet/layout.h"

namespace ohmfolio::sheets {

/// Lettering from the sheet format, words from callouts.toml; nothing when that file holds
/// a fault.
std::optional<DiagramStyle> read_diagram_style(const LayoutFolders& folders,
                                               const LetteringLayout& lettering,
                                               SourceFiles& sources, Findings& findings);

} // namespace ohmfolio::sheets
