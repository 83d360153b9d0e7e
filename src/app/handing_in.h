/// The last step of `draw`: a set that is drawn goes to its folder, if nothing that was issued
/// stands in its way.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "app/commands.h"
#include "app/drawn_job.h"
#include "app/issue_guard.h"
#include "app/issue_record.h"
#include "app/issued_pdf.h"
#include "app/output.h"

namespace ohmfolio {

/// A set as it is drawn.
struct DrawnSet {
    const DrawnJob& job;
    std::optional<Packet> letter; ///< that goes with it
    bool since = false;           ///< sheets that did not change keep their revision
    bool draft = false;

    const System& system() const { return job.studied->system; }
    bool is_issue() const { return !draft && !system().revisions.empty(); }
};

class HandingIn {
  public:
    HandingIn(const DrawOptions& options, const Surroundings& where, const DrawnSet& set);

    std::filesystem::path pdf() const { return options_.out / (stem_ + ".pdf"); }
    std::filesystem::path letter() const { return options_.out / letter_name(); }

    /// A file that the set was made from, or the record, in the place of one that it would write.
    std::optional<std::filesystem::path> overwritten() const;
    /// Why the set is not to be written, in a sentence; nothing when it may be. Faults of the
    /// record are among `findings`, whose places are in `sources`.
    std::optional<std::string> obstacle(SourceFiles& sources, Findings& findings);
    /// Writes all files and the record; returns how many sheets were handed in. Throws
    /// std::system_error when the machine fails.
    std::size_t write(const Lettering& lettering);

  private:
    bool writes(const std::filesystem::path& file) const;
    std::string letter_name() const { return stem_ + "-response.pdf"; }
    Packet handed_in() const;
    std::vector<OutputFile> files_of(const Packet& packet, const Lettering& lettering) const;
    void remove_stale(std::vector<OutputFile> files) const;
    void record(const Packet& packet, const std::string& digest);

    const DrawOptions& options_;
    const Surroundings& where_;
    const DrawnSet& set_;
    std::string stem_;
    PacketDigests digests_;
    std::optional<IssuedPdf> there_; ///< what stands where the set goes
    Standing standing_;
    std::optional<IssueRecord> record_;
};

} // namespace ohmfolio
