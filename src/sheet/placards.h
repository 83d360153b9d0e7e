/// The placards a job needs: which, how many, where, and with what wording.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sheet/pages.h"

namespace ohmfolio::sheets {

struct NeededPlacard {
    const Placard* placard = nullptr;
    std::vector<int> at;      ///< equipment it is fixed to
    std::optional<int> count; ///< how many are made; nothing where the site tells ("as spaced")
    std::string where;        ///< "ON SW-1, WEST WALL, AT METER"
    std::string section;      ///< "NEC 2023 690.13(B)"
    bool unverified = false;  ///< paragraph or wording rests on one source or on memory
    Facts facts;              ///< of the job and of the place, in drafting case
};

/// In the order of texts/placards.toml. Where places differ in what a placard says there, it stands
/// once for each wording.
std::vector<NeededPlacard> needed_placards(const Job& job);

/// The placard at true size with its cut line; the frame is as large as the cut line.
Frame draw_placard(const NeededPlacard& needed, const Job& job);
/// The same, set wider than it states where a sheet is too low for it.
Frame draw_placard(const NeededPlacard& needed, Length width, const Job& job);

} // namespace ohmfolio::sheets
