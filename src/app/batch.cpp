#include "app/batch.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>
#include <map>
#include <ostream>
#include <sstream>
#include <string>
#include <system_error>
#include <tuple>

#include <fmt/format.h>
#include <poll.h>
#include <sched.h>
#include <sys/wait.h>
#include <unistd.h>

#include "app/files.h"
#include "app/program_modules.h"

namespace ohmfolio {

namespace {

namespace fs = std::filesystem;

/// What became of one job.
struct Outcome {
    int code = exit_machine_failed;
    int signal = 0; ///< that ended the process; 0: none
    DrawTally tally;
    std::string told; ///< findings; kept only where the job is not clean
};

Outcome machine_failure(const std::string& why) {
    Outcome outcome;
    outcome.told = why + "\n";
    return outcome;
}

std::string with_reason(const std::string& what) {
    return what + ": " + std::generic_category().message(errno);
}

/// In the process of the job: a line of figures, then what it has to say.
void draw_and_report(const DrawOptions& options, const Surroundings& where, int pipe) {
    std::ostringstream out, err;
    DrawTally tally;
    int code = exit_machine_failed;
    try {
        code = draw(options, where, out, err, &tally);
    } catch (const std::exception& fault) {
        err << fault.what() << '\n';
    }
    const bool clean = code == exit_clean && tally.warnings == 0;
    // Where nobody listens any more, nobody is to be told.
    (void)write_fully(pipe,
                      fmt::format("{} {} {} {} {} {}\n{}", code, tally.sheets, tally.violations,
                                  tally.warnings, tally.draft, tally.kept, clean ? "" : err.str()));
}

Outcome outcome_of(const std::string& report, int status) {
    Outcome outcome;
    if (WIFSIGNALED(status)) {
        outcome.signal = WTERMSIG(status);
        outcome.told = fmt::format("the process was stopped by signal {}\n", outcome.signal);
        return outcome;
    }
    std::istringstream figures(report.substr(0, report.find('\n')));
    figures >> std::boolalpha >> outcome.code >> outcome.tally.sheets >> outcome.tally.violations >>
        outcome.tally.warnings >> outcome.tally.draft >> outcome.tally.kept;
    if (!figures) {
        return machine_failure("the process ended without a report");
    }
    outcome.told = report.substr(std::min(report.find('\n') + 1, report.size()));
    return outcome;
}

/// Keeps so many processes at work.
class Workshop {
  public:
    Workshop(const BatchOptions& options, const Surroundings& where)
        : options_(options), where_(where), outcomes_(options.systems.size()) {}

    std::vector<Outcome> draw(std::size_t at_once) {
        std::size_t next = 0;
        while (next < outcomes_.size() || !at_work_.empty()) {
            if (next < outcomes_.size() && at_work_.size() < at_once) {
                start(next++);
            } else {
                listen();
            }
        }
        return std::move(outcomes_);
    }

  private:
    struct Worker {
        pid_t process = 0;
        std::size_t job = 0;
        std::string report;
    };

    DrawOptions options_of(std::size_t job) const {
        DrawOptions options = options_.each;
        options.system = options_.systems[job];
        options.out = options_.each.out / options.system.stem();
        return options;
    }

    /// What the machine refuses fails this job, not the others.
    void start(std::size_t job) {
        std::array<int, 2> ends{};
        if (::pipe(ends.data()) != 0) {
            outcomes_[job] = machine_failure(with_reason("cannot open a pipe"));
            return;
        }
        const pid_t process = ::fork();
        if (process < 0) {
            outcomes_[job] = machine_failure(with_reason("cannot start a process"));
            ::close(ends[0]);
            ::close(ends[1]);
            return;
        }
        if (process == 0) {
            ::close(ends[0]);
            draw_and_report(options_of(job), where_, ends[1]);
            ::_exit(0);
        }
        ::close(ends[1]);
        at_work_[ends[0]] = {process, job, {}};
    }

    /// Waits until a worker says something or is done.
    void listen() {
        std::vector<pollfd> ends;
        for (const auto& [end, worker] : at_work_) {
            ends.push_back({end, POLLIN, 0});
        }
        if (::poll(ends.data(), ends.size(), -1) < 0) {
            return; // interrupted, or short of memory for a moment: once more
        }
        for (const pollfd& end : ends) {
            if (end.revents != 0) {
                hear(end.fd);
            }
        }
    }

    void hear(int end) {
        std::array<char, 65536> block{};
        const ssize_t count = ::read(end, block.data(), block.size());
        if (count > 0) {
            at_work_[end].report.append(block.data(), static_cast<std::size_t>(count));
        } else if (count == 0 || errno != EINTR) {
            finish(end);
        }
    }

    void finish(int end) {
        const Worker& worker = at_work_[end];
        int status = 0;
        while (::waitpid(worker.process, &status, 0) < 0 && errno == EINTR) {}
        outcomes_[worker.job] = outcome_of(worker.report, status);
        ::close(end);
        at_work_.erase(end);
    }

    const BatchOptions& options_;
    const Surroundings& where_;
    std::vector<Outcome> outcomes_;
    std::map<int, Worker> at_work_; ///< by the end of the pipe that we read
};

std::size_t processors() {
    cpu_set_t set;
    if (::sched_getaffinity(0, sizeof set, &set) != 0) {
        return 1;
    }
    return static_cast<std::size_t>(std::max(1, CPU_COUNT(&set)));
}

std::string words_of(const Outcome& outcome) {
    if (outcome.signal != 0) {
        return fmt::format("stopped by signal {}", outcome.signal);
    }
    switch (outcome.code) {
    case exit_clean:
        return "drawn";
    case exit_violations:
        return outcome.tally.draft ? "draft" : "violations";
    case exit_usage:
        return outcome.tally.kept ? "kept as issued" : "not drawn, errors";
    default:
        return "failed";
    }
}

using Line = std::array<std::string, 6>;

/// Columns as wide as their words; figures stand at the right.
std::string table_of(const std::vector<Line>& rows) {
    std::array<std::size_t, std::tuple_size_v<Line>> widths{};
    for (const auto& row : rows) {
        for (std::size_t i = 0; i < row.size(); ++i) {
            widths[i] = std::max(widths[i], row[i].size());
        }
    }
    std::string text;
    for (const auto& row : rows) {
        text +=
            fmt::format("{:<{}}  {:<{}}  {:>{}}  {:>{}}  {:>{}}  {}\n", row[0], widths[0], row[1],
                        widths[1], row[2], widths[2], row[3], widths[3], row[4], widths[4], row[5]);
    }
    return text;
}

std::string summary(const BatchOptions& options, const std::vector<Outcome>& outcomes) {
    std::vector<Line> rows = {{"job", "result", "sheets", "violations", "warnings", "set"}};
    std::size_t drawn = 0;
    for (std::size_t i = 0; i < outcomes.size(); ++i) {
        const Outcome& outcome = outcomes[i];
        drawn += outcome.tally.sheets > 0 ? 1 : 0;
        const std::string stem = options.systems[i].stem().string();
        const fs::path pdf = options.each.out / stem / (stem + ".pdf");
        rows.push_back({stem, words_of(outcome), std::to_string(outcome.tally.sheets),
                        std::to_string(outcome.tally.violations),
                        std::to_string(outcome.tally.warnings),
                        outcome.tally.sheets > 0 ? pdf.string() : "-"});
    }
    return table_of(rows) + fmt::format("{} of {} sets drawn into {}\n", drawn, outcomes.size(),
                                        options.each.out.string());
}

/// What makes the jobs impossible to draw side by side; empty: nothing.
std::string obstacle(const BatchOptions& options) {
    std::map<std::string, fs::path> stems;
    for (const fs::path& system : options.systems) {
        const auto [found, is_new] = stems.emplace(system.stem().string(), system);
        if (!is_new) {
            return fmt::format("{} and {} would be drawn into one folder", found->second.string(),
                               system.string());
        }
    }
    if (!options.each.since.empty()) {
        return "--since goes with one job";
    }
    return options.each.record.empty() ? "" : "--record goes with one job";
}

} // namespace

int draw_all(const BatchOptions& options, const Surroundings& where, std::ostream& out,
             std::ostream& err) {
    if (const std::string why = obstacle(options); !why.empty()) {
        err << why << ".\nNothing was drawn.\n";
        return exit_usage;
    }
    // Loaded once, for all processes.
    renderer();
    binder();
    const std::size_t at_once =
        options.at_once > 0 ? static_cast<std::size_t>(options.at_once) : processors();
    const std::vector<Outcome> outcomes = Workshop(options, where).draw(at_once);
    int worst = exit_clean;
    for (std::size_t i = 0; i < outcomes.size(); ++i) {
        worst = std::max(worst, outcomes[i].code);
        if (!outcomes[i].told.empty()) {
            err << "== " << options.systems[i].string() << '\n' << outcomes[i].told << '\n';
        }
    }
    out << summary(options, outcomes);
    return worst;
}

} // namespace ohmfolio
