#include <algorithm>

#include "sheet/flow.h"
#include "sheet/pages.h"
#include "sheet/schedules.h"

namespace ohmfolio::sheets {

namespace {

void add_block(std::vector<Group>& groups, Frame block) {
    Group group;
    group.entries.push_back(std::move(block));
    groups.push_back(std::move(group));
}

/// A table over the full width, as one block or as many as it needs pages.
void add_wide(std::vector<Group>& groups, const Table& table, const Job& job) {
    if (table.rows.empty())
        return;
    for (Frame& piece :
         set_table(table, job.layout.table, job.area.width, job.area.height, true, job.measure)) {
        Group group;
        group.entries.push_back(std::move(piece));
        groups.push_back(std::move(group));
    }
}

/// Panel schedules side by side at equal width.
void add_panels(std::vector<Group>& groups, const Job& job) {
    constexpr std::size_t most_abreast = 3;
    std::vector<int> panels;
    for (int i = 0; i < static_cast<int>(job.system.equipment.size()); ++i)
        if (job.equipment(i).is<Panel>())
            panels.push_back(i);
    const std::size_t abreast = std::clamp(panels.size(), std::size_t{1}, most_abreast);
    const auto count = static_cast<std::int64_t>(abreast);
    const Length gap = job.layout.column_gap;
    const Length width = (job.area.width - gap * (count - 1)) / count;
    for (std::size_t first = 0; first < panels.size(); first += abreast) {
        // A panel too long for a page goes on in a further row.
        std::vector<Frame> rows;
        for (std::size_t i = first; i < std::min(first + abreast, panels.size()); ++i) {
            const auto pieces =
                set_table(panel_schedule(job.system, job.study, panels[i]), job.layout.table, width,
                          job.area.height, true, job.measure);
            rows.resize(std::max(rows.size(), pieces.size()));
            for (std::size_t piece = 0; piece < pieces.size(); ++piece) {
                Frame& row = rows[piece];
                row.add(pieces[piece], {static_cast<std::int64_t>(i - first) * (width + gap), {}});
                row.size = {job.area.width, std::max(row.size.height, pieces[piece].size.height)};
            }
        }
        for (Frame& row : rows)
            add_block(groups, std::move(row));
    }
}

} // namespace

std::vector<Frame> schedule_pages(const Job& job) {
    std::vector<Group> groups;
    add_wide(groups, conductor_schedule(job.system, job.study), job);
    add_wide(groups, disconnect_schedule(job.system, job.study), job);
    add_wide(groups, overcurrent_schedule(job.system, job.study), job);
    add_wide(groups, equipment_schedule(job.system), job);
    add_panels(groups, job);
    FlowRoom room;
    room.width = job.area.width;
    room.height = job.area.height;
    room.group_gap = job.layout.block_gap;
    room.widest_group_gap = job.layout.widest_block_gap;
    return flow(groups, room);
}

} // namespace ohmfolio::sheets
