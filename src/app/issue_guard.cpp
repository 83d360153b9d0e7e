#include "app/issue_guard.h"

#include <algorithm>

#include "app/program_modules.h"
#include "revision/changed_marks.h"

namespace ohmfolio {

namespace {

/// All rows of the issued set and one more.
bool revised_since(const IssueReport& issued, const System& system) {
    const std::vector<std::string>& before = issued.revisions;
    return system.revisions.size() > before.size() &&
           std::ranges::equal(before.begin(), before.end(), system.revisions.begin(),
                              system.revisions.begin() + static_cast<std::ptrdiff_t>(before.size()),
                              {}, {}, &Revision::number);
}

} // namespace

PacketDigests digests_of(const Packet& packet) {
    PacketDigests digests;
    std::string all;
    for (const Sheet& sheet : packet.sheets) {
        const std::string drawn = revision::drawn(sheet);
        digests.sheets.push_back(binder().digest(drawn));
        all += sheet.number + " " + sheet.title + "\n" + drawn;
    }
    digests.content = binder().digest(all);
    return digests;
}

Standing standing(const std::optional<IssuedPdf>& there, const std::string& content,
                  const System& system) {
    if (!there || there->report.draft || there->report.revisions.empty()) {
        return Standing::nothing_issued;
    }
    if (there->report.content == content) {
        return Standing::the_same;
    }
    return revised_since(there->report, system) ? Standing::earlier_issue
                                                : Standing::another_content;
}

} // namespace ohmfolio
