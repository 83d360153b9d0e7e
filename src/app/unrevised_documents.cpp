#include "app/unrevised_documents.h"

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "base/text.h"

namespace ohmfolio {

namespace {

bool was_issued(const AppendedDocument& document, const DrawnJob& older, const DrawnJob& newer) {
    const auto& issued = older.studied->system.appendix;
    return document.source >= 0 && std::ranges::any_of(issued, [&](const AppendedDocument& each) {
               return each.source >= 0 && each.kind == document.kind &&
                      older.sources.text(each.source) == newer.sources.text(document.source);
           });
}

/// "modules 28 to 27", as far as it concerns the author of such a document.
std::vector<std::string> changes_for(DocumentKind kind, const Studied& older,
                                     const Studied& newer) {
    std::vector<std::string> changes;
    const auto add = [&](std::string_view what, const std::string& before,
                         const std::string& after) {
        if (before != after) {
            changes.push_back(fmt::format("{} {} to {}", what, before.empty() ? "none" : before,
                                          after.empty() ? "none" : after));
        }
    };
    const bool structural = kind == DocumentKind::structural_letter;
    if (!structural && kind != DocumentKind::utility_approval) {
        return changes;
    }
    add("modules", std::to_string(older.study.totals.modules),
        std::to_string(newer.study.totals.modules));
    if (structural) {
        add("wind", older.system.site.wind, newer.system.site.wind);
        add("snow", older.system.site.snow, newer.system.site.snow);
    }
    return changes;
}

} // namespace

void tell_of_unrevised_documents(const DrawnJob& older, DrawnJob& newer) {
    for (const AppendedDocument& document : newer.studied->system.appendix) {
        const auto changes = changes_for(document.kind, *older.studied, *newer.studied);
        if (changes.empty() || !was_issued(document, older, newer)) {
            continue;
        }
        Finding finding;
        finding.rule = "appendix.unrevised";
        finding.severity = Severity::advice;
        finding.span = document.file.span;
        finding.message = fmt::format("\"{}\" is as it was issued, although this changed: {}",
                                      document.file.value, join(changes, "; "));
        finding.expected = "a document that speaks of the system as it is drawn now";
        finding.hint = "ask its author whether it still holds, or append the new one";
        newer.findings.push_back(std::move(finding));
    }
}

} // namespace ohmfolio
