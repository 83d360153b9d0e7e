/// A job carried through all stages as the program does it, for tests that look at whole drawings.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/finding.h"
#include "drawing/measure.h"
#include "drawing/sheet.h"
#include "input/input.h"
#include "study/study.h"

namespace ohmfolio::drawn {

struct DrawnJob {
    SourceFiles sources;
    Findings input;   ///< of reading; with an error there is neither study nor packet
    Findings drawing; ///< of making the sheets, what the program would print or stop for
    std::optional<System> system;
    std::optional<Study> study;
    Packet packet; ///< a draft where the code is violated

    /// The sheets that hold the single-line diagram.
    std::vector<const Sheet*> diagram_sheets() const;
};

/// From texts of a job and of its catalogue, lettered in the faces of the house.
std::unique_ptr<DrawnJob> draw_job(const std::string& job, const std::string& catalogue);
/// From a file of the repository, "examples/tolliver-bend/ashgrove.toml".
std::unique_ptr<DrawnJob> draw_file(const std::string& path);
/// Lettering in the faces of the house.
const TextMeasure& house_measure();

std::string repository_text(const std::string& path);
/// A finding in one line: rule, subject, message.
std::string said(const Finding& finding);

} // namespace ohmfolio::drawn
