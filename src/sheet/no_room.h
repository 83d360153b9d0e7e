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

} // namespace ohmfolio::sheets
