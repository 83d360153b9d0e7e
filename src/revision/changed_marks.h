/// Which marks of a set say something that the set before it did not say.
#pragma once

#include <string>
#include <vector>

#include "drawing/measure.h"
#include "drawing/sheet.h"
#include "revision/pieces.h"
#include "revision/steps.h"

namespace ohmfolio::revision {

enum class SheetChange {
    none,     ///< drawn as it was issued
    arranged, ///< says the same, in another arrangement
    changed,  ///< something on it is new, or gone
    added     ///< the earlier set had no such sheet
};

struct GoneSheet {
    std::string number, title;
};

struct ChangedMarks {
    std::vector<Piece> added; ///< of the newer set; also what says something else than before
    std::vector<Piece> gone;  ///< of the older set
    /// Of what is gone, that which leaves a place empty in a view of the newer set: as it stood
    /// there.
    std::vector<Piece> removed;
    std::vector<SheetChange> sheets; ///< parallel to those of the newer set
    std::vector<std::string> were;   ///< their numbers in the older set; empty: it had none
    std::vector<GoneSheet> sheets_gone;
};

/// Sheets are the same when they are of the same kind and say the most alike, whatever their
/// numbers are: a set that grows counts on. What moved from a sheet to the next one of
/// its kind, or to another place on its sheet, has not changed; nor has a value whose step is among
/// `steps` as one that stayed.
ChangedMarks changed_marks(const Packet& older, const Packet& newer, const TextMeasure& measure,
                           const Steps& steps = {});

/// All of a sheet but what tells of the issue itself, as one text: sheets that have the same are
/// drawn the same.
std::string drawn(const Sheet& sheet);

} // namespace ohmfolio::revision
