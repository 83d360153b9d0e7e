#include "study/waivers.h"

#include <fmt/format.h>

namespace ohmfolio::workings {

namespace {

/// A subject may be written in full, "circuit:C3", or as the drafter sees it, "C3".
bool names(const Waiver& waiver, const Finding& finding) {
    const auto colon = finding.subject.find(':');
    return waiver.rule == finding.rule &&
           (waiver.subject == finding.subject ||
            (colon != std::string::npos && waiver.subject == finding.subject.substr(colon + 1)));
}

WaivedFinding waive(Finding& finding, const Waiver& waiver) {
    WaivedFinding accepted{finding, waiver.reason, waiver.by};
    finding.severity = Severity::advice;
    finding.message += fmt::format(" (accepted by {}: {})", waiver.by, waiver.reason);
    finding.hint.clear();
    return accepted;
}

} // namespace

void apply_waivers(const System& system, Study& study) {
    for (const Waiver& waiver : system.waivers) {
        bool used = false;
        for (Finding& finding : study.findings) {
            if (!names(waiver, finding))
                continue;
            study.waived.push_back(waive(finding, waiver));
            used = true;
        }
        if (!used) {
            study.findings.push_back(
                {.rule = "waiver.unused",
                 .severity = Severity::warning,
                 .span = waiver.span,
                 .subject = waiver.subject,
                 .section = {},
                 .message = fmt::format("nothing to waive: no finding \"{}\" about {}", waiver.rule,
                                        waiver.subject),
                 .expected = "the rule and subject of a finding that the check prints",
                 .hint = "remove the waiver",
                 .remedies = {},
                 .derivation = {}});
        }
    }
}

} // namespace ohmfolio::workings
