/// Packs pieces of differing size onto pages in rows, tall ones first, with even gaps.
#pragma once

#include <vector>

#include "drawing/geometry.h"

namespace ohmfolio::sheets {

struct Shelved {
    std::size_t piece = 0; ///< index of the piece given
    int page = 0;
    Point at;
};

struct ShelfRoom {
    Size page;
    Length gap;        ///< least room between pieces
    Length widest_gap; ///< room that is left widens the gaps up to this
};

/// In reading order: by page, then row by row from the left. A piece larger than a page gets a page
/// to itself.
std::vector<Shelved> shelved(const std::vector<Size>& pieces, const ShelfRoom& room);

} // namespace ohmfolio::sheets
