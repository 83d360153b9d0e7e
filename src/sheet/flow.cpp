#include "sheet/flow.h"

#include <algorithm>

namespace ohmfolio::sheets {

namespace {

void append(Frame& segment, const Frame& part, Length gap) {
    const Length top = segment.size.height + gap;
    segment.add(part, {{}, top});
    segment.size = {std::max(segment.size.width, part.size.width), top + part.size.height};
}

/// As much of one group as fits into `room`: an empty frame when not even one entry does.
Frame take(const Group& group, std::size_t& entry, Length room, bool must) {
    Frame segment;
    const Frame& heading = entry == 0 ? group.heading : group.continued;
    const bool headed = heading.size.height > Length{};
    if (headed)
        append(segment, heading, {});
    const std::size_t first = entry;
    while (entry < group.entries.size()) {
        const Frame& next = group.entries[entry];
        const Length gap = entry > first ? group.entry_gap : headed ? group.heading_gap : Length{};
        const bool fits = segment.size.height + gap + next.size.height <= room;
        if (!fits && !(must && entry == first))
            break;
        append(segment, next, gap);
        ++entry;
    }
    const bool stands_alone = group.entries.empty() && segment.size.height <= room;
    if (group.whole && !must && entry < group.entries.size()) {
        entry = first;
        return {};
    }
    return entry > first || stands_alone ? segment : Frame{};
}

std::vector<FlowColumn> fill(const std::vector<Group>& groups, Cursor& cursor, int columns,
                             Length height, Length group_gap) {
    std::vector<FlowColumn> filled;
    while (static_cast<int>(filled.size()) < columns && cursor.group < groups.size())
        filled.push_back(fill_column(groups, cursor, height, group_gap));
    return filled;
}

bool fits(const std::vector<Group>& groups, Cursor cursor, const FlowRoom& room, Length height) {
    fill(groups, cursor, room.columns, height, room.group_gap);
    return cursor.group >= groups.size();
}

/// The least height at which everything from `cursor` on stands in the columns of one page.
Length balanced_height(const std::vector<Group>& groups, Cursor cursor, const FlowRoom& room) {
    Length low{};
    Length high = room.height;
    while (high - low > points(2)) {
        const Length middle = (low + high) / 2;
        (fits(groups, cursor, room, middle) ? high : low) = middle;
    }
    return high;
}

} // namespace

Length FlowColumn::height(Length gap) const {
    Length sum{};
    for (const Frame& segment : segments)
        sum += segment.size.height;
    return segments.empty() ? sum : sum + static_cast<std::int64_t>(segments.size() - 1) * gap;
}

FlowColumn fill_column(const std::vector<Group>& groups, Cursor& from, Length height,
                       Length group_gap) {
    FlowColumn column;
    Length used{};
    while (from.group < groups.size()) {
        const Group& group = groups[from.group];
        const Length gap = column.segments.empty() ? Length{} : group_gap;
        Frame segment = take(group, from.entry, height - used - gap, column.segments.empty());
        if (segment.marks.empty() && segment.size.height == Length{} && !group.entries.empty())
            break;
        used += gap + segment.size.height;
        column.segments.push_back(std::move(segment));
        if (from.entry < group.entries.size())
            break;
        from = {from.group + 1, 0};
    }
    return column;
}

Frame stacked(const FlowColumn& column, Length width, Length height, Length gap,
              Length widest_gap) {
    const auto gaps = static_cast<std::int64_t>(column.segments.size()) - 1;
    if (gaps > 0) {
        const Length even = (height - column.height({})) / gaps;
        gap = std::clamp(even, gap, std::max(gap, widest_gap));
    }
    Frame frame;
    for (const Frame& segment : column.segments)
        append(frame, segment, frame.marks.empty() ? Length{} : gap);
    frame.size.width = width;
    return frame;
}

std::vector<Frame> flow(const std::vector<Group>& groups, const FlowRoom& room) {
    std::vector<Frame> pages;
    Cursor cursor;
    while (cursor.group < groups.size()) {
        const bool last = fits(groups, cursor, room, room.height);
        const Length height = last ? balanced_height(groups, cursor, room) : room.height;
        Frame page;
        page.size = {room.width * room.columns + room.gap * (room.columns - 1), height};
        Point at{};
        for (const FlowColumn& column :
             fill(groups, cursor, room.columns, height, room.group_gap)) {
            page.add(stacked(column, room.width, height, room.group_gap, room.widest_group_gap),
                     at);
            at.x += room.width + room.gap;
        }
        pages.push_back(std::move(page));
    }
    return pages;
}

} // namespace ohmfolio::sheets
