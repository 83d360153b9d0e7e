// Walls seen from the front, to scale, each with the table of what hangs on it.

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"
#include "drawing/dimension.h"
#include "sheet/no_room.h"
#include "sheet/pages.h"
#include "sheet/plan_view.h"
#include "sheet/schedule_rows.h"
#include "sheet/view_title.h"
#include "sheet/wall_drawing.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

/// A verdict column says what the working space of all of its steps came to.
std::string verdict_of(const Job& job, const Equipment& e) {
    bool judged = false;
    for (const std::size_t line : job.study.worksheet.under("space:" + e.id)) {
        const Derivation& each = job.study.worksheet.all()[line];
        if (each.verdict == Verdict::fail)
            return "FAIL";
        judged = judged || each.verdict.has_value();
    }
    return judged ? "PASS" : "—";
}

std::string size_words(const PlacedEquipment& placed, const DrawingScale& scale) {
    std::string words = fmt::format("{} × {}", dimension_figure(placed.area.width, scale),
                                    dimension_figure(placed.area.height, scale));
    if (placed.depth > Feet{0})
        words += " × " + dimension_figure(placed.depth, scale);
    return words;
}

/// Depth, width and height of the space that is kept free, and the voltage that asks for it.
void add_space(RowMaker& row, const Job& job, const WallStudy& study, int equipment,
               const DrawingScale& scale) {
    const auto space = std::ranges::find(study.spaces, equipment, &KeptSpace::equipment);
    if (space == study.spaces.end()) {
        for (int column = 0; column < 5; ++column)
            row.add("—");
        return;
    }
    for (const Feet length : {space->depth, space->right - space->left, space->height})
        row.add(dimension_figure(length, scale));
    row.add(fmt::format("{} V", trimmed(space->to_ground.value, 0)));
    row.add(job.study.derivation(job.equipment(equipment).id + ".space_depth").cite.section);
}

Table space_table(const Job& job, std::size_t number, const DrawingScale& scale) {
    const Wall& wall = job.system.walls[number];
    const auto figure = [&](Feet length) { return dimension_figure(length, scale); };
    Table table{.title = drafting_case("Equipment on this wall"),
                .columns = {text_column("TAG"), text_column("EQUIPMENT", 2.4),
                            text_column("W × H × D"), number_column("BOTTOM"), number_column("TOP"),
                            number_column("SPACE DEPTH"), number_column("SPACE WIDTH"),
                            number_column("SPACE HEIGHT"), number_column("TO GROUND"),
                            text_column("SECTION"), text_column("VERDICT")},
                .rows = {}};
    for (const PlacedEquipment& placed : wall.equipment) {
        const Equipment& e = job.equipment(placed.equipment);
        RowMaker row("equipment:" + e.id);
        row.add(id_with_status(e)).add(drafting_case(e.title)).add(size_words(placed, scale));
        row.add(figure(placed.area.bottom)).add(figure(placed.area.top()));
        add_space(row, job, job.study.walls[number], placed.equipment, scale);
        row.add(verdict_of(job, e));
        table.rows.push_back(row.row());
    }
    return table;
}

/// A wall at a scale, and the table of what hangs on it.
struct Elevation {
    WallView view;
    Frame title;
    std::vector<Frame> tables;
    Length gap;
    Length height_of_view() const { return view.frame.size.height + gap + title.size.height; }
    Length height() const { return height_of_view() + gap + tables.front().size.height; }
};

Elevation elevation_at(const DrawingScale& scale, std::size_t wall, std::size_t number,
                       const Job& job) {
    Frame title = view_title(fmt::format("{}", number), job.system.walls[wall].name,
                             "SCALE " + scale.words, job);
    title.add(scale_bar(scale, inches(2.5), job),
              {title.size.width + job.layout.column_gap, title.size.height / 2});
    return {draw_wall(job, wall, scale), std::move(title),
            set_table(space_table(job, wall, scale), job.layout.table, job.area.width,
                      job.area.height, true, job.measure),
            job.layout.block_gap};
}

/// Where the table would halve the drawing, it goes on a page of its own.
constexpr double least_share = 0.75;

/// The largest scale at which a wall fits the sheet, with its table or without.
std::optional<Elevation> largest(std::size_t wall, std::size_t number, bool with_table,
                                 const Job& job) {
    for (const DrawingScale& scale : job.layout.elevation_scales) {
        Elevation elevation = elevation_at(scale, wall, number, job);
        const Length height = with_table ? elevation.height() : elevation.height_of_view();
        if (elevation.view.frame.size.width <= job.area.width && height <= job.area.height)
            return elevation;
    }
    return std::nullopt;
}

void tell(const Job& job, const Wall& wall, Severity severity, std::string message,
          std::string expected) {
    tell_no_room(job, severity, wall.span, std::move(message), std::move(expected));
}

Elevation elevation_of(std::size_t wall, std::size_t number, const Job& job) {
    std::optional<Elevation> whole = largest(wall, number, true, job);
    std::optional<Elevation> alone = largest(wall, number, false, job);
    if (whole && whole->view.frame.size.width >= scaled(alone->view.frame.size.width, least_share))
        return std::move(*whole);
    if (alone)
        return std::move(*alone);
    const Wall& described = job.system.walls[wall];
    tell(job, described, Severity::error,
         fmt::format("{} is too large for the sheet at every scale", described.name),
         "a larger sheet format, or the wall in parts");
    return elevation_at(job.layout.elevation_scales.back(), wall, number, job);
}

void tell_of_unplaced(const Job& job, const Wall& wall, const WallView& view) {
    for (const std::string& words : view.unplaced) {
        tell(job, wall, Severity::warning,
             fmt::format("\"{}\" finds no place on the view of {}", words, wall.name),
             "a larger sheet format, or the wall in parts");
    }
}

} // namespace

std::vector<Frame> elevation_pages(const Job& job) {
    std::vector<Frame> pages;
    std::size_t number = 0;
    for (std::size_t wall = 0; wall < job.system.walls.size(); ++wall) {
        if (job.system.walls[wall].equipment.empty())
            continue;
        const Elevation elevation = elevation_of(wall, ++number, job);
        const Frame& drawing = elevation.view.frame;
        tell_of_unplaced(job, job.system.walls[wall], elevation.view);
        const bool whole = elevation.height() <= job.area.height;
        const Length taken = whole ? elevation.height() : elevation.height_of_view();
        Frame page;
        page.size = job.area;
        // What is left stands above the drawing and, twice as much, below its title.
        const Length spare = std::max(job.area.height - taken, Length{}) / 3;
        page.add(drawing, {(job.area.width - drawing.size.width) / 2, spare});
        page.add(elevation.title, {{}, spare + drawing.size.height + elevation.gap});
        if (whole)
            page.add(elevation.tables.front(),
                     {{}, job.area.height - elevation.tables.front().size.height});
        pages.push_back(std::move(page));
        for (std::size_t i = whole ? 1 : 0; i < elevation.tables.size(); ++i) {
            Frame more;
            more.size = job.area;
            more.add(elevation.tables[i], {});
            pages.push_back(std::move(more));
        }
    }
    return pages;
}

} // namespace ohmfolio::sheets
