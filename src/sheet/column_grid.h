/// Packs pieces of differing size onto pages in columns of one width: left edges stand on a fixed
/// grid, gaps are even.
#pragma once

#include <vector>

#include "drawing/geometry.h"

namespace ohmfolio::sheets {

struct GridPlace {
    std::size_t piece = 0; ///< index of the piece given
    int page = 0;
    Point at;
};

struct GridRoom {
    Size page;
    int columns = 1;
    Length gap; ///< between columns and between pieces

    Length column_width() const { return (page.width - gap * (columns - 1)) / columns; }
    /// How many columns a piece of this width needs.
    int span(Length width) const;
};

/// In reading order: by page, then down each column from the left. A piece larger than a page gets
/// a page to itself.
std::vector<GridPlace> on_grid(const std::vector<Size>& pieces, const GridRoom& room);

} // namespace ohmfolio::sheets
