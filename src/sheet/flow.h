/// Blocks flow down columns and over pages: a heading never stands without what it heads, and a
/// block that goes on in the next column gets its heading again.
#pragma once

#include <vector>

#include "drawing/frame.h"

namespace ohmfolio::sheets {

struct Group {
    Frame heading;   ///< empty size: none
    Frame continued; ///< heading where the group goes on
    std::vector<Frame> entries;
    Length heading_gap; ///< below the heading
    Length entry_gap;   ///< between entries
    bool whole =
        false; ///< goes to the next column rather than being parted, where that can hold it
};

/// Each segment is a group, or the part of one that stands in this column.
struct FlowColumn {
    std::vector<Frame> segments;
    Length height(Length gap) const;
};

struct FlowRoom {
    int columns = 1;
    Length width, gap, height; ///< of a column; between columns
    Length group_gap;
    Length widest_group_gap; ///< room that is left in a column widens the gaps up to this
};

struct Cursor {
    std::size_t group = 0, entry = 0;
    friend constexpr auto operator<=>(const Cursor&, const Cursor&) = default;
};

/// Fills one column from `from` on, which moves to the first entry that did not fit. An entry
/// taller than a column still goes in, alone, so that filling always ends.
FlowColumn fill_column(const std::vector<Group>& groups, Cursor& from, Length height,
                       Length group_gap);
/// The column as one frame, room that is left spread evenly between its segments.
Frame stacked(const FlowColumn& column, Length width, Length height, Length gap, Length widest_gap);
/// All groups over as many pages as they need; the columns of the last page are made about equal,
/// and its frame is only as high as they are.
std::vector<Frame> flow(const std::vector<Group>& groups, const FlowRoom& room);

} // namespace ohmfolio::sheets
