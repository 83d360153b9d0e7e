#include <algorithm>
#include <map>
#include <memory>
#include <ostream>
#include <stdexcept>

#include <fmt/format.h>

#include "app/commands.h"
#include "app/comparison_words.h"
#include "app/drawn_job.h"
#include "app/output.h"
#include "app/resubmittal.h"
#include "toml/toml.h"

namespace ohmfolio {

namespace {

namespace fs = std::filesystem;

/// One side of a comparison, drawn.
struct Side {
    DrawnJob own; ///< of a description
    std::unique_ptr<EarlierIssue> issued;
    const DrawnJob& job() const { return issued ? issued->job : own; }
};

bool is_pdf(const fs::path& path) {
    const std::string extension = path.extension().string();
    return extension == ".pdf" || extension == ".PDF";
}

class Comparing {
  public:
    Comparing(const Surroundings& where, std::ostream& err)
        : where_(where), err_(err), lettering_(load_lettering(where)) {}

    /// Nothing when one of both cannot be read, which has been told then.
    std::optional<revision::Comparison> compare(const fs::path& older, const fs::path& newer) {
        Side before, after;
        if (!open(older, nullptr, before) || !open(newer, &before, after)) {
            return std::nullopt;
        }
        const auto marks =
            revision::changed_marks(before.job().packet, after.job().packet, lettering_->measure(),
                                    {before.job().studied->study, after.job().studied->study});
        SourceFiles sources;
        Findings findings;
        const auto words = revision::read_key_words(where_.data / "texts", sources, findings);
        const auto old_words = statements_of(before.job()), new_words = statements_of(after.job());
        return revision::compare(issue(before, old_words), issue(after, new_words), marks, words);
    }

  private:
    static revision::Issue issue(const Side& side, const revision::Statements& words) {
        const DrawnJob& job = side.job();
        return {words, job.studied->system, job.studied->study, job.packet};
    }

    bool open(const fs::path& path, const Side* before, Side& side) {
        try {
            if (is_pdf(path)) {
                side.issued = draw_earlier(path, where_, *lettering_);
                return true;
            }
            return draw_description(path, before, side.own);
        } catch (const std::runtime_error& fault) {
            err_ << path.string() << ": " << fault.what() << '\n';
            return false;
        }
    }

    /// Sheets are drawn under the revisions of before, so that those that did not change come out
    /// the same, and in the format of before where an option had named it.
    bool draw_description(const fs::path& path, const Side* before, DrawnJob& job) {
        study_job(job, path, where_);
        if (job.studied) {
            SetOptions options;
            options.draft = has(job.findings, Severity::violation);
            if (before != nullptr) {
                options.issued_under = revisions_of_sheets(before->job().packet);
                options.style.sheet = before->issued ? before->issued->pdf.report.format : "";
            }
            draw_job(job, options, where_, *lettering_);
        }
        if (!job.studied || has(job.findings, Severity::error)) {
            print_findings(job.findings, job.sources, where_.colour, err_);
            return false;
        }
        return true;
    }

    const Surroundings& where_;
    std::ostream& err_;
    std::unique_ptr<Lettering> lettering_;
};

/// As far as can be told without understanding it: a catalogue or a house style has no project.
bool is_description(const fs::path& file) {
    if (file.extension() != ".toml") {
        return false;
    }
    SourceFiles sources;
    Findings findings;
    const int index = sources.add(file.string(), bytes_of(file));
    const auto tree = toml_text::parse(index, sources, findings);
    // A description with a fault of syntax is still one: its faults are told when it is read.
    const auto* table = tree ? tree->as<toml_text::Table>() : nullptr;
    return table != nullptr ? table->find("project") != nullptr : findings.size() > 0;
}

/// Issued sets and descriptions by their stems; further down too, since each set may have a folder
/// of its own. What was superseded is no current issue.
std::map<std::string, fs::path> jobs_in(const fs::path& folder) {
    std::map<std::string, fs::path> jobs;
    std::vector<fs::path> files;
    for (const auto& entry : fs::recursive_directory_iterator(folder)) {
        if (entry.is_regular_file()) {
            files.push_back(entry.path());
        }
    }
    std::ranges::sort(files);
    for (const fs::path& file : files) {
        const bool superseded = file.parent_path().filename() == "issued";
        const bool job =
            is_pdf(file) ? !superseded && find_issued(file).has_value() : is_description(file);
        if (job) {
            jobs.try_emplace(file.stem().string(), file);
        }
    }
    return jobs;
}

/// Which of all packets would change, in a line each, and how in those that follow it.
int compare_folders(const CompareOptions& options, const Surroundings& where, std::ostream& out,
                    std::ostream& err) {
    const auto older = jobs_in(options.older), newer = jobs_in(options.newer);
    Comparing comparing(where, err);
    FolderComparison all;
    for (const auto& [stem, path] : newer) {
        const auto before = older.find(stem);
        if (before == older.end()) {
            all.only_newer.push_back(stem);
            continue;
        }
        auto comparison = comparing.compare(before->second, path);
        if (comparison) {
            all.jobs.emplace_back(stem, std::move(*comparison));
        } else {
            all.unreadable.push_back(stem);
        }
    }
    for (const auto& [stem, path] : older) {
        if (!newer.contains(stem)) {
            all.only_older.push_back(stem);
        }
    }
    out << (options.json ? as_json(all) : as_text(all));
    return all.unreadable.empty() ? exit_clean : exit_usage;
}

} // namespace

int compare(const CompareOptions& options, const Surroundings& where, std::ostream& out,
            std::ostream& err) {
    if (fs::is_directory(options.older) && fs::is_directory(options.newer)) {
        return compare_folders(options, where, out, err);
    }
    const auto comparison = Comparing(where, err).compare(options.older, options.newer);
    if (!comparison) {
        err << "Nothing was compared.\n";
        return exit_usage;
    }
    out << (options.json ? as_json(*comparison) : as_text(*comparison));
    return exit_clean;
}

} // namespace ohmfolio
