#include <algorithm>

#include "base/drafting_case.h"
#include "drawing/table_parts.h"
#include "sheet/flow.h"
#include "sheet/material_list.h"
#include "sheet/pages.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

/// How the list is read.
Frame remark_of(Length width, const Job& job) {
    Frame remark;
    const TextStyle& style = job.layout.lettering.body;
    const Length height = write_paragraph(
        remark, {}, width, drafting_case(job.texts.remarks.material), {style}, job.measure);
    remark.size = {width, height + job.measure.descent(style)};
    return remark;
}

/// The pieces of the list. The remark is one with the last, or it would come to stand on a sheet of
/// its own where that piece fills one.
Group group_of(const Table& table, Length width, const Job& job) {
    Group group;
    group.entry_gap = job.layout.block_gap;
    const Frame remark = remark_of(width, job);
    const Length foot = remark.size.height + group.entry_gap;
    const std::vector<Table> parts = parted(table, job.layout.table, width, job.measure);
    for (const Table& part : parts) {
        for (Frame& piece : set_table(part, job.layout.table, width, job.area.height, true,
                                      job.measure, &part == &parts.back() ? foot : Length{}))
            group.entries.push_back(std::move(piece));
    }
    Frame& last = group.entries.back();
    last.add(remark, {{}, last.size.height + group.entry_gap});
    last.size = {std::max(last.size.width, width), last.size.height + foot};
    return group;
}

} // namespace

std::vector<Frame> material_pages(const Job& job) {
    const Table table = material_list(job);
    if (table.rows.empty())
        return {};
    // A table drawn much wider than it needs to be loses the eye: no more than half as wide again.
    const Length natural =
        set_table(table, job.layout.table, job.area.width, job.area.height, false, job.measure)
            .front()
            .size.width;
    FlowRoom room;
    room.width = std::min(job.area.width, natural * 3 / 2);
    room.height = job.area.height;
    return flow({group_of(table, room.width, job)}, room);
}

} // namespace ohmfolio::sheets
