/// The record of an office: which sets were issued, with digests by which they can be known again.
/// A TOML file to which each issue adds an entry.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "base/finding.h"

namespace ohmfolio {

struct RecordedIssue {
    std::string job, revision, date, description;
    std::string content;             ///< digest of what is drawn
    std::string file;                ///< name of the PDF
    std::string digest;              ///< SHA-256 of the PDF
    std::vector<std::string> sheets; ///< reissued with it
};

class IssueRecord {
  public:
    /// A file that is not there yet is an empty record; one that is not understood is a finding.
    static std::optional<IssueRecord> read(const std::filesystem::path& path, SourceFiles& sources,
                                           Findings& findings);

    /// The entry of the same job and revision; nullptr when there is none.
    const RecordedIssue* find(const std::string& job, const std::string& revision) const;
    /// Adds an entry, or takes the place of that of the same job and revision.
    void set(RecordedIssue issue);
    std::string text() const;

  private:
    std::vector<RecordedIssue> issues_;
};

} // namespace ohmfolio
