/// What to tell when a view or its lettering finds no room on the sheet.
#pragma once

#include <string>
#include <utility>

#include "sheet/pages.h"

namespace ohmfolio::sheets {

inline void tell_no_room(const Job& job, Severity severity, Span span, std::string message,
                         std::string expected) {
    Finding finding;
    finding.rule = "sheet.no_room";
    finding.severity = severity;
    finding.span = span;
    finding.message = std::move(message);
    finding.expected = std::move(expected);
    job.findings.push_back(std::move(finding));
}

/// The same job, but what is found goes to `findings`: several scales are tried, and only what the
/// chosen one lacks is told.
inline Job trial_of(const Job& job, Findings& findings) {
    return {job.system, job.study,   job.symbols, job.layout, job.texts,          job.diagram_style,
            job.facts,  job.measure, job.area,    findings,   job.appendix_sheets};
}
inline void tell(const Job& job, const Findings& findings) {
    job.findings.insert(job.findings.end(), findings.begin(), findings.end());
}

} // namespace ohmfolio::sheets
