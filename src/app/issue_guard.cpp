#include "app/issue_guard.h"

#include <algorithm>

#include <fmt/format.h>

#include "app/binder_module.h"
#include "revision/changed_marks.h"

namespace ohmfolio {

namespace {

bool was_issued(const std::optional<IssuedPdf>& there) {
    return there && !there->report.draft && !there->report.revisions.empty();
}

bool holds_the_same(const IssuedPdf& there, const DrawnJob& job) {
    return there.report.content == content_digest(job.packet);
}

/// All rows of the issued set and one more.
bool revised_since(const IssuedPdf& there, const System& system) {
    const std::vector<std::string>& before = there.report.revisions;
    return system.revisions.size() > before.size() &&
           std::ranges::equal(before.begin(), before.end(), system.revisions.begin(),
                              system.revisions.begin() + static_cast<std::ptrdiff_t>(before.size()),
                              {}, {}, &Revision::number);
}

} // namespace

std::string content_digest(const Packet& packet) {
    std::string all;
    for (const Sheet& sheet : packet.sheets) {
        all += sheet.number + " " + sheet.title + "\n" + revision::drawn(sheet);
    }
    return binder().digest(all);
}

std::optional<std::string> keeps_issue(const std::filesystem::path& pdf,
                                       const std::optional<IssuedPdf>& there, const DrawnJob& job) {
    if (!was_issued(there) || holds_the_same(*there, job) ||
        revised_since(*there, job.studied->system)) {
        return std::nullopt;
    }
    return fmt::format("{} was issued as revision {}, and this set differs from it", pdf.string(),
                       there->report.revisions.back());
}

std::optional<OutputFile> superseded(const std::string& stem, const std::optional<IssuedPdf>& there,
                                     const DrawnJob& job) {
    if (!was_issued(there) || holds_the_same(*there, job) ||
        !revised_since(*there, job.studied->system)) {
        return std::nullopt;
    }
    return OutputFile{fmt::format("issued/{}-{}.pdf", stem, there->report.revisions.back()),
                      there->bytes};
}

} // namespace ohmfolio
