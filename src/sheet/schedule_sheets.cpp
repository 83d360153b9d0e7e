#include <algorithm>

#include "base/drafting_case.h"
#include "drawing/table_parts.h"
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

/// The parts that a table wider than the sheet is cut into; a table without rows is left out.
void add_parts(std::vector<Table>& tables, const Table& table, const Job& job) {
    if (table.rows.empty())
        return;
    for (Table& part : parted(table, job.layout.table, job.area.width, job.measure))
        tables.push_back(std::move(part));
}

/// Tables side by side where there is room, each at the width it needs and a share of what is left;
/// no more than half its width again, since the eye loses the row in a table drawn too wide.
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
            const Length width = std::min(widths[i] + more, widths[i] * 3 / 2);
            const auto pieces = pieces_of(tables[first + i], width, true);
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
    for (const Table& table : {shedding_schedule(job.system), metering_schedule(job.system)}) {
        if (!table.rows.empty())
            tables.push_back(table);
    }
    return tables;
}

} // namespace

std::vector<Frame> schedule_pages(const Job& job) {
    std::vector<Group> groups;
    std::vector<Table> tables;
    add_parts(tables, conductor_schedule(job.system, job.study), job);
    add_abreast(groups, tables, job);
    add_remark(groups, job.texts.remarks.conductors, job);
    tables.clear();
    add_parts(tables, raceway_schedule(job.system, job.study), job);
    add_parts(tables, overcurrent_schedule(job.system, job.study), job);
    add_parts(tables, disconnect_schedule(job.system, job.study), job);
    add_parts(tables, equipment_schedule(job.system, job.appendix_sheets), job);
    for (const Table& table : small_tables(job))
        add_parts(tables, table, job);
    add_abreast(groups, tables, job);
    FlowRoom room;
    room.width = job.area.width;
    room.height = job.area.height;
    room.group_gap = job.layout.block_gap;
    room.widest_group_gap = job.layout.widest_block_gap;
    return flow(groups, room);
}

} // namespace ohmfolio::sheets
