#include "drawn/trial.h"

#include <exception>

#include <fmt/format.h>

#include "code/code_book.h"
#include "diagram/diagram.h"
#include "drawing/lint.h"
#include "drawn/crossings.h"
#include "drawn/drawn_job.h"
#include "drawn/random_job.h"

namespace ohmfolio::drawn {
namespace {

void add_above(Severity least, const Findings& findings, Trial& trial) {
    for (const Finding& finding : findings) {
        if (finding.severity >= least) {
            trial.faults.push_back({finding.rule, said(finding)});
        }
    }
}

void look_over(const DrawnJob& job, Trial& trial) {
    const auto pages = job.diagram_sheets();
    trial.pieces = static_cast<int>(job.system->equipment.size());
    trial.pages = static_cast<int>(pages.size());
    add_above(Severity::warning, job.drawing, trial);
    if (has(job.drawing, Severity::error)) {
        return; // the program draws nothing then
    }
    add_above(Severity::warning, lint(job.packet, house_measure()), trial);
    std::vector<const Frame*> frames;
    for (const Sheet& sheet : job.packet.sheets) {
        frames.push_back(&sheet.frame);
    }
    add_above(Severity::advice,
              compare_netlists(read_netlist(frames), intended_netlist(*job.system)), trial);
    for (const Sheet* page : pages) {
        if (const int crossed = crossings(page->frame).of_power; crossed > 0) {
            trial.faults.push_back({"crossing", fmt::format("{}: {} crossings of power wires",
                                                            page->number, crossed)});
        }
    }
}

} // namespace

Trial try_system(unsigned number) {
    Trial trial;
    try {
        const auto job = draw_job(random_job(number), random_catalogue());
        add_above(Severity::warning, job->input, trial);
        if (job->system) {
            look_over(*job, trial);
        }
    } catch (const std::exception& fault) {
        trial.faults.push_back({"exception", fault.what()});
    }
    return trial;
}

std::string study_fault(unsigned number) {
    SourceFiles sources;
    Findings findings;
    try {
        const auto system =
            read_system_text(random_job(number), random_catalogue(), sources, findings);
        if (!findings.empty()) {
            return said(findings.front());
        }
        make_study(*system, CodeBook(system->edition));
    } catch (const std::exception& fault) {
        return fault.what();
    }
    return {};
}

} // namespace ohmfolio::drawn
