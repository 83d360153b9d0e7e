/// Where the set answers each comment of the plan check.
#pragma once

#include <string>
#include <vector>

#include "base/finding.h"
#include "revision/clouds.h"
#include "revision/comparison.h"

namespace ohmfolio::revision {

/// Places on one sheet: "E-601 B4, C2".
struct PlaceOnSheet {
    std::string sheet;
    std::vector<std::string> zones; ///< each once, in the order of the sheet; none: the whole sheet
};

struct Answer {
    const Comment* comment = nullptr;  ///< of the newer system, which has to outlive it
    std::vector<PlaceOnSheet> changed; ///< clouds around what it concerns
    std::vector<PlaceOnSheet> used;    ///< where else the changed facts moved a result or a check
    std::vector<PlaceOnSheet> shown;   ///< where what it refers to stands unchanged
    std::vector<std::string> left_out; ///< ids that the set no longer has
};

/// One for each comment that the latest revision answers. An id of `concerns` without a change is a
/// violation ("comment.unchanged"), one that neither issue knows too ("comment.unknown"). The
/// sheets that a comment is about come first.
std::vector<Answer> answers(const Issue& newer, const Issue& older, const ChangedMarks& changed,
                            const Comparison& comparison, const std::vector<Cloud>& clouds,
                            const std::vector<SheetChange>& sheets, Findings& findings);

/// "E-601 zone B4; E-602 zones A1, C3"
std::string text(const std::vector<PlaceOnSheet>& places);

} // namespace ohmfolio::revision
