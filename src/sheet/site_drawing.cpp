#include "sheet/site_drawing.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"
#include "drawing/dimension.h"
#include "model/roof_geometry.h"
#include "sheet/no_room.h"
#include "sheet/open_room.h"
#include "sheet/site_call_outs.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

constexpr Length clear = points(4);

Box mark_at(Point at, Length half) {
    return {{at.x - half, at.y - half}, {at.x + half, at.y + half}};
}

/// Open where it was there before this work.
Path equipment_mark(Point at, Length half, bool existing) {
    Path mark = rectangle(mark_at(at, half), {thin_pen});
    mark.filled = true;
    mark.fill = existing ? white : black;
    return mark;
}

Stroke route_stroke(RouteWay way) {
    switch (way) {
    case RouteWay::in_attic:
        return {medium_pen, LineType::dashed};
    case RouteWay::buried:
        return {medium_pen, LineType::dash_dot};
    case RouteWay::on_roof:
    case RouteWay::on_wall:
        break;
    }
    return {medium_pen, LineType::short_dashed};
}

/// Left, right, lower and upper bounds of areas.
struct Extent {
    PlanPoint low, high;
};
Extent extent_of(const std::vector<PlanPoint>& points) {
    Extent extent{points.front(), points.front()};
    for (const PlanPoint& point : points) {
        extent.low = {std::min(extent.low.x, point.x), std::min(extent.low.y, point.y)};
        extent.high = {std::max(extent.high.x, point.x), std::max(extent.high.y, point.y)};
    }
    return extent;
}

/// Four corners, each side along the sheet or up it.
bool is_square_to_sheet(const Corners& corners) {
    if (corners.size() != 4)
        return false;
    for (std::size_t i = 0; i < 4; ++i) {
        const PlanPoint a = corners[i], b = corners[(i + 1) % 4];
        if (a.x != b.x && a.y != b.y)
            return false;
    }
    return true;
}

std::vector<PlanPoint> all_points(const Site& site) {
    std::vector<PlanPoint> points = site.plan.parcel;
    for (const auto* areas : {&site.plan.buildings, &site.plan.areas}) {
        for (const PlanArea& area : *areas)
            points.insert(points.end(), area.corners.begin(), area.corners.end());
    }
    for (const RoofPlane& roof : site.roofs)
        points.insert(points.end(), roof.corners.begin(), roof.corners.end());
    for (const PlanLine& street : site.plan.streets) {
        points.push_back(street.from);
        points.push_back(street.to);
    }
    for (const SitedEquipment& sited : site.plan.equipment)
        points.push_back(sited.at);
    return points;
}

class SiteDrawing {
  public:
    SiteDrawing(const DrawingScale& scale, const Job& job)
        : job_(job), site_(job.system.site),
          view_(all_points(site_), scale), style_{.lettering = job.layout.lettering.body} {}

    Frame draw(Length height) {
        frame_.add(View{view_.at(PlanPoint{}), "site plan"}, Role::none);
        draw_areas();
        draw_buildings();
        draw_routes();
        draw_marks();
        draw_parcel();
        frame_.add(View{{}, {}, false}, Role::none);
        draw_dimensions_around();
        name_property_lines();
        name_areas();
        name_streets();
        const Point moved = bring_to_corner(frame_, view_.size(), job_.measure);
        std::vector<MarginNote> notes = call_outs(view_, arrays_, job_);
        for (MarginNote& note : notes)
            note.anchor = note.anchor + moved;
        const MarginStyle margins{job_.layout.lettering.body, job_.layout.lettering.strong,
                                  inches(0.35), inches(0.16), height};
        return with_margin_notes(frame_, notes, margins, job_.measure).frame;
    }

  private:
    const TextStyle& style() const { return style_.lettering; }
    std::string figure(Feet length) const {
        return dimension_figure(length, view_.scale(), Nearest::inch);
    }
    Size size_of(const std::string& words) const {
        return {job_.measure.width(words, style()),
                lettering_height(1, style(), job_.measure) + job_.measure.descent(style())};
    }
    void write_in(const Box& box, const std::string& words, bool upright) {
        write_line_in(frame_, box, words, upright, {style()}, job_.measure);
        room_.take(box);
    }

    void draw_areas() {
        for (const PlanArea& area : site_.plan.areas) {
            room_.take_outline(view_.at(area.corners));
            for (std::size_t i = 0; i < area.corners.size(); ++i) {
                const PlanPoint from = area.corners[i];
                const PlanPoint to = area.corners[(i + 1) % area.corners.size()];
                if (!is_property_line(from, to))
                    frame_.add(polyline({view_.at(from), view_.at(to)}, {thin_pen}),
                               Role::enclosure);
            }
        }
    }

    /// An area that reaches to the edge of the parcel leaves that to the property line.
    bool is_property_line(PlanPoint from, PlanPoint to) const {
        RoofPlane edge, parcel;
        edge.corners = {from, to};
        parcel.corners = site_.plan.parcel;
        return are_adjacent(edge, parcel);
    }

    void draw_buildings() {
        const double north = site_.plan.north;
        for (const PlanArea& building : site_.plan.buildings) {
            frame_.add(closed(view_.at(building.corners), {wide_pen}), Role::enclosure);
            room_.take_outline(view_.at(building.corners));
        }
        for (const RoofPlane& roof : site_.roofs) {
            if (roof.corners.empty())
                continue;
            frame_.add(closed(view_.at(roof.corners), {fine_pen}), Role::enclosure);
            room_.take_outline(view_.at(roof.corners));
            const RoofFrame frame = frame_of(roof, north);
            for (const ModuleField& field : roof.fields) {
                for (const SetModule& module : field.modules)
                    draw_module(roof, frame, module);
            }
        }
    }

    void draw_module(const RoofPlane& roof, const RoofFrame& frame, const SetModule& module) {
        const auto corners = corners_on_plan(frame, module.area);
        const std::vector<Point> on_paper = view_.at(Corners(corners.begin(), corners.end()));
        Path outline = closed(on_paper, {thin_pen});
        outline.filled = true;
        outline.fill = white;
        frame_.add(std::move(outline), Role::enclosure,
                   "equipment:" + job_.equipment(module.source).id);
        const Box box = box_of(on_paper);
        room_.take(box);
        const auto [array, first] = arrays_.emplace(&roof, box);
        if (!first)
            array->second = united(array->second, box);
    }

    void draw_routes() {
        for (const Route& route : site_.plan.routes) {
            const std::vector<Point> points = view_.at(route.points);
            frame_.add(polyline(points, route_stroke(route.way)), Role::overlay,
                       "equipment:" + job_.equipment(route.equipment).id);
            for (std::size_t i = 0; i + 1 < points.size(); ++i)
                room_.take_line(points[i], points[i + 1]);
        }
    }

    void draw_marks() {
        const Length half = mark_half(view_, job_);
        for (const SitedEquipment& sited : site_.plan.equipment) {
            const Point at = view_.at(sited.at);
            const Equipment& e = job_.equipment(sited.equipment);
            frame_.add(equipment_mark(at, half, e.existing), Role::symbol, "equipment:" + e.id);
            room_.take(mark_at(at, half));
        }
    }

    void draw_parcel() {
        if (site_.plan.parcel.empty())
            return;
        const std::vector<Point> points = view_.at(site_.plan.parcel);
        frame_.add(closed(points, {medium_pen, LineType::phantom}), Role::enclosure);
        room_.take_outline(points);
    }

    /// Each with its length, along it on the inside.
    void name_property_lines() {
        const Corners& corners = site_.plan.parcel;
        const std::vector<Point> points = view_.at(corners);
        for (std::size_t i = 0; i < corners.size(); ++i) {
            const PlanPoint a = corners[i], b = corners[(i + 1) % corners.size()];
            const Feet length{std::hypot((b.x - a.x).value, (b.y - a.y).value)};
            name_property_line(points[i], points[(i + 1) % points.size()],
                               "PROPERTY LINE " + figure(length));
        }
    }

    void name_property_line(Point from, Point to, const std::string& words) {
        const bool upright = std::abs((to.y - from.y).nm) > std::abs((to.x - from.x).nm);
        const Size level = size_of(words);
        const Size size = upright ? Size{level.height, level.width} : level;
        Point middle{(from.x + to.x) / 2, (from.y + to.y) / 2};
        // Leaders cross the sides of the parcel; their names stand at the foot.
        if (upright)
            middle.y = std::max(from.y, to.y) - size.height / 2 - inches(0.3);
        const Box whole{{}, {view_.size().width, view_.size().height}};
        auto box = room_.nearest(size, middle, whole.width(),
                                 [&](const Box& place) { return whole.contains(place); });
        if (!box) // beyond the line, where a small parcel has no room within
            box = room_.nearest(size, middle, whole.width(), [](const Box&) { return true; });
        if (box)
            write_in(*box, words, upright);
        else
            tell_no_room(job_, Severity::warning, site_.plan.span,
                         fmt::format("\"{}\" finds no room on the site plan", words),
                         "a larger sheet format");
    }

    /// Beside the building leaders run level: what lies there is named where it reaches beyond it.
    Point name_place(const Box& around) const {
        Point place = around.centre();
        for (const PlanArea& building : site_.plan.buildings) {
            const Extent extent = extent_of(building.corners);
            const Length top = view_.at(extent.high).y, foot = view_.at(extent.low).y;
            const bool beside =
                around.low.x >= view_.at(extent.high).x || around.high.x <= view_.at(extent.low).x;
            if (beside && place.y > top && place.y < foot) {
                const bool below = around.high.y - foot > top - around.low.y;
                place.y = below ? (foot + around.high.y) / 2 : (around.low.y + top) / 2;
            }
        }
        return place;
    }

    void name_areas() {
        for (const auto* areas : {&site_.plan.areas, &site_.plan.buildings}) {
            for (const PlanArea& area : *areas) {
                const Extent extent = extent_of(area.corners);
                const Box around{view_.at({extent.low.x, extent.high.y}),
                                 view_.at({extent.high.x, extent.low.y})};
                const auto box =
                    room_.nearest(size_of(area.name), name_place(around), around.height(),
                                  [&](const Box& place) { return around.contains(place); });
                if (box)
                    write_in(*box, area.name, false);
            }
        }
    }

    /// Beyond the edge, away from the parcel.
    void name_streets() {
        const Box whole{{}, {view_.size().width, view_.size().height}};
        for (const PlanLine& street : site_.plan.streets) {
            const Point from = view_.at(street.from), to = view_.at(street.to);
            frame_.add(polyline({from, to}, {medium_pen, LineType::phantom}), Role::enclosure);
            const bool upright = std::abs((to.y - from.y).nm) > std::abs((to.x - from.x).nm);
            const TextStyle& heading = job_.layout.lettering.heading;
            const Length cap = job_.measure.cap_height(heading);
            const Length width = job_.measure.width(street.name, heading);
            const Point middle{(from.x + to.x) / 2, (from.y + to.y) / 2};
            const int out =
                (upright ? middle.x : middle.y) * 2 < (upright ? whole.width() : whole.height())
                    ? -1
                    : 1;
            const Length away = inches(0.2) + cap / 2;
            const Size size = upright ? Size{cap, width} : Size{width, cap};
            const Point wanted = upright ? Point{middle.x + out * away, middle.y}
                                         : Point{middle.x, middle.y + out * away};
            const auto box = room_.nearest(size, wanted, whole.width(), [&](const Box& place) {
                return !whole.overlaps(place);
            });
            if (!box)
                continue;
            room_.take(*box);
            if (upright) {
                frame_.add(
                    Text{
                        {box->high.x, box->high.y}, street.name, heading, Align::left, black, true},
                    Role::lettering);
            } else {
                write_line(frame_, box->low, street.name, {heading}, job_.measure);
            }
        }
    }

    /// Chains at the foot and at a side: from property line to building to property line.
    void draw_dimensions_around() {
        std::vector<PlanPoint> corners;
        for (const PlanArea& building : site_.plan.buildings)
            corners.insert(corners.end(), building.corners.begin(), building.corners.end());
        if (corners.empty())
            return;
        // Up the sheet on the side that has fewer call-outs.
        const auto right = std::ranges::count_if(site_.plan.equipment, [&](const auto& sited) {
            return view_.at(sited.at).x * 2 > view_.size().width;
        });
        const bool at_left = right * 2 > std::ssize(site_.plan.equipment);
        chain(corners, false, false);
        chain(corners, true, at_left);
    }

    /// Where the building comes nearest to the chain, at one of the ends of its extent.
    static PlanPoint nearest_corner(const std::vector<PlanPoint>& corners, Feet at, bool vertical,
                                    bool at_left) {
        PlanPoint nearest = corners.front();
        bool found = false;
        for (const PlanPoint& corner : corners) {
            const bool there = (vertical ? corner.y : corner.x) == at;
            const bool nearer = !vertical ? corner.y < nearest.y
                                : at_left ? corner.x < nearest.x
                                          : corner.x > nearest.x;
            if (there && (!found || nearer)) {
                nearest = corner;
                found = true;
            }
        }
        return nearest;
    }

    void chain(const std::vector<PlanPoint>& corners, bool vertical, bool at_left) {
        const Extent buildings = extent_of(corners);
        const auto along = [&](PlanPoint p) { return vertical ? p.y : p.x; };
        const bool square = is_square_to_sheet(site_.plan.parcel);
        const Length edge = !vertical ? view_.size().height
                            : at_left ? Length{}
                                      : view_.size().width;
        const Length pitch = dimension_pitch(style_, job_.measure);
        struct Stop {
            Feet at;
            bool of_building;
        };
        std::vector<Stop> stops = {{along(buildings.low), true}, {along(buildings.high), true}};
        if (square) {
            const Extent parcel = extent_of(site_.plan.parcel);
            stops.insert(stops.begin(), {along(parcel.low), false});
            stops.push_back({along(parcel.high), false});
        }
        DimensionString string{.vertical = vertical,
                               .line = at_left ? edge - pitch : edge + pitch,
                               .stops = {},
                               .figures = {}};
        for (const Stop& stop : stops) {
            const Point at =
                view_.at(stop.of_building ? nearest_corner(corners, stop.at, vertical, at_left)
                                          : PlanPoint{stop.at, stop.at});
            const Length object = stop.of_building ? (vertical ? at.x : at.y) : edge;
            string.stops.push_back({vertical ? at.y : at.x, object});
        }
        for (std::size_t i = 0; i + 1 < stops.size(); ++i)
            string.figures.push_back(figure(stops[i + 1].at - stops[i].at));
        if (vertical) { // up the sheet, and stops run down it
            std::ranges::reverse(string.stops);
            std::ranges::reverse(string.figures);
        }
        const std::size_t before = frame_.marks.size();
        draw_dimensions(frame_, string, style_, job_.measure);
        room_.take_marks(frame_, before, job_.measure);
    }

    const Job& job_;
    const Site& site_;
    PlanView view_;
    DimensionStyle style_;
    ArrayBoxes arrays_;
    OpenRoom room_{clear};
    Frame frame_;
};

} // namespace

Frame draw_site(const DrawingScale& scale, Length height, const Job& job) {
    return SiteDrawing(scale, job).draw(height);
}

Frame site_legend(const Job& job) {
    const Size sample{inches(0.7), inches(0.16)};
    const SitePlan& plan = job.system.site.plan;
    const auto runs = [&](std::initializer_list<RouteWay> ways) {
        return std::ranges::any_of(plan.routes, [&](const Route& route) {
            return std::ranges::find(ways, route.way) != ways.end();
        });
    };
    const std::vector<std::tuple<bool, Stroke, std::string_view>> lines = {
        {!plan.parcel.empty(), {medium_pen, LineType::phantom}, "Property line"},
        {!plan.buildings.empty(), {wide_pen}, "Outer wall"},
        {!job.system.site.roofs.empty(), {fine_pen}, "Roof edge, ridge, hip, valley"},
        {runs({RouteWay::on_roof, RouteWay::on_wall}), route_stroke(RouteWay::on_roof),
         "Conduit on roof or wall"},
        {runs({RouteWay::in_attic}), route_stroke(RouteWay::in_attic), "Conduit in the attic"},
        {runs({RouteWay::buried}), route_stroke(RouteWay::buried), "Conduit, buried"}};
    const TextStyle& style = job.layout.lettering.body;
    Length width{};
    for (const auto& [occurs, stroke, words] : lines)
        width = std::max(width, job.measure.width(drafting_case(std::string(words)), style));
    width += sample.width + points(8);
    Frame legend = block_heading("Lines of this plan", width, job.layout, job.measure);
    legend.size.width = width;
    for (const auto& [occurs, stroke, words] : lines) {
        if (!occurs)
            continue;
        const Length middle = legend.size.height + points(4) + sample.height / 2;
        legend.add(polyline({{{}, middle}, {sample.width, middle}}, stroke), Role::overlay);
        write_line(legend, {sample.width + points(8), middle - job.measure.cap_height(style) / 2},
                   drafting_case(std::string(words)), {style}, job.measure);
        legend.size.height += std::max(sample.height, line_pitch(style)) + points(4);
    }
    const auto stands = [&](bool existing) {
        return std::ranges::any_of(plan.equipment, [&](const SitedEquipment& sited) {
            return job.equipment(sited.equipment).existing == existing;
        });
    };
    for (const bool existing : {false, true}) {
        if (!stands(existing))
            continue;
        const Length middle = legend.size.height + points(4) + sample.height / 2;
        const Point at{sample.width / 2, middle};
        legend.add(equipment_mark(at, usual_mark_half, existing), Role::symbol);
        write_line(legend, {sample.width + points(8), middle - job.measure.cap_height(style) / 2},
                   drafting_case(existing ? "Equipment, existing" : "Equipment, new"), {style},
                   job.measure);
        legend.size.height += std::max(sample.height, line_pitch(style)) + points(4);
    }
    return legend;
}

} // namespace ohmfolio::sheets
