#include "app/handing_in.h"

#include <fmt/format.h>

#include "app/appendix.h"
#include "app/attachments.h"
#include "app/files.h"
#include "app/program_modules.h"
#include "app/report.h"

namespace ohmfolio {

HandingIn::HandingIn(const DrawOptions& options, const Surroundings& where, const DrawnSet& set)
    : options_(options), where_(where), set_(set), stem_(options.system.stem().string()),
      digests_(digests_of(set.job.packet)), there_(find_issued(pdf())),
      standing_(standing(there_, digests_.content, set.system())) {}

bool HandingIn::writes(const std::filesystem::path& file) const {
    const auto folder_of = [](const std::filesystem::path& path) {
        return std::filesystem::weakly_canonical(std::filesystem::absolute(path)).parent_path();
    };
    const std::string name = file.filename().string();
    const bool by_name = name == stem_ + ".pdf" || name == report_name || name == letter_name() ||
                         is_part_of_packet(name, stem_);
    return by_name && folder_of(file.parent_path() / "x") == folder_of(options_.out / "x");
}

std::optional<std::filesystem::path> HandingIn::overwritten() const {
    std::vector<std::filesystem::path> kept{options_.system, options_.record};
    for (int file = 0; file < set_.job.sources.count(); ++file) {
        kept.emplace_back(set_.job.sources.name(file));
    }
    const auto found = std::ranges::find_if(
        kept, [this](const std::filesystem::path& file) { return writes(file); });
    return found == kept.end() ? std::nullopt : std::optional(*found);
}

std::optional<std::string> HandingIn::obstacle(SourceFiles& sources, Findings& findings) {
    if (!options_.replace && standing_ == Standing::another_content) {
        return fmt::format("{} was issued as revision {}, and this set differs from it",
                           pdf().string(), there_->report.revisions.back());
    }
    if (options_.record.empty() || !set_.is_issue()) {
        return std::nullopt;
    }
    record_ = IssueRecord::read(options_.record, sources, findings);
    if (!record_) {
        return options_.record.string() + " is not understood as a record of issues";
    }
    const RecordedIssue* issue = record_->find(stem_, set_.system().revisions.back().number);
    if (issue != nullptr && !options_.replace && issue->content != digests_.content) {
        return fmt::format("{} has revision {} of {} with other content", options_.record.string(),
                           issue->revision, stem_);
    }
    return std::nullopt;
}

/// All sheets, or those that are not as they were.
Packet HandingIn::handed_in() const {
    Packet packet = set_.job.packet;
    if (options_.only_changed && set_.since) {
        const std::string& latest = set_.system().revisions.back().number;
        std::erase_if(packet.sheets,
                      [&latest](const Sheet& sheet) { return sheet.revision != latest; });
        remove_dangling_links(packet);
    }
    return packet;
}

/// The PDF first.
std::vector<OutputFile> HandingIn::files_of(const Packet& packet,
                                            const Lettering& lettering) const {
    const DrawnJob& job = set_.job;
    std::vector<OutputFile> files = rendered(packet, lettering, stem_);
    const std::string told =
        report(set_.system(), job.studied->study,
               {job.packet, digests_, options_.style.sheet, set_.draft}, job.findings, job.sources);
    files.push_back({std::string(report_name), told});
    PdfBinding binding{packet.info.date, appended_pages(packet, set_.system(), job.sources), {}};
    binding.attachments =
        attachments(job.sources,
                    {options_.system, job.files_of_job, where_.data, set_.system().appendix}, told);
    files.front().bytes = binder().bind(files.front().bytes, binding);
    if (set_.letter) {
        files.push_back({letter_name(), renderer().to_pdf(*set_.letter, lettering)});
    }
    if (standing_ == Standing::earlier_issue) { // kept under a name of its own
        files.push_back({fmt::format("issued/{}-{}.pdf", stem_, there_->report.revisions.back()),
                         there_->bytes});
    }
    return files;
}

std::size_t HandingIn::write(const Lettering& lettering) {
    const Packet packet = handed_in();
    const std::vector<OutputFile> files = files_of(packet, lettering);
    const PacketLock lock(options_.out, stem_);
    write_all(options_.out, files);
    remove_stale(files);
    record(packet, binder().digest(files.front().bytes));
    return packet.sheets.size();
}

/// Sheets that are as they were stand there from before, whether they are handed in or not.
void HandingIn::remove_stale(std::vector<OutputFile> files) const {
    for (const Sheet& sheet : set_.job.packet.sheets) {
        files.push_back({stem_ + "-" + sheet.number + ".svg", {}});
    }
    remove_stale_sheets(options_.out, stem_, files);
}

void HandingIn::record(const Packet& packet, const std::string& digest) {
    if (!record_) {
        return;
    }
    const Revision& row = set_.system().revisions.back();
    RecordedIssue issue{stem_,          row.number, row.date, row.description, digests_.content,
                        stem_ + ".pdf", digest,     {}};
    for (const Sheet& sheet : packet.sheets) {
        issue.sheets.push_back(sheet.number);
    }
    record_->set(std::move(issue));
    const std::filesystem::path folder = options_.record.parent_path();
    write_all(folder.empty() ? "." : folder,
              {{options_.record.filename().string(), record_->text()}});
}

} // namespace ohmfolio
