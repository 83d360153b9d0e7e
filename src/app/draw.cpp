#include <algorithm>
#include <ostream>
#include <set>
#include <stdexcept>

#include <fmt/format.h>

#include "app/appendix.h"
#include "app/attachments.h"
#include "app/binder_module.h"
#include "app/commands.h"
#include "app/drawn_job.h"
#include "app/files.h"
#include "app/issue_guard.h"
#include "app/issue_record.h"
#include "app/output.h"
#include "app/report.h"
#include "app/resubmittal.h"
#include "diagram/diagram.h"
#include "drawing/lint.h"
#include "revision/letter.h"

namespace ohmfolio {

namespace {

/// The drawing is held against the system before anyone sees it: a wire that joins what it should
/// not is worse than no drawing.
Findings drawing_findings(const Packet& packet, const System& system, const TextMeasure& measure) {
    Findings findings = drafting_faults(packet, measure);
    std::vector<const Frame*> frames;
    for (const Sheet& sheet : packet.sheets) {
        frames.push_back(&sheet.frame);
    }
    const Findings wiring = compare_netlists(read_netlist(frames), intended_netlist(system));
    findings.insert(findings.end(), wiring.begin(), wiring.end());
    return findings;
}

/// One run of the command.
class Drawing {
  public:
    Drawing(const DrawOptions& options, const Surroundings& where, std::ostream& out,
            std::ostream& err)
        : options_(options), where_(where), out_(out), err_(err),
          lettering_(where.data / "layouts" / "lettering"), stem_(options.system.stem().string()) {}

    int run() {
        study_job(job_, options_.system, where_);
        if (!job_.studied || stopped()) {
            return stop(job_.studied
                            ? " Resolve the violations, or draw a marked draft with --draft."
                            : "");
        }
        if (!draw_set()) {
            return stop("");
        }
        if (stopped()) { // by an answer that does not hold
            return stop(" Resolve the violations, or draw a marked draft with --draft.");
        }
        there_ = find_issued(pdf());
        if (const auto why = why_kept()) {
            err_ << *why
                 << ".\nNothing was drawn. Add a [[revision]] and name the earlier set with "
                    "--since, or write elsewhere with --out. A set that never left the "
                    "office is replaced with --replace.\n";
            tally_.kept = true;
            return exit_usage;
        }
        write();
        tell();
        return exit_code(job_.findings);
    }

    DrawTally tally() const {
        DrawTally tally = tally_;
        const auto count = [this](Severity severity) {
            return static_cast<std::size_t>(
                std::ranges::count(job_.findings, severity, &Finding::severity));
        };
        tally.violations = count(Severity::violation);
        tally.warnings = count(Severity::warning);
        return tally;
    }

  private:
    std::filesystem::path pdf() const { return options_.out / (stem_ + ".pdf"); }
    const System& system() const { return job_.studied->system; }
    bool stopped() const {
        return has(job_.findings, Severity::error) ||
               (has(job_.findings, Severity::violation) && !options_.draft);
    }
    bool is_draft() const { return exit_code(job_.findings) == exit_violations; }
    bool is_issue() const { return !is_draft() && !system().revisions.empty(); }

    int stop(const std::string& advice) {
        print_findings(job_.findings, job_.sources, where_.colour, err_);
        err_ << "Nothing was drawn." << advice << '\n';
        return exit_code(job_.findings);
    }

    /// False when it could not be drawn.
    bool draw_set() {
        SetOptions set;
        set.style = options_.style;
        set.draft = is_draft();
        if (options_.since.empty()) {
            draw_job(job_, set, where_, lettering_);
            remark_on_revision();
        } else if (!draw_since(set)) {
            return false;
        }
        if (has(job_.findings, Severity::error)) {
            return false;
        }
        const Findings drawn = drawing_findings(job_.packet, system(), lettering_.measure());
        job_.findings.insert(job_.findings.end(), drawn.begin(), drawn.end());
        return !has(job_.findings, Severity::error);
    }

    bool draw_since(SetOptions set) {
        std::unique_ptr<EarlierIssue> earlier;
        try {
            earlier = draw_earlier(options_.since, where_, lettering_);
        } catch (const std::runtime_error& fault) {
            Finding finding;
            finding.rule = "revision.since";
            finding.message =
                fmt::format("{} is no earlier set: {}", options_.since.string(), fault.what());
            finding.expected = "the PDF of the set that was commented on";
            job_.findings.push_back(std::move(finding));
            return false;
        }
        resubmittal_ = draw_resubmittal(job_, *earlier, set, where_, lettering_);
        if (options_.draft && is_draft() && !set.draft) {
            // An answer does not hold: every sheet is marked. What is to be told is known.
            const Findings found = job_.findings;
            set.draft = true;
            resubmittal_ = draw_resubmittal(job_, *earlier, set, where_, lettering_);
            job_.findings = found;
        }
        return true;
    }

    /// A later revision without its clouds may be meant, or forgotten.
    void remark_on_revision() {
        if (system().revisions.size() < 2) {
            return;
        }
        Finding finding;
        finding.rule = "revision.without_clouds";
        finding.severity = Severity::advice;
        finding.span = system().revisions.back().span;
        finding.message = fmt::format("revision {} is drawn without clouds and without a letter",
                                      system().revisions.back().number);
        finding.hint = "name the earlier set with --since";
        job_.findings.push_back(std::move(finding));
    }

    std::optional<std::string> why_kept() {
        if (options_.replace) {
            return std::nullopt;
        }
        if (auto why = keeps_issue(pdf(), there_, job_)) {
            return why;
        }
        if (options_.record.empty() || !is_issue()) {
            return std::nullopt;
        }
        if (!read_record()) {
            return options_.record.string() + " is not understood as a record of issues";
        }
        const RecordedIssue* issue = record_->find(stem_, system().revisions.back().number);
        if (issue != nullptr && issue->content != content_digest(job_.packet)) {
            return fmt::format("{} has revision {} of {} with other content",
                               options_.record.string(), issue->revision, stem_);
        }
        return std::nullopt;
    }

    /// It is no source of the set, and does not travel with it.
    bool read_record() {
        SourceFiles sources;
        Findings findings;
        record_ = IssueRecord::read(options_.record, sources, findings);
        if (!record_) {
            print_findings(findings, sources, where_.colour, err_);
        }
        return record_.has_value();
    }

    /// The sheets that are handed in: all, or those that are not as they were.
    Packet issued_packet() const {
        if (!options_.only_changed || !resubmittal_) {
            return job_.packet;
        }
        Packet part = job_.packet;
        part.sheets.clear();
        for (const Sheet& sheet : job_.packet.sheets) {
            if (sheet.revision == system().revisions.back().number) {
                part.sheets.push_back(sheet);
            }
        }
        remove_dangling_links(part);
        return part;
    }

    void write() {
        const Packet issued = issued_packet();
        tally_.sheets = issued.sheets.size();
        tally_.draft = is_draft();
        std::vector<OutputFile> files = rendered(issued, lettering_, stem_);
        const ReportedIssue issue{job_.packet, options_.style.sheet, is_draft()};
        const std::string told =
            report(system(), job_.studied->study, issue, job_.findings, job_.sources);
        files.push_back({std::string(report_name), told});
        PdfBinding binding{issued.info.date, appended_pages(issued, system(), job_.sources), {}};
        binding.attachments =
            attachments(job_.sources,
                        {options_.system, job_.files_of_job, where_.data, system().appendix}, told);
        files.front().bytes = binder().bind(files.front().bytes, binding);
        const std::string digest = binder().digest(files.front().bytes);
        add_letter(files);
        if (auto earlier = superseded(stem_, there_, job_)) {
            files.push_back(std::move(*earlier));
        }
        write_all(options_.out, files);
        remove_stale(files);
        record_issue(issued, digest);
    }

    void add_letter(std::vector<OutputFile>& files) {
        if (!resubmittal_ || system().comments.empty()) {
            return;
        }
        const auto texts =
            revision::read_letter_texts(where_.data / "texts", job_.sources, job_.findings);
        if (!texts) {
            return;
        }
        const revision::Statements none;
        const revision::Issue issue{none, system(), job_.studied->study, job_.packet};
        const Packet letter = revision::response_letter(
            {issue, resubmittal_->answers, resubmittal_->comparison, resubmittal_->sheets}, *texts,
            lettering_.measure());
        files.push_back({stem_ + "-response.pdf", to_pdf(letter, lettering_)});
    }

    /// Sheets that are as they were stand there from before, whether they are handed in or not.
    void remove_stale(std::vector<OutputFile> files) {
        for (const Sheet& sheet : job_.packet.sheets) {
            files.push_back({stem_ + "-" + sheet.number + ".svg", {}});
        }
        remove_stale_sheets(options_.out, stem_, files);
    }

    void record_issue(const Packet& issued, const std::string& digest) {
        if (options_.record.empty() || !is_issue()) {
            return;
        }
        if (!record_ && !read_record()) { // --replace has not looked at it
            return;
        }
        const Revision& row = system().revisions.back();
        RecordedIssue issue{
            stem_,          row.number, row.date, row.description, content_digest(job_.packet),
            stem_ + ".pdf", digest,     {}};
        for (const Sheet& sheet : issued.sheets) {
            issue.sheets.push_back(sheet.number);
        }
        record_->set(std::move(issue));
        const std::filesystem::path folder = options_.record.parent_path();
        write_all(folder.empty() ? "." : folder,
                  {{options_.record.filename().string(), record_->text()}});
    }

    void tell() {
        if (!job_.findings.empty()) {
            print_findings(job_.findings, job_.sources, where_.colour, err_);
        }
        out_ << tally_.sheets << " sheets: " << pdf().string() << '\n';
        if (resubmittal_) {
            out_ << resubmittal_->clouds.size() << " clouds of revision "
                 << system().revisions.back().number << '\n';
        }
        if (resubmittal_ && !system().comments.empty()) {
            out_ << resubmittal_->answers.size()
                 << " comments answered: " << (options_.out / (stem_ + "-response.pdf")).string()
                 << '\n';
        }
    }

    const DrawOptions& options_;
    const Surroundings& where_;
    std::ostream& out_;
    std::ostream& err_;
    Lettering lettering_;
    std::string stem_;
    DrawnJob job_;
    std::optional<Resubmittal> resubmittal_;
    std::optional<IssuedPdf> there_; ///< what stands where the set goes
    std::optional<IssueRecord> record_;
    DrawTally tally_;
};

} // namespace

int draw(const DrawOptions& options, const Surroundings& where, std::ostream& out,
         std::ostream& err, DrawTally* tally) {
    Drawing drawing(options, where, out, err);
    const int code = drawing.run();
    if (tally != nullptr) {
        *tally = drawing.tally();
    }
    return code;
}

} // namespace ohmfolio
