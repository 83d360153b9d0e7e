/// A set that was issued: a PDF that carries what it was drawn from, and a report of how.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "binder/binder.h"

namespace ohmfolio {

/// A sheet as it was issued.
struct IssuedSheet {
    std::string number;
    std::string revision; ///< that it was last changed by; empty: none
    std::string digest;   ///< of what is drawn on it; empty: not recorded
};

/// What the report tells of the issue.
struct IssueReport {
    std::vector<std::string> revisions; ///< numbers of the rows of the revision block
    std::string format;                 ///< of the sheets, where an option had named one
    std::string content;                ///< digest of all that is drawn; empty: not recorded
    bool draft = false;
    std::vector<IssuedSheet> sheets;
};

struct IssuedPdf {
    std::string bytes;
    std::vector<PdfAttachment> files; ///< the description first
    IssueReport report;
};

/// Throws std::runtime_error, in words for the user, when the file cannot be read or is no set of
/// ours.
IssuedPdf read_issued(const std::filesystem::path& pdf);
/// The same where a file may be missing or be anything: nothing then.
std::optional<IssuedPdf> find_issued(const std::filesystem::path& pdf);

/// Writes the attached files into `folder` and returns where the description and, if it stood
/// apart, the house style are. Throws std::runtime_error when a name leads out of the folder.
struct UnpackedIssue {
    std::filesystem::path job, house;
};
UnpackedIssue unpack_into(const std::filesystem::path& folder, const IssuedPdf& issued);

/// The bytes of a file; throws std::runtime_error when it cannot be read.
std::string bytes_of(const std::filesystem::path& path);

} // namespace ohmfolio
