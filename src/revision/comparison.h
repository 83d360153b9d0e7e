/// Two issues of a packet side by side: what the drafter changed, and what followed from it.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "base/finding.h"
#include "drawing/measure.h"
#include "drawing/sheet.h"
#include "model/system.h"
#include "revision/changed_marks.h"
#include "revision/stated_changes.h"
#include "revision/table_changes.h"
#include "study/study.h"

namespace ohmfolio::revision {

/// One issue as far as it is compared. What it refers to has to outlive it.
struct Issue {
    const Statements& statements;
    const System& system;
    const Study& study;
    const Packet& packet;
};

/// How many sheets a kind of change has touched, by their numbers.
struct SheetList {
    std::vector<std::string> changed, arranged, added;
    std::vector<std::string> renumbered;     ///< and otherwise as they were
    std::map<std::string, std::string> were; ///< earlier numbers, of those that have another now
    std::vector<GoneSheet> gone;             ///< those left out
};

struct Comparison {
    std::vector<StatedChange> stated;
    std::vector<std::pair<std::string, std::string>> renamed; ///< tags: "C5" is now "C6"
    std::vector<RowChange> followed;
    std::vector<std::string> rules; ///< "MSP: connected by 705.12(B)(2) instead of ..."
    std::vector<std::string> new_faults, mended; ///< findings, in a line each
    SheetList sheets;

    bool nothing_changed() const;
};

Comparison compare(const Issue& older, const Issue& newer, const ChangedMarks& marks,
                   const KeyWords& words);

} // namespace ohmfolio::revision
