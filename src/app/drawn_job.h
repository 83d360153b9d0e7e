/// A description on its way to a packet, in memory.
#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>

#include "app/commands.h"
#include "app/stages.h"
#include "base/finding.h"
#include "base/source.h"
#include "drawing/sheet.h"
#include "render/render.h"
#include "revision/stated_changes.h"

namespace ohmfolio {

struct DrawnJob {
    std::filesystem::path path; ///< of the description
    SourceFiles sources;
    Findings findings;
    std::optional<Studied> studied; ///< nothing when the description cannot be understood
    int files_of_job = 0;           ///< the first of the sources
    Packet packet;
};

/// Reads the description and applies the code book.
void study_job(DrawnJob& job, const std::filesystem::path& path, const Surroundings& where);

struct SetOptions {
    Style style = {};
    bool draft = false;
    /// Revisions that sheets were issued under, where it is not the latest: PacketOptions.
    std::map<std::string, std::string> issued_under = {};
    /// Earlier numbers of sheets: PacketOptions.
    std::map<std::string, std::string> were = {};
};

/// Draws the packet of a job that has been studied. Findings of the drawing join the others; the
/// netlist and the lint of the sheets are not looked at yet.
void draw_job(DrawnJob& job, const SetOptions& options, const Surroundings& where,
              const Lettering& lettering);

/// The lint of the sheets, and the drawing held against the system before anyone sees it: a wire
/// that joins what it should not is worse than no drawing.
Findings drawing_findings(const DrawnJob& job, const TextMeasure& measure);

/// What the author of the job wrote: for comparing two issues. Appended documents and other files
/// go by their names alone, since a PDF carries them in folders of its own.
revision::Statements statements_of(const DrawnJob& job);

} // namespace ohmfolio
