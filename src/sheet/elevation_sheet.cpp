// Walls seen from the front, to scale: grade, enclosures, what else is on the wall, dimensions, and
// the working space that is to be kept free.

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"
#include "drawing/dimension.h"
#include "sheet/pages.h"
#include "sheet/schedule_rows.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

constexpr double inches_per_foot = 12;
const Length clear = points(4);

/// Standard scales of architects, largest first: inches of paper to a foot.
struct Scale {
    double paper_inches;
    std::string_view words;
};
constexpr std::array<Scale, 8> scales = {{{1.5, "1 1/2\" = 1'-0\""},
                                          {1, "1\" = 1'-0\""},
                                          {0.75, "3/4\" = 1'-0\""},
                                          {0.5, "1/2\" = 1'-0\""},
                                          {0.375, "3/8\" = 1'-0\""},
                                          {0.25, "1/4\" = 1'-0\""},
                                          {0.1875, "3/16\" = 1'-0\""},
                                          {0.125, "1/8\" = 1'-0\""}}};

/// One wall at one scale; its lower left corner lies at `origin`.
class WallDrawing {
  public:
    WallDrawing(const Job& job, const Wall& wall, const Scale& scale)
        : job_(job), wall_(wall), scale_(scale) {}

    Frame draw() {
        const TextStyle& body = job_.layout.lettering.body;
        style_.lettering = body;
        const Length pitch = dimension_pitch(style_, job_.measure);
        const Length left = 3 * pitch + clear;
        const Length top = inches(0.1);
        origin_ = {left, top + paper(wall_.height)};
        draw_wall();
        for (const WallObject& object : wall_.objects)
            draw_object(object);
        for (const PlacedEquipment& placed : wall_.equipment)
            draw_space(placed);
        for (const PlacedEquipment& placed : wall_.equipment)
            draw_equipment(placed);
        Length low = draw_widths(origin_.y + pitch + clear);
        low = std::max(low, draw_overall(low + pitch)) + pitch;
        draw_heights(left - pitch);
        const Length width = left + paper(wall_.length) + pitch;
        write_line(frame_, {left, low}, drafting_case(wall_.name), {job_.layout.lettering.heading},
                   job_.measure);
        low += line_pitch(job_.layout.lettering.heading);
        write_line(frame_, {left, low}, fmt::format("SCALE {}", scale_.words), {body},
                   job_.measure);
        low += lettering_height(1, body, job_.measure) + job_.measure.descent(body);
        frame_.size = {width, low};
        return std::move(frame_);
    }

  private:
    Length paper(Feet length) const { return inches(length.value * scale_.paper_inches); }
    Point at(Feet along, Feet height) const {
        return {origin_.x + paper(along), origin_.y - paper(height)};
    }
    Box box(const WallArea& area) const {
        return {at(area.left, area.top()), at(area.right(), area.bottom)};
    }

    void draw_wall() {
        frame_.add(polyline({at({}, {}), at({}, wall_.height), at(wall_.length, wall_.height),
                             at(wall_.length, {})},
                            {thin_pen}),
                   Role::enclosure);
        frame_.add(polyline({at({}, {}), at(wall_.length, {})}, {wide_pen}), Role::enclosure);
    }

    void write_in(const Box& area, const std::vector<std::string>& lines,
                  const std::string& shows) {
        const TextStyle& style = job_.layout.lettering.body;
        std::vector<std::string> set;
        for (const std::string& line : lines) {
            if (job_.measure.width(line, style) + 2 * clear <= area.width())
                set.push_back(line);
        }
        const Length height = lettering_height(static_cast<int>(set.size()), style, job_.measure);
        if (height + 2 * clear > area.height())
            return;
        Length y = area.centre().y - height / 2;
        for (const std::string& line : set) {
            write_line(frame_, {area.centre().x, y}, line, {style, Align::centre, black, shows},
                       job_.measure);
            y += line_pitch(style);
        }
    }

    void draw_object(const WallObject& object) {
        frame_.add(rectangle(box(object.area), {thin_pen}), Role::enclosure);
        write_in(box(object.area), {object.name}, {});
    }

    void draw_equipment(const PlacedEquipment& placed) {
        const Equipment& e = job_.equipment(placed.equipment);
        const std::string shows = "equipment:" + e.id;
        const Box outline = box(placed.area);
        frame_.add(filled_rectangle(outline, white), Role::ground, shows);
        frame_.add(rectangle(outline, {e.existing ? thin_pen : wide_pen}), Role::enclosure, shows);
        write_in(outline, {e.id}, shows);
    }

    const Derivation* needed(const PlacedEquipment& placed, std::string_view line) const {
        return job_.study.worksheet.find(
            fmt::format("{}.{}", job_.equipment(placed.equipment).id, line));
    }

    /// The face of the working space, as wide as it must be, around the middle of the equipment.
    void draw_space(const PlacedEquipment& placed) {
        const Derivation* width = needed(placed, "space_width");
        const Derivation* height = needed(placed, "space_height");
        if (width == nullptr || height == nullptr)
            return;
        const Feet middle = placed.area.left + placed.area.width / 2;
        const Feet half{width->value / 2};
        const Feet most = std::max(wall_.length - 2 * half, Feet{0});
        const Feet left = std::clamp(middle - half, Feet{0}, most);
        const Feet top = std::min(Feet{height->value}, wall_.height);
        frame_.add(polyline({at(left, {}), at(left, top), at(left + 2 * half, top),
                             at(left + 2 * half, {})},
                            {fine_pen, LineType::dashed}),
                   Role::overlay, "equipment:" + job_.equipment(placed.equipment).id);
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
        const auto repeated = std::ranges::unique(
            edges, [](Feet a, Feet b) { return (b - a).value * inches_per_foot < 0.01; });
        edges.erase(repeated.begin(), repeated.end());
        for (std::size_t i = 0; i < edges.size(); ++i) {
            chain.stops.push_back({at(edges[i], {}).x, origin_.y});
            if (i > 0)
                chain.figures.push_back(feet_and_inches(edges[i] - edges[i - 1]));
        }
        return draw_dimensions(frame_, chain, style_, job_.measure);
    }

    Length draw_overall(Length line) {
        return draw_dimensions(frame_,
                               {.line = line,
                                .stops = {{at({}, {}).x, line - style_.gap * 3},
                                          {at(wall_.length, {}).x, line - style_.gap * 3}},
                                .figures = {feet_and_inches(wall_.length)}},
                               style_, job_.measure);
    }

    void draw_heights(Length line) {
        draw_dimensions(frame_,
                        {.vertical = true,
                         .line = line,
                         .stops = {{at({}, wall_.height).y, origin_.x}, {origin_.y, origin_.x}},
                         .figures = {feet_and_inches(wall_.height)}},
                        style_, job_.measure);
    }

    const Job& job_;
    const Wall& wall_;
    const Scale& scale_;
    DimensionStyle style_;
    Point origin_;
    Frame frame_;
};

std::string size_words(const PlacedEquipment& placed) {
    std::string words = fmt::format("{} × {}", feet_and_inches(placed.area.width),
                                    feet_and_inches(placed.area.height));
    if (placed.depth > Feet{0})
        words += " × " + feet_and_inches(placed.depth);
    return words;
}

Table space_table(const Job& job, const Wall& wall) {
    Table table{.title = "Equipment on this wall",
                .columns = {text_column("Tag"), text_column("Equipment", 2.4),
                            text_column("W × H × D"), number_column("Bottom"), number_column("Top"),
                            number_column("Working space depth"), number_column("Width"),
                            number_column("Height"), number_column("To ground"),
                            text_column("Section")},
                .rows = {}};
    for (const PlacedEquipment& placed : wall.equipment) {
        const Equipment& e = job.equipment(placed.equipment);
        const auto line = [&](std::string_view name) {
            return job.study.derivation(fmt::format("{}.{}", e.id, name));
        };
        RowMaker row("equipment:" + e.id);
        row.add(id_with_status(e)).add(drafting_case(e.title)).add(size_words(placed));
        row.add(feet_and_inches(placed.area.bottom)).add(feet_and_inches(placed.area.top()));
        for (const char* name : {"space_depth", "space_width", "space_height"})
            row.add(feet_and_inches(Feet{line(name).value}));
        row.add(fmt::format("{} V", trimmed(job.system.site.to_neutral.value, 0)));
        row.add(text(line("space_depth").cite));
        table.rows.push_back(row.row());
    }
    return table;
}

/// The wall at the largest scale that leaves room for what stands below it.
Frame wall_frame(const Job& job, const Wall& wall, Length height) {
    Frame frame;
    for (const Scale& scale : scales) {
        frame = WallDrawing(job, wall, scale).draw();
        if (frame.size.width <= job.area.width && frame.size.height <= height)
            break;
    }
    return frame;
}

} // namespace

std::vector<Frame> elevation_pages(const Job& job) {
    std::vector<Frame> pages;
    for (const Wall& wall : job.system.walls) {
        if (wall.equipment.empty())
            continue;
        const auto pieces = set_table(space_table(job, wall), job.layout.table, job.area.width,
                                      job.area.height, false, job.measure);
        const Length table = pieces.front().size.height;
        const Frame drawing = wall_frame(job, wall, job.area.height - table - job.layout.block_gap);
        Frame page;
        page.size = job.area;
        page.add(drawing, {(job.area.width - drawing.size.width) / 2, {}});
        page.add(pieces.front(), {{}, job.area.height - table});
        pages.push_back(std::move(page));
    }
    return pages;
}

} // namespace ohmfolio::sheets
