// The schedules for those who read them by machine: the same tables that stand on the sheets.
#include <algorithm>

#include "sheet/material_list.h"
#include "sheet/pages.h"
#include "sheet/schedules.h"

namespace ohmfolio::sheets {

namespace {

void add(std::vector<NamedTable>& tables, std::string name, Table table) {
    if (!table.rows.empty())
        tables.push_back({std::move(name), std::move(table)});
}

/// A row of one panel's schedule under the columns of all.
Row under(const std::vector<Column>& all, const Table& table, const Row& row) {
    Row result;
    for (const Column& column : all) {
        const auto own = std::ranges::find(table.columns, column.heading, &Column::heading);
        const auto at = static_cast<std::size_t>(own - table.columns.begin());
        result.cells.push_back(at < row.cells.size() ? row.cells[at] : Cell{});
    }
    return result;
}

/// All panels in one table, each under its own heading. Those of three lines have a column more.
Table panel_schedules(const Job& job) {
    Table all;
    for (int i = 0; i < static_cast<int>(job.system.equipment.size()); ++i) {
        if (!job.equipment(i).is<Panel>())
            continue;
        const Table table = panel_schedule(job.system, job.study, i);
        if (table.columns.size() > all.columns.size())
            all.columns = table.columns;
    }
    for (int i = 0; i < static_cast<int>(job.system.equipment.size()); ++i) {
        if (!job.equipment(i).is<Panel>())
            continue;
        const Table table = panel_schedule(job.system, job.study, i);
        Row heading;
        heading.heading = true;
        heading.cells.push_back(
            {.text = job.equipment(i).id, .shows = {}, .link = {}, .anchor = {}});
        all.rows.push_back(std::move(heading));
        for (const Row& row : table.rows)
            all.rows.push_back(under(all.columns, table, row));
    }
    return all;
}

} // namespace

std::vector<NamedTable> machine_tables(const Job& job) {
    std::vector<NamedTable> tables;
    add(tables, "material", material_list(job));
    add(tables, "conductors", conductor_schedule(job.system, job.study));
    add(tables, "raceways", raceway_schedule(job.system, job.study));
    add(tables, "overcurrent", overcurrent_schedule(job.system, job.study));
    add(tables, "disconnects", disconnect_schedule(job.system, job.study));
    add(tables, "equipment", equipment_schedule(job.system));
    add(tables, "panels", panel_schedules(job));
    add(tables, "shedding", shedding_schedule(job.system));
    add(tables, "metering", metering_schedule(job.system));
    return tables;
}

} // namespace ohmfolio::sheets
