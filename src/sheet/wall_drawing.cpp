#include "sheet/wall_drawing.h"

#include <algorithm>

#include <fmt/format.h>

#include "diagram/interior.h"
#include "drawing/dimension.h"
#include "sheet/view_lettering.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

constexpr Length clear = points(4);
const std::string ceiling_name = "CEILING";

/// Working spaces that touch are one.
std::vector<KeptSpace> joined(std::vector<KeptSpace> spaces) {
    std::ranges::sort(spaces, {}, &KeptSpace::left);
    std::vector<KeptSpace> result;
    for (const KeptSpace& space : spaces) {
        if (result.empty() || space.left > result.back().right) {
            result.push_back(space);
            continue;
        }
        KeptSpace& last = result.back();
        last.right = std::max(last.right, space.right);
        last.height = std::max(last.height, space.height);
        last.depth = std::max(last.depth, space.depth);
    }
    return result;
}

class WallDrawing {
  public:
    WallDrawing(const Job& job, std::size_t wall, const DrawingScale& scale)
        : job_(job), wall_(job.system.walls[wall]), study_(job.study.walls[wall]),
          scale_(scale), style_{.lettering = job.layout.lettering.body},
          pitch_(dimension_pitch(style_, job.measure)), origin_{3 * pitch_ + clear,
                                                                inches(0.2) + paper(wall_.height)},
          lettering_(frame_, {at({}, wall_.height), at(wall_.length, {})}, style_.lettering,
                     job.measure) {}

    WallView draw() {
        const std::vector<KeptSpace> spaces = joined(study_.spaces);
        frame_.add(View{origin_, "wall " + wall_.name}, Role::none);
        draw_wall();
        draw_handle_limit();
        for (const KeptSpace& space : spaces)
            draw_space(space);
        for (const WallObject& object : wall_.objects)
            draw_object(object);
        for (const PlacedEquipment& placed : wall_.equipment)
            draw_equipment(placed);
        frame_.add(View{{}, {}, false}, Role::none);
        letter(spaces);
        const Length low = draw_widths(origin_.y + pitch_ + clear + hatch());
        const Length foot = draw_overall(low + pitch_);
        draw_height(origin_.x - pitch_);
        frame_.size = {origin_.x + paper(wall_.length) + std::max(pitch_, clear + level_width()),
                       foot + clear};
        add_keys();
        return {std::move(frame_), lettering_.unplaced()};
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
    /// What the heights run from.
    std::string datum() const { return scale_.metric ? "±0" : "0'-0\""; }
    std::string datum_name() const {
        return wall_.stands_on == WallDatum::floor ? "FLOOR" : "GRADE";
    }
    bool shows_ceiling() const { return wall_.ceiling && wall_.ceiling->value <= wall_.height; }
    Length level_width() const {
        Length width{};
        for (const std::string& words : {datum_name(), datum(), ceiling_name, ceiling_figure()})
            width = std::max(width, job_.measure.width(words, style_.lettering));
        return width;
    }
    std::string ceiling_figure() const {
        return shows_ceiling() ? figure(wall_.ceiling->value) : std::string();
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
        draw_level({}, datum_name(), datum());
        if (shows_ceiling())
            draw_ceiling();
    }

    void draw_ceiling() {
        const Feet height = wall_.ceiling->value;
        frame_.add(polyline({at({}, height), at(wall_.length, height)}, {medium_pen}),
                   Role::enclosure);
        lettering_.take_line({at({}, height), at(wall_.length, height)});
        draw_level(height, ceiling_name, figure(height));
    }

    /// A level lettered at the right end of the wall: its name over a line, its height under it.
    void draw_level(Feet height, const std::string& name, const std::string& words) {
        const Point from = at(wall_.length, height) + Point{clear, {}};
        const TextStyle& style = style_.lettering;
        const Length gap = points(3);
        frame_.add(polyline({from, from + Point{level_width(), {}}}, {fine_pen}), Role::leader);
        write_line(frame_, {from.x, from.y - gap - job_.measure.cap_height(style)}, name, {style},
                   job_.measure);
        write_line(frame_, {from.x, from.y + gap}, words, {style}, job_.measure);
    }

    /// Over the whole view, behind what hangs on the wall.
    void draw_handle_limit() {
        if (!study_.handles || study_.handles->height > wall_.height)
            return;
        const Box line{at({}, study_.handles->height), at(wall_.length, study_.handles->height)};
        frame_.add(polyline({line.low, line.high}, {fine_pen, LineType::dash_dot}), Role::overlay);
        lettering_.take_line(line);
    }

    /// The face of the working space, behind what hangs in it.
    void draw_space(const KeptSpace& space) {
        const Box face = face_of(space);
        frame_.add(
            polyline({{face.low.x, face.high.y}, face.low, {face.high.x, face.low.y}, face.high},
                     {thin_pen, LineType::dashed}),
            Role::overlay);
        lettering_.take_line({face.low, {face.low.x, face.high.y}});
        lettering_.take_line({{face.high.x, face.low.y}, face.high});
        lettering_.take_line({face.low, {face.high.x, face.low.y}});
    }

    Box face_of(const KeptSpace& space) const {
        return {at(space.left, std::min(space.height, wall_.height)), at(space.right, {})};
    }

    /// Enclosures first: their names may have to stand outside of them.
    void letter(const std::vector<KeptSpace>& spaces) {
        for (const PlacedEquipment& placed : wall_.equipment) {
            const std::string& id = job_.equipment(placed.equipment).id;
            lettering_.name_outline(box(placed.area), id, "equipment:" + id);
        }
        for (const WallObject& object : wall_.objects)
            lettering_.name_outline(box(object.area), object.name, {});
        for (const KeptSpace& space : spaces) {
            lettering_.name_area(
                face_of(space),
                fmt::format("WORKING SPACE {} DEEP, 110.26(A)", figure(space.depth)), {});
        }
        if (study_.handles && study_.handles->height <= wall_.height) {
            const HandleLimit& limit = *study_.handles;
            lettering_.name_line(
                at({}, limit.height), at(wall_.length, limit.height),
                fmt::format("HANDLES AT MOST {}, {}", figure(limit.height), limit.sections), {});
        }
    }

    void add_keys() {
        if (!lettering_.has_keys())
            return;
        const Frame keys = lettering_.keys(frame_.size.width);
        frame_.add(keys, {{}, frame_.size.height + clear});
        frame_.size.height += keys.size.height + 2 * clear;
    }

    void draw_object(const WallObject& object) {
        frame_.add(rectangle(box(object.area), {thin_pen}), Role::enclosure);
        lettering_.take(box(object.area));
    }

    void draw_equipment(const PlacedEquipment& placed) {
        const Equipment& e = job_.equipment(placed.equipment);
        const std::string shows = "equipment:" + e.id;
        const Box outline = box(placed.area);
        frame_.add(filled_rectangle(outline, white), Role::ground, shows);
        const Stroke stroke = e.existing ? diagram::enclosure_stroke(e) : Stroke{wide_pen};
        frame_.add(rectangle(outline, stroke), Role::enclosure, shows);
        lettering_.take(outline);
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
        edges.erase(std::unique(edges.begin(), edges.end(),
                                [](Feet a, Feet b) { return (b - a).value < 0.001; }),
                    edges.end());
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
    const WallStudy& study_;
    const DrawingScale& scale_;
    DimensionStyle style_;
    Length pitch_; ///< of dimension lines
    Point origin_; ///< lower left corner of the wall
    Frame frame_;
    ViewLettering lettering_;
};

} // namespace

WallView draw_wall(const Job& job, std::size_t wall, const DrawingScale& scale) {
    return WallDrawing(job, wall, scale).draw();
}

} // namespace ohmfolio::sheets
