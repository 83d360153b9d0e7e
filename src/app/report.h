/// report.json: everything a program may want to know of a run; machine independent.
#pragma once

#include <string>

#include "app/issue_guard.h"
#include "base/finding.h"
#include "drawing/sheet.h"
#include "model/system.h"
#include "study/study.h"

namespace ohmfolio {

/// What was drawn, and how.
struct ReportedIssue {
    const Packet& packet;
    const PacketDigests& digests;
    std::string format; ///< of the sheets, where an option named one
    bool draft = false;
};

std::string report(const System& system, const Study& study, const ReportedIssue& issue,
                   const Findings& findings, const SourceFiles& sources);

} // namespace ohmfolio
