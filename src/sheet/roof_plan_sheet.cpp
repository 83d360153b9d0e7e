// The roof seen from above, with what the fire service asks for: planes and modules to scale,
// pathways, setbacks, and the table of what was judged.

#include <algorithm>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"
#include "sheet/flow.h"
#include "sheet/no_room.h"
#include "sheet/roof_drawing.h"
#include "sheet/schedule_rows.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

int module_count(const RoofPlane& plane) {
    std::size_t count = 0;
    for (const ModuleField& field : plane.fields)
        count += field.modules.size();
    return static_cast<int>(count);
}

std::string square_feet(SquareFeet area) { return fmt::format("{} ft²", trimmed(area.value, 0)); }

Table plane_table(const Job& job) {
    Table table{.title = drafting_case("Roof planes, in plan"),
                .columns = {text_column("PLANE"), number_column("PITCH"), number_column("FACES"),
                            number_column("MODULES"), number_column("AREA"),
                            number_column("ARRAY")},
                .rows = {}};
    const double north = job.system.site.plan.north;
    SquareFeet roofs{}, arrays{};
    int modules = 0;
    for (const std::size_t i : described_planes(job.system)) {
        const RoofPlane& plane = job.system.site.roofs[i];
        roofs = roofs + plan_area(plane.corners);
        arrays = arrays + array_area(plane, north);
        modules += module_count(plane);
        RowMaker row("roof:" + plane.name);
        row.add(plane.name).add(pitch_words(plane.tilt));
        row.add(trimmed(plane.azimuth, 0) + "°").add(fmt::format("{}", module_count(plane)));
        row.add(square_feet(plan_area(plane.corners)));
        row.add(plane.fields.empty() ? "—" : square_feet(array_area(plane, north)));
        table.rows.push_back(row.row());
    }
    RowMaker total("site:roof_access");
    total.add("TOTAL").add("—").add("—").add(fmt::format("{}", modules));
    total.add(square_feet(roofs)).add(square_feet(arrays));
    table.rows.push_back(total.row());
    return table;
}

/// Every line of the calculation that was judged, and the share that decides the setback.
Table access_table(const Job& job) {
    Table table{.title = drafting_case("Access for the fire service"),
                .columns = {text_column("CHECK"), text_column("FOUND"), text_column("SECTION"),
                            text_column("VERDICT")},
                .rows = {}};
    const Worksheet& sheet = job.study.worksheet;
    for (const std::size_t i : sheet.under("site:roof_access")) {
        const Derivation& line = sheet.all()[i];
        const bool shown = line.verdict || line.name == "code" || line.name == "coverage" ||
                           line.name == "ridge_setback" || line.name.ends_with("_slope");
        if (!shown)
            continue;
        RowMaker row("site:roof_access");
        row.add(drafting_case(line.title));
        row.add(line.comparison.empty() ? line.result : line.comparison);
        row.add(line.cite.section.empty() ? "—" : line.cite.section);
        row.add(!line.verdict ? "—" : *line.verdict == Verdict::pass ? "PASS" : "FAIL");
        table.rows.push_back(row.row());
    }
    return table;
}

/// The plan with its title, and the tables at its right or on a page of their own.
struct RoofSheet {
    Frame plan, title;
    Length gap;
    Findings findings; ///< of its lettering
    Length height() const { return plan.size.height + gap + title.size.height; }
    Length width() const { return std::max(plan.size.width, title.size.width); }
};

RoofSheet sheet_at(const DrawingScale& scale, const Job& job) {
    Findings findings;
    Frame plan = draw_roofs(scale, trial_of(job, findings));
    add_north_arrow(plan, job.system.site.plan.north, job);
    return {std::move(plan), plan_title("1", "Roof plan", scale, job), job.layout.block_gap,
            std::move(findings)};
}

/// Tables, how the sheet is read, and the marks.
std::vector<Frame> blocks_of(const Job& job, Length width) {
    std::vector<Frame> blocks;
    for (const Table& table : {plane_table(job), access_table(job)}) {
        if (table.rows.empty())
            continue;
        for (Frame& piece :
             set_table(table, job.layout.table, width, job.area.height, true, job.measure))
            blocks.push_back(std::move(piece));
    }
    add_remark(blocks.back(), job.texts.remarks.roof_plan, job);
    blocks.push_back(roof_legend(width, job));
    return blocks;
}

/// One below the other.
Frame stacked_blocks(const Job& job, Length width) {
    Frame column;
    column.size.width = width;
    for (const Frame& block : blocks_of(job, width)) {
        if (column.size.height.nm > 0)
            column.size.height += job.layout.block_gap;
        column.add(block, {{}, column.size.height});
        column.size.height += block.size.height;
    }
    return column;
}

/// Narrower, the tables would break their words.
constexpr Length narrowest_table = inches(5.2);

std::optional<Frame> page_with_tables(const RoofSheet& sheet, const Job& job) {
    const Length left = job.area.width - sheet.width() - job.layout.column_gap;
    if (left < narrowest_table || sheet.height() > job.area.height)
        return std::nullopt;
    const Length width = std::min(left, scaled(job.area.width, 0.5));
    const Frame tables = stacked_blocks(job, width);
    if (tables.size.height > job.area.height)
        return std::nullopt;
    Frame page;
    page.size = job.area;
    const Length room = job.area.width - width - job.layout.column_gap;
    const Length spare = job.area.height - sheet.height();
    page.add(sheet.plan, {(room - sheet.plan.size.width) / 2, spare / 2});
    page.add(sheet.title, {{}, job.area.height - sheet.title.size.height});
    page.add(tables, {job.area.width - width, {}});
    return page;
}

/// The plan on a page, what belongs to it in two columns on the next.
std::vector<Frame> pages_apart(const RoofSheet& sheet, const Job& job) {
    Frame page;
    page.size = job.area;
    const Length spare = job.area.height - sheet.height();
    page.add(sheet.plan, {(job.area.width - sheet.plan.size.width) / 2, spare / 2});
    page.add(sheet.title, {{}, job.area.height - sheet.title.size.height});
    std::vector<Frame> pages = {std::move(page)};
    const FlowRoom room{.columns = 2,
                        .width = (job.area.width - job.layout.column_gap) / 2,
                        .gap = job.layout.column_gap,
                        .height = job.area.height,
                        .group_gap = job.layout.block_gap,
                        .widest_group_gap = job.layout.block_gap};
    std::vector<Group> groups;
    for (Frame& block : blocks_of(job, room.width)) {
        Group& group = groups.emplace_back();
        group.entries.push_back(std::move(block));
    }
    for (const Frame& filled : flow(groups, room)) {
        Frame more;
        more.size = job.area;
        more.add(filled, {});
        pages.push_back(std::move(more));
    }
    return pages;
}

/// Where the tables would make the plan smaller than this, they go on a page of their own.
constexpr double least_share = 0.6;

} // namespace

std::vector<Frame> roof_plan_pages(const Job& job) {
    if (described_planes(job.system).empty())
        return {};
    std::optional<RoofSheet> alone; // the largest that fits, tables apart
    for (const DrawingScale& scale : job.layout.roof_scales) {
        RoofSheet sheet = sheet_at(scale, job);
        if (sheet.height() > job.area.height || sheet.width() > job.area.width)
            continue;
        if (alone && sheet.plan.size.width < scaled(alone->plan.size.width, least_share))
            break;
        if (auto page = page_with_tables(sheet, job)) {
            tell(job, sheet.findings);
            return {std::move(*page)};
        }
        if (!alone)
            alone = std::move(sheet);
    }
    if (alone) {
        tell(job, alone->findings);
        return pages_apart(*alone, job);
    }
    tell_no_room(job, Severity::error, job.system.site.roofs.front().span,
                 "the roofs are too large for the sheet at every scale",
                 "a larger sheet format, or a smaller scale in its layout");
    return {};
}

} // namespace ohmfolio::sheets
