#include <algorithm>
#include <memory>
#include <ostream>
#include <stdexcept>

#include <fmt/format.h>

#include "app/commands.h"
#include "app/handing_in.h"
#include "app/output.h"
#include "app/resubmittal.h"
#include "revision/letter.h"

namespace ohmfolio {

namespace {

void append(Findings& findings, const Findings& more) {
    findings.insert(findings.end(), more.begin(), more.end());
}

/// One run of the command.
class Drawing {
  public:
    Drawing(const DrawOptions& options, const Surroundings& where, std::ostream& out,
            std::ostream& err)
        : options_(options), where_(where), out_(out), err_(err),
          lettering_(load_lettering(where)) {}

    int run() {
        study_job(job_, options_.system, where_);
        // The second time by an answer that does not hold.
        const bool drawn = job_.studied && !stopped() && draw_set() && !stopped();
        if (!drawn) {
            return stop();
        }
        const DrawnSet set{job_, std::move(letter_), resubmittal_.has_value(), is_draft()};
        HandingIn handing_in(options_, where_, set);
        if (overwrites(handing_in) || kept(handing_in)) {
            return exit_usage;
        }
        tally_.draft = set.draft;
        tally_.sheets = handing_in.write(*lettering_);
        tell(handing_in, set);
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
    const System& system() const { return job_.studied->system; }
    bool stopped() const {
        return has(job_.findings, Severity::error) ||
               (has(job_.findings, Severity::violation) && !options_.draft);
    }
    bool is_draft() const { return exit_code(job_.findings) == exit_violations; }

    int stop() {
        print_findings(job_.findings, job_.sources, where_.colour, err_);
        const bool by_violation = job_.studied && !has(job_.findings, Severity::error);
        err_ << "Nothing was drawn."
             << (by_violation ? " Resolve the violations, or draw a marked draft with --draft.\n"
                              : "\n");
        return exit_code(job_.findings);
    }

    /// False when it could not be drawn.
    bool draw_set() {
        SetOptions set;
        set.style = options_.style;
        set.draft = is_draft();
        if (options_.since.empty()) {
            draw_job(job_, set, where_, *lettering_);
            remark_on_revision();
        } else if (!draw_since(set)) {
            return false;
        }
        if (has(job_.findings, Severity::error)) {
            return false;
        }
        append(job_.findings, drawing_findings(job_, lettering_->measure()));
        return !has(job_.findings, Severity::error);
    }

    bool draw_since(SetOptions set) {
        std::unique_ptr<EarlierIssue> earlier;
        try {
            earlier = draw_earlier(options_.since, where_, *lettering_);
        } catch (const std::runtime_error& fault) {
            Finding finding;
            finding.rule = "revision.since";
            finding.message =
                fmt::format("{} is no earlier set: {}", options_.since.string(), fault.what());
            finding.expected = "the PDF of the set that was commented on";
            job_.findings.push_back(std::move(finding));
            return false;
        }
        resubmittal_ = draw_resubmittal(job_, *earlier, set, where_, *lettering_);
        if (options_.draft && is_draft() && !set.draft) {
            // An answer does not hold: every sheet is marked. What is to be told is known.
            const Findings found = job_.findings;
            set.draft = true;
            resubmittal_ = draw_resubmittal(job_, *earlier, set, where_, *lettering_);
            job_.findings = found;
        }
        if (!has(job_.findings, Severity::error) && !system().comments.empty()) {
            draw_letter();
        }
        return true;
    }

    void draw_letter() {
        const auto texts =
            revision::read_letter_texts(where_.data / "texts", job_.sources, job_.findings);
        if (!texts) {
            return;
        }
        letter_ = revision::response_letter({system(), job_.studied->study, job_.packet,
                                             resubmittal_->answers, resubmittal_->comparison,
                                             resubmittal_->sheets},
                                            *texts, lettering_->measure(), job_.findings);
        append(job_.findings, drafting_faults(*letter_, lettering_->measure()));
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

    bool overwrites(const HandingIn& handing_in) {
        const auto file = handing_in.overwritten();
        if (file) {
            err_ << "ohmfolio: the set would be written over " << file->string()
                 << ", which is read for it.\nNothing was drawn. Write elsewhere with --out.\n";
        }
        return file.has_value();
    }

    /// Whether something that was issued stands in the way, which is told then.
    bool kept(HandingIn& handing_in) {
        SourceFiles sources; // the record is no source of the set, and does not travel with it
        Findings findings;
        const auto why = handing_in.obstacle(sources, findings);
        if (!why) {
            return false;
        }
        if (!findings.empty()) {
            print_findings(findings, sources, where_.colour, err_);
        }
        err_
            << *why
            << ".\nNothing was drawn. Add a [[revision]] and name the earlier set with --since, or "
               "write elsewhere with --out. A set that never left the office is replaced with "
               "--replace.\n";
        tally_.kept = true;
        return true;
    }

    void tell(const HandingIn& handing_in, const DrawnSet& set) {
        if (!job_.findings.empty()) {
            print_findings(job_.findings, job_.sources, where_.colour, err_);
        }
        out_ << tally_.sheets << " sheets: " << handing_in.pdf().string() << '\n';
        if (resubmittal_) {
            out_ << resubmittal_->clouds.size() << " clouds of revision "
                 << system().revisions.back().number << '\n';
        }
        if (set.letter) {
            const std::size_t answers = resubmittal_->answers.size();
            out_ << answers << (answers == 1 ? " comment" : " comments")
                 << " answered: " << handing_in.letter().string() << '\n';
        }
    }

    const DrawOptions& options_;
    const Surroundings& where_;
    std::ostream& out_;
    std::ostream& err_;
    std::unique_ptr<Lettering> lettering_;
    DrawnJob job_;
    std::optional<Resubmittal> resubmittal_;
    std::optional<Packet> letter_;
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
