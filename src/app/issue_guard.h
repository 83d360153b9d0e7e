/// A set that was issued stays what it was.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "app/drawn_job.h"
#include "app/files.h"
#include "app/issued_pdf.h"

namespace ohmfolio {

/// Digest of all that is drawn on the sheets of a packet; what tells of the issue itself left out.
std::string content_digest(const Packet& packet);

/// A set is issued when it is final and its revision block has a row. Why the set at `pdf` must not
/// be drawn over by `job`, in a sentence; nothing when it may: it holds the same, a row was added
/// since, or none of ours stands there.
std::optional<std::string> keeps_issue(const std::filesystem::path& pdf,
                                       const std::optional<IssuedPdf>& there, const DrawnJob& job);

/// The set that is about to be replaced by a later revision, to be kept under a name of its own;
/// nothing where none is.
std::optional<OutputFile> superseded(const std::string& stem, const std::optional<IssuedPdf>& there,
                                     const DrawnJob& job);

} // namespace ohmfolio
