#include <algorithm>

#include "base/drafting_case.h"
#include "sheet/flow.h"
#include "sheet/pages.h"
#include "sheet/schedules.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

void add_block(std::vector<Group>& groups, Frame block) {
    Group group;
    group.entries.push_back(std::move(block));
    groups.push_back(std::move(group));
}

/// How a schedule is read, in a line below it.
void add_remark(std::vector<Group>& groups, const std::string& words, const Job& job) {
    if (groups.empty())
        return;
    Frame remark;
    const TextStyle& style = job.layout.lettering.body;
    const Length height =
        write_paragraph(remark, {}, job.area.width, drafting_case(words), {style}, job.measure);
    remark.size = {job.area.width, height + job.measure.descent(style)};
    groups.back().entries.push_back(std::move(remark));
    groups.back().entry_gap = job.layout.item_gap * 2;
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

/// Small tables side by side, each at the width it needs and a share of what is left.
void add_abreast(std::vector<Group>& groups, const std::vector<Table>& tables, const Job& job) {
    const auto pieces_of = [&](const Table& table, Length width, bool stretch) {
        return set_table(table, job.layout.table, width, job.area.height, stretch, job.measure);
    };
    const Length gap = job.layout.column_gap;
    std::size_t first = 0;
    while (first < tables.size()) {
        std::vector<Length> widths;
        Length used{};
        for (std::size_t i = first; i < tables.size(); ++i) {
            const Length width = pieces_of(tables[i], job.area.width, false).front().size.width;
            const Length with = used + width + (widths.empty() ? Length{} : gap);
            if (!widths.empty() && with > job.area.width)
                break;
            widths.push_back(width);
            used = with;
        }
        const Length more = (job.area.width - used) / static_cast<std::int64_t>(widths.size());
        // A table too long for a page goes on in a further row.
        std::vector<Frame> rows;
        Length left{};
        for (std::size_t i = 0; i < widths.size(); ++i) {
            const auto pieces = pieces_of(tables[first + i], widths[i] + more, true);
            rows.resize(std::max(rows.size(), pieces.size()));
            for (std::size_t piece = 0; piece < pieces.size(); ++piece) {
                Frame& row = rows[piece];
                row.add(pieces[piece], {left, {}});
                row.size = {job.area.width, std::max(row.size.height, pieces[piece].size.height)};
            }
            left += widths[i] + more + gap;
        }
        for (Frame& row : rows)
            add_block(groups, std::move(row));
        first += widths.size();
    }
}

/// One table for each panel, and what measures and controls.
std::vector<Table> small_tables(const Job& job) {
    std::vector<Table> tables;
    for (int i = 0; i < static_cast<int>(job.system.equipment.size()); ++i) {
        if (job.equipment(i).is<Panel>())
            tables.push_back(panel_schedule(job.system, job.study, i));
    }
    Table metering = metering_schedule(job.system);
    if (!metering.rows.empty())
        tables.push_back(std::move(metering));
    return tables;
}

} // namespace

std::vector<Frame> schedule_pages(const Job& job) {
    std::vector<Group> groups;
    add_wide(groups, conductor_schedule(job.system, job.study), job);
    add_remark(groups, job.texts.remarks.conductors, job);
    add_wide(groups, raceway_schedule(job.system, job.study), job);
    add_wide(groups, overcurrent_schedule(job.system, job.study), job);
    add_wide(groups, disconnect_schedule(job.system, job.study), job);
    add_wide(groups, equipment_schedule(job.system), job);
    add_abreast(groups, small_tables(job), job);
    FlowRoom room;
    room.width = job.area.width;
    room.height = job.area.height;
    room.group_gap = job.layout.block_gap;
    room.widest_group_gap = job.layout.widest_block_gap;
    return flow(groups, room);
}

} // namespace ohmfolio::sheets
