// The schedules for those who read them by machine: the same tables that stand on the sheets.
#include <algorithm>
#include <string_view>
#include <utility>

#include "sheet/material_list.h"
#include "sheet/packet.h"
#include "sheet/pages.h"
#include "sheet/schedules.h"

namespace ohmfolio::sheets {

namespace {

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
    std::vector<std::pair<std::string, Table>> panels;
    for (int i = 0; i < static_cast<int>(job.system.equipment.size()); ++i) {
        if (!job.equipment(i).is<Panel>())
            continue;
        panels.emplace_back(job.equipment(i).id, panel_schedule(job.system, job.study, i));
        if (panels.back().second.columns.size() > all.columns.size())
            all.columns = panels.back().second.columns;
    }
    for (const auto& [id, table] : panels) {
        Row heading;
        heading.heading = true;
        heading.cells.push_back({.text = id, .shows = {}, .link = {}, .anchor = {}});
        all.rows.push_back(std::move(heading));
        for (const Row& row : table.rows)
            all.rows.push_back(under(all.columns, table, row));
    }
    return all;
}

struct MachineTable {
    std::string_view name;
    Table (*make)(const Job&);
};

constexpr MachineTable known_tables[] = {
    {"material", material_list},
    {"conductors", [](const Job& job) { return conductor_schedule(job.system, job.study); }},
    {"raceways", [](const Job& job) { return raceway_schedule(job.system, job.study); }},
    {"overcurrent", [](const Job& job) { return overcurrent_schedule(job.system, job.study); }},
    {"disconnects", [](const Job& job) { return disconnect_schedule(job.system, job.study); }},
    {"equipment", [](const Job& job) { return equipment_schedule(job.system); }},
    {"panels", panel_schedules},
    {"shedding", [](const Job& job) { return shedding_schedule(job.system); }},
    {"metering", [](const Job& job) { return metering_schedule(job.system); }},
};

} // namespace

std::vector<NamedTable> machine_tables(const Job& job) {
    std::vector<NamedTable> tables;
    for (const MachineTable& each : known_tables) {
        Table table = each.make(job);
        if (!table.rows.empty())
            tables.push_back({std::string(each.name), std::move(table)});
    }
    return tables;
}

} // namespace ohmfolio::sheets

namespace ohmfolio {

std::vector<std::string> machine_table_names() {
    std::vector<std::string> names;
    for (const sheets::MachineTable& each : sheets::known_tables)
        names.emplace_back(each.name);
    return names;
}

} // namespace ohmfolio
