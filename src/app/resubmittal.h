/// The issue after the one that was commented on: what has changed since is clouded, comments are
/// answered.
#pragma once

#include <filesystem>
#include <memory>
#include <vector>

#include "app/drawn_job.h"
#include "app/issued_pdf.h"
#include "app/temporary_folder.h"
#include "revision/answers.h"
#include "revision/clouds.h"
#include "revision/comparison.h"

namespace ohmfolio {

/// An issued set, drawn again from what its PDF carries.
struct EarlierIssue {
    IssuedPdf pdf;
    TemporaryFolder folder;
    DrawnJob job;
};

/// Throws std::runtime_error, in words for the user, when the PDF cannot be read, is none of ours
/// or cannot be drawn again.
std::unique_ptr<EarlierIssue> draw_earlier(const std::filesystem::path& pdf,
                                           const Surroundings& where, const Lettering& lettering);

/// The revisions that the sheets of an issue were last changed by.
std::map<std::string, std::string> revisions_of_sheets(const Packet& packet);

struct Resubmittal {
    revision::Comparison comparison;
    std::vector<revision::Cloud> clouds;
    std::vector<revision::Answer> answers;
    std::vector<revision::SheetChange> sheets; ///< parallel to those of the packet
};

/// Draws the packet of `job`, which has been studied, as the issue after `earlier`. Faults of
/// revision rows and of answers are added to the findings of the job.
Resubmittal draw_resubmittal(DrawnJob& job, const EarlierIssue& earlier, SetOptions options,
                             const Surroundings& where, const Lettering& lettering);

} // namespace ohmfolio
