// Walls seen from the front, to scale: grade, enclosures, what else is on the wall, dimensions, and
// the working space that is to be kept free.

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"
#include "drawing/dimension.h"
#include "sheet/no_room.h"
#include "sheet/open_room.h"
#include "sheet/pages.h"
#include "sheet/plan_view.h"
#include "sheet/schedule_rows.h"
#include "sheet/view_title.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

const Length clear = points(4);

/// A stretch of the wall before which the floor is kept free.
struct FreeFloor {
    Feet left{}, right{}, height{}, depth{};
};

/// One wall at one scale.
class WallDrawing {
  public:
    WallDrawing(const Job& job, const Wall& wall, const DrawingScale& scale)
        : job_(job), wall_(wall), scale_(scale) {
        style_.lettering = job.layout.lettering.body;
    }

    Frame draw() {
        const Length pitch = dimension_pitch(style_, job_.measure);
        const Length left = 3 * pitch + clear;
        origin_ = {left, inches(0.1) + paper(wall_.height)};
        draw_wall();
        const std::vector<FreeFloor> spaces = free_floors();
        for (const FreeFloor& space : spaces)
            draw_space(space);
        for (const WallObject& object : wall_.objects)
            draw_object(object);
        for (const PlacedEquipment& placed : wall_.equipment)
            draw_equipment(placed);
        for (const PlacedEquipment& placed : wall_.equipment)
            write_name(box(placed.area), job_.equipment(placed.equipment).id,
                       "equipment:" + job_.equipment(placed.equipment).id);
        for (const WallObject& object : wall_.objects)
            write_name(box(object.area), object.name, {});
        for (const FreeFloor& space : spaces)
            write_space_words(space);
        const Length low = draw_widths(origin_.y + pitch + clear + hatch());
        const Length foot = draw_overall(low + pitch);
        draw_height(left - pitch);
        const Length right = clear + job_.measure.width(datum(), style_.lettering);
        frame_.size = {left + paper(wall_.length) + std::max(pitch, right), foot + clear};
        return std::move(frame_);
    }

  private:
    Length paper(Feet length) const { return scale_.on_paper(length); }
    Point at(Feet along, Feet height) const {
        return {origin_.x + paper(along), origin_.y - paper(height)};
    }
    Box box(const WallArea& area) const {
        return {at(area.left, area.top()), at(area.right(), area.bottom)};
    }
    std::string figure(Feet length) const { return dimension_figure(length, scale_); }
    Length hatch() const { return inches(0.1); }
    /// What the heights run from: grade or floor.
    std::string datum() const {
        return std::string(wall_.on_floor ? "FLOOR " : "GRADE ") +
               (scale_.metric ? "±0" : "0'-0\"");
    }

    /// The wall stands on grade or floor, which is hatched below its line.
    void draw_wall() {
        frame_.add(polyline({at({}, {}), at({}, wall_.height), at(wall_.length, wall_.height),
                             at(wall_.length, {})},
                            {thin_pen}),
                   Role::enclosure);
        frame_.add(polyline({at({}, {}), at(wall_.length, {})}, {wide_pen}), Role::enclosure);
        const Length end = at(wall_.length, {}).x;
        for (Length x = origin_.x + hatch(); x <= end; x += hatch() * 2)
            frame_.add(polyline({{x, origin_.y}, {x - hatch(), origin_.y + hatch()}}, {fine_pen}),
                       Role::enclosure);
        write_line(frame_, {end + clear, origin_.y - job_.measure.cap_height(style_.lettering) / 2},
                   datum(), {style_.lettering}, job_.measure);
    }

    void draw_object(const WallObject& object) {
        frame_.add(rectangle(box(object.area), {thin_pen}), Role::enclosure);
        taken_.push_back(box(object.area));
    }

    void draw_equipment(const PlacedEquipment& placed) {
        const Equipment& e = job_.equipment(placed.equipment);
        const std::string shows = "equipment:" + e.id;
        const Box outline = box(placed.area);
        frame_.add(filled_rectangle(outline, white), Role::ground, shows);
        frame_.add(rectangle(outline, e.existing ? Stroke{medium_pen, LineType::dash_dot}
                                                 : Stroke{wide_pen}),
                   Role::enclosure, shows);
        taken_.push_back(outline);
    }

    bool is_free(const Box& area) const {
        return std::ranges::none_of(taken_, [&](const Box& other) { return other.overlaps(area); });
    }

    /// Inside the outline; where that is too narrow, in the first free line over or under it.
    void write_name(const Box& outline, const std::string& name, const std::string& shows) {
        const Length width = job_.measure.width(name, style_.lettering);
        const Length height = lettering_height(1, style_.lettering, job_.measure);
        if (width + 2 * clear <= outline.width() && height + 2 * clear <= outline.height()) {
            write_line(frame_, {outline.centre().x, outline.centre().y - height / 2}, name,
                       {style_.lettering, Align::centre, black, shows}, job_.measure);
            return;
        }
        constexpr int most_lines = 30;
        for (int line = 0; line < most_lines; ++line) {
            if (write_beside(outline, name, shows, line, true) ||
                write_beside(outline, name, shows, line, false))
                return;
        }
        if (!write_aside(outline, name, shows))
            report_no_room(name);
    }

    /// Wherever there is room, with a slanting leader. False when there is none.
    bool write_aside(const Box& outline, const std::string& name, const std::string& shows) {
        OpenRoom room(points(2));
        for (const Box& box : taken_) {
            const bool is_line = box.width().nm == 0 || box.height().nm == 0;
            if (is_line)
                room.take_line(box.low, box.high); // which a leader may cross
            else
                room.take(box);
        }
        const TextStyle& style = style_.lettering;
        const Size size{job_.measure.width(name, style),
                        lettering_height(1, style, job_.measure) + job_.measure.descent(style)};
        const Point from = outline.centre();
        const Box wall{at({}, wall_.height), at(wall_.length, {})};
        const auto place = room.nearest(size, from, wall.width(), [&](const Box& words) {
            return wall.contains(words) && room.is_free_line(end_of_leader(words, from), from);
        });
        if (!place)
            return false;
        write_line(frame_, place->low, name, {style, Align::left, black, shows}, job_.measure);
        frame_.add(polyline({end_of_leader(*place, from), from}, {fine_pen}), Role::leader, shows);
        taken_.push_back(*place);
        return true;
    }
    static Point end_of_leader(const Box& words, Point to) {
        return {words.centre().x,
                to.y < words.low.y ? words.low.y - points(2) : words.high.y + points(2)};
    }

    /// Lettering is never dropped without a word.
    void report_no_room(const std::string& name) const {
        tell_no_room(job_, Severity::warning, wall_.span,
                     fmt::format("\"{}\" finds no room on {}", name, wall_.name),
                     "a larger sheet format, or the wall in parts");
    }

    /// With a leader from the second line on. False when something stands in the way.
    bool write_beside(const Box& outline, const std::string& name, const std::string& shows,
                      int line, bool over) {
        const TextStyle& style = style_.lettering;
        const Length cap = lettering_height(1, style, job_.measure);
        const Length tail = job_.measure.descent(style);
        const Length half = job_.measure.width(name, style) / 2 + points(2);
        const Length middle = outline.centre().x;
        const Length away = line_pitch(style) * line + clear;
        const Length top = over ? outline.low.y - away - tail - cap : outline.high.y + away;
        const Box words{{middle - half, top - points(2)}, {middle + half, top + cap + tail}};
        const Length from = over ? words.high.y : outline.high.y;
        const Length to = over ? outline.low.y : words.low.y;
        const Box leader{{middle - points(1), from + points(0.5)},
                         {middle + points(1), to - points(0.5)}};
        if (!is_free(words) || (line > 0 && !is_free(leader)))
            return false;
        write_line(frame_, {middle, top}, name, {style, Align::centre, black, shows}, job_.measure);
        taken_.push_back(words);
        if (line > 0) {
            frame_.add(polyline({{middle, from}, {middle, to}}, {fine_pen}), Role::leader, shows);
            taken_.push_back(leader);
        }
        return true;
    }

    const Derivation* needed(const PlacedEquipment& placed, std::string_view line) const {
        return job_.study.worksheet.find(
            fmt::format("{}.{}", job_.equipment(placed.equipment).id, line));
    }

    /// Working spaces that touch are one.
    std::vector<FreeFloor> free_floors() const {
        std::vector<FreeFloor> spaces;
        for (const PlacedEquipment& placed : wall_.equipment) {
            const Derivation* width = needed(placed, "space_width");
            const Derivation* height = needed(placed, "space_height");
            const Derivation* depth = needed(placed, "space_depth");
            if (width == nullptr || height == nullptr || depth == nullptr)
                continue;
            const WallStretch space =
                space_before(wall_, placed, Feet{width->value}, placed.area.top());
            spaces.push_back({space.left, space.right, std::min(Feet{height->value}, wall_.height),
                              Feet{depth->value}});
        }
        std::ranges::sort(spaces, {}, &FreeFloor::left);
        std::vector<FreeFloor> joined;
        for (const FreeFloor& space : spaces) {
            if (joined.empty() || space.left > joined.back().right) {
                joined.push_back(space);
                continue;
            }
            FreeFloor& last = joined.back();
            last.right = std::max(last.right, space.right);
            last.height = std::max(last.height, space.height);
            last.depth = std::max(last.depth, space.depth);
        }
        return joined;
    }

    /// The face of the working space, seen through what hangs in it; its words stand along its top
    /// where nothing hangs.
    void draw_space(const FreeFloor& space) {
        frame_.add(polyline({at(space.left, {}), at(space.left, space.height),
                             at(space.right, space.height), at(space.right, {})},
                            {thin_pen, LineType::dashed}),
                   Role::overlay);
        for (const Point& corner : {at(space.left, space.height), at(space.right, space.height)})
            taken_.push_back({corner, {corner.x, origin_.y}});
        taken_.push_back({at(space.left, space.height), at(space.right, space.height)});
    }

    /// Along the top of the space where nothing hangs, else over it, where that is free; the table
    /// has the depth as well.
    void write_space_words(const FreeFloor& space) {
        const std::string words =
            fmt::format("WORKING SPACE {} DEEP, 110.26(A)", figure(space.depth));
        const TextStyle& style = style_.lettering;
        const Length width = job_.measure.width(words, style) + 2 * clear;
        const Length height = lettering_height(1, style, job_.measure) + 2 * clear;
        const Point top = at(space.left, space.height);
        // Wider than the space, the words still end before the wall does.
        const Length left = std::min(top.x, at(wall_.length, {}).x - width);
        const Box inside{{left + points(1), top.y + points(1)}, {left + width, top.y + height}};
        const Box over{{left, top.y - height}, {left + width, top.y - points(1)}};
        const bool stands_inside = width <= paper(space.right - space.left) && is_free(inside);
        if (!stands_inside && (!is_free(over) || over.low.y < at({}, wall_.height).y))
            return;
        const Box& place = stands_inside ? inside : over;
        write_line(frame_, {left + clear, place.low.y + clear}, words, {style}, job_.measure);
        taken_.push_back(place);
    }

    Length draw_widths(Length line) {
        DimensionString chain{.line = line, .stops = {}, .figures = {}};
        std::vector<Feet> edges = {Feet{0}, wall_.length};
        for (const PlacedEquipment& placed : wall_.equipment) {
            edges.push_back(placed.area.left);
            edges.push_back(placed.area.right());
        }
        for (const WallObject& object : wall_.objects) {
            edges.push_back(object.area.left);
            edges.push_back(object.area.right());
        }
        std::ranges::sort(edges);
        const auto repeated =
            std::ranges::unique(edges, [](Feet a, Feet b) { return (b - a).value < 0.001; });
        edges.erase(repeated.begin(), repeated.end());
        for (std::size_t i = 0; i < edges.size(); ++i) {
            chain.stops.push_back({at(edges[i], {}).x, origin_.y});
            if (i > 0)
                chain.figures.push_back(figure(edges[i] - edges[i - 1]));
        }
        return draw_dimensions(frame_, chain, style_, job_.measure);
    }

    Length draw_overall(Length line) {
        return draw_dimensions(frame_,
                               {.line = line,
                                .stops = {{at({}, {}).x, line - style_.gap * 3},
                                          {at(wall_.length, {}).x, line - style_.gap * 3}},
                                .figures = {figure(wall_.length)}},
                               style_, job_.measure);
    }

    void draw_height(Length line) {
        draw_dimensions(frame_,
                        {.vertical = true,
                         .line = line,
                         .stops = {{at({}, wall_.height).y, origin_.x}, {origin_.y, origin_.x}},
                         .figures = {figure(wall_.height)}},
                        style_, job_.measure);
    }

    const Job& job_;
    const Wall& wall_;
    const DrawingScale& scale_;
    DimensionStyle style_;
    std::vector<Box> taken_; ///< by enclosures, lines and lettering
    Point origin_;
    Frame frame_;
};

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

Table space_table(const Job& job, const Wall& wall, const DrawingScale& scale) {
    const auto figure = [&](Feet length) { return dimension_figure(length, scale); };
    Table table{.title = drafting_case("Equipment on this wall"),
                .columns = {text_column("TAG"), text_column("EQUIPMENT", 2.4),
                            text_column("W × H × D"), number_column("BOTTOM"), number_column("TOP"),
                            number_column("HANDLE"), number_column("SPACE DEPTH"),
                            number_column("SPACE WIDTH"), number_column("SPACE HEIGHT"),
                            number_column("TO GROUND"), text_column("SECTION"),
                            text_column("VERDICT")},
                .rows = {}};
    for (const PlacedEquipment& placed : wall.equipment) {
        const Equipment& e = job.equipment(placed.equipment);
        const auto line = [&](std::string_view name) {
            return job.study.derivation(fmt::format("{}.{}", e.id, name));
        };
        RowMaker row("equipment:" + e.id);
        row.add(id_with_status(e)).add(drafting_case(e.title)).add(size_words(placed, scale));
        row.add(figure(placed.area.bottom)).add(figure(placed.area.top()));
        row.add(placed.handle ? figure(placed.handle->value) : "—");
        for (const char* name : {"space_depth", "space_width", "space_height"})
            row.add(figure(Feet{line(name).value}));
        const Derivation* to_ground = job.study.worksheet.find(e.id + ".to_ground");
        row.add(fmt::format("{} V", trimmed(to_ground == nullptr ? job.system.site.to_neutral.value
                                                                 : to_ground->value,
                                            0)));
        row.add(line("space_depth").cite.section).add(verdict_of(job, e));
        table.rows.push_back(row.row());
    }
    return table;
}

/// A wall at a scale, and the table of what hangs on it.
struct Elevation {
    Frame drawing, title;
    std::vector<Frame> tables;
    Length gap;
    Findings findings; ///< of its lettering
    Length height_of_view() const { return drawing.size.height + gap + title.size.height; }
    Length height() const { return height_of_view() + gap + tables.front().size.height; }
};

Elevation elevation_at(const DrawingScale& scale, const Wall& wall, std::size_t number,
                       const Job& job) {
    Frame title = view_title(fmt::format("{}", number), wall.name, "SCALE " + scale.words, job);
    title.add(scale_bar(scale, inches(2.5), job),
              {title.size.width + job.layout.column_gap, title.size.height / 2});
    Findings findings;
    Frame drawing = WallDrawing(trial_of(job, findings), wall, scale).draw();
    return {std::move(drawing), std::move(title),
            set_table(space_table(job, wall, scale), job.layout.table, job.area.width,
                      job.area.height, true, job.measure),
            job.layout.block_gap, std::move(findings)};
}

/// Where the table would halve the drawing, it goes on a page of its own.
constexpr double least_share = 0.75;

/// The largest scale at which a wall fits the sheet, with its table or without.
std::optional<Elevation> largest(const Wall& wall, std::size_t number, bool with_table,
                                 const Job& job) {
    for (const DrawingScale& scale : job.layout.elevation_scales) {
        Elevation elevation = elevation_at(scale, wall, number, job);
        const Length height = with_table ? elevation.height() : elevation.height_of_view();
        if (elevation.drawing.size.width <= job.area.width && height <= job.area.height)
            return elevation;
    }
    return std::nullopt;
}

Elevation elevation_of(const Wall& wall, std::size_t number, const Job& job) {
    std::optional<Elevation> whole = largest(wall, number, true, job);
    std::optional<Elevation> alone = largest(wall, number, false, job);
    if (whole && whole->drawing.size.width >= scaled(alone->drawing.size.width, least_share))
        return std::move(*whole);
    if (alone)
        return std::move(*alone);
    tell_no_room(job, Severity::error, wall.span,
                 fmt::format("{} is too large for the sheet at every scale", wall.name),
                 "a larger sheet format, or the wall in parts");
    return elevation_at(job.layout.elevation_scales.back(), wall, number, job);
}

} // namespace

std::vector<Frame> elevation_pages(const Job& job) {
    std::vector<Frame> pages;
    std::size_t number = 0;
    for (const Wall& wall : job.system.walls) {
        if (wall.equipment.empty())
            continue;
        const Elevation elevation = elevation_of(wall, ++number, job);
        tell(job, elevation.findings);
        const bool whole = elevation.height() <= job.area.height;
        const Length taken = whole ? elevation.height() : elevation.height_of_view();
        Frame page;
        page.size = job.area;
        // What is left stands above the drawing and, twice as much, below its title.
        const Length spare = std::max(job.area.height - taken, Length{}) / 3;
        page.add(elevation.drawing, {(job.area.width - elevation.drawing.size.width) / 2, spare});
        page.add(elevation.title, {{}, spare + elevation.drawing.size.height + elevation.gap});
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
