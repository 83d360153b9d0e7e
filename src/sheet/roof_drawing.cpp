#include "sheet/roof_drawing.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

#include <fmt/format.h>

#include "base/angle.h"
#include "base/drafting_case.h"
#include "base/text.h"
#include "drawing/dimension.h"
#include "model/sited.h"
#include "sheet/open_room.h"
#include "sheet/roof_dimensions.h"
#include "sheet/roof_lettering.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

constexpr Length fall_arrow = inches(0.34); ///< beside the name of a plane, down its slope

/// Corners of an area on the paper, all on one side of the next.
std::vector<Point> on_paper(const PlanView& view, const RoofFrame& frame, const RoofArea& area) {
    const auto corners = corners_on_plan(frame, area);
    return view.at({corners.begin(), corners.end()});
}

class RoofDrawing {
  public:
    RoofDrawing(const DrawingScale& scale, const Job& job)
        : job_(job), site_(job.system.site), view_(shown_points(site_), scale),
          pathways_(job.study.pathways), style_{.lettering = job.layout.lettering.body} {}

    Frame draw() {
        for (const std::size_t i : described_planes(job_.system))
            planes_.push_back({&site_.roofs[i], frame_of(site_.roofs[i], site_.plan.north),
                               edges_of(site_.roofs[i], site_.plan.north)});
        frame_.add(View{view_.at(PlanPoint{}), "roof plan"}, Role::none);
        for (const Plane& plane : planes_)
            draw_outline(plane);
        for (const Plane& plane : planes_)
            draw_contents(plane);
        draw_routes();
        draw_equipment();
        for (const RoofPathway& pathway : pathways_)
            label_pathway(pathway);
        frame_.add(View{{}, {}, false}, Role::none);
        for (const Plane& plane : planes_)
            dimension(plane);
        // First what has its place beside one mark; the name of a plane may stand anywhere on it.
        for (const Plane& plane : planes_)
            name_objects(plane);
        name_equipment();
        name_routes();
        for (const Plane& plane : planes_)
            name_plane(plane);
        for (const Plane& plane : planes_)
            name_edges(plane);
        for (const auto& [middle, words] : narrow_pathways_)
            lettering_.write_with_leader(middle, {words}, {}, LeaderEnd::dot);
        bring_to_corner(frame_, view_.size(), job_.measure);
        return std::move(frame_);
    }

  private:
    struct Plane {
        const RoofPlane* roof;
        RoofFrame frame;
        std::vector<RoofEdge> edges;
    };

    static std::vector<PlanPoint> shown_points(const Site& site) {
        std::vector<PlanPoint> points;
        for (const RoofPlane& roof : site.roofs)
            points.insert(points.end(), roof.corners.begin(), roof.corners.end());
        return points;
    }

    const TextStyle& style() const { return style_.lettering; }
    bool is_shared(const Plane& plane, const RoofEdge& edge) const {
        return ohmfolio::is_shared(edge, *plane.roof, site_.roofs);
    }

    /// The outside of the roof is drawn wide, what is within it medium.
    void draw_outline(const Plane& plane) {
        for (const RoofEdge& edge : plane.edges) {
            const Point from = view_.at(edge.from), to = view_.at(edge.to);
            const Length pen = is_shared(plane, edge) ? medium_pen : wide_pen;
            frame_.add(polyline({from, to}, {pen}), Role::enclosure);
            room_.take_line(from, to);
        }
    }

    void draw_contents(const Plane& plane) {
        for (const RoofPathway& pathway : pathways_) {
            if (&site_.roofs[pathway.plane] == plane.roof)
                draw_pathway(plane, pathway);
        }
        for (const RoofObject& object : plane.roof->objects) {
            const std::vector<Point> corners = on_paper(view_, plane.frame, object.area);
            frame_.add(closed(corners, {medium_pen}), Role::symbol);
            frame_.add(polyline({corners[0], corners[2]}, {fine_pen}), Role::symbol);
            frame_.add(polyline({corners[1], corners[3]}, {fine_pen}), Role::symbol);
            room_.take(box_of(corners));
        }
        for (const ModuleField& field : plane.roof->fields) {
            for (const SetModule& module : field.modules)
                draw_module(plane, module);
        }
    }

    void draw_module(const Plane& plane, const SetModule& module) {
        const std::string& id = job_.equipment(module.source).id;
        const std::string shows = "equipment:" + id;
        const std::vector<Point> corners = on_paper(view_, plane.frame, module.area);
        Path outline = closed(corners, {thin_pen});
        outline.filled = true;
        outline.fill = white;
        frame_.add(std::move(outline), Role::enclosure, shows);
        const Box box = box_of(corners);
        room_.take(box);
        const Size size = lettering_.size_of({id});
        if (size.width + 2 * points(2) > box.width() || size.height + points(2) > box.height())
            return; // the table has it, and the branch map
        write_line(frame_, {box.centre().x, box.centre().y - job_.measure.cap_height(style()) / 2},
                   id, {style(), Align::centre, black, shows}, job_.measure);
    }

    void draw_pathway(const Plane& plane, const RoofPathway& pathway) {
        const std::vector<Point> corners = on_paper(view_, plane.frame, pathway.area);
        frame_.add(closed(corners, {medium_pen, LineType::dashed}), Role::overlay);
        room_.take(box_of(corners));
    }

    /// Its name along its length, and hatching around the name.
    void label_pathway(const RoofPathway& pathway) {
        const RoofPlane& roof = site_.roofs[pathway.plane];
        const RoofFrame frame = frame_of(roof, site_.plan.north);
        const std::vector<Point> corners = on_paper(view_, frame, pathway.area);
        const Box box = box_of(corners);
        const std::string words = "PATHWAY " + figure(pathway.area.width);
        const Length half = job_.measure.width(words, style()) / 2;
        const Length cap = job_.measure.cap_height(style());
        const Point middle = box.centre();
        Text text{{middle.x - half, middle.y + cap / 2}, words, style()};
        if (box.height() > box.width())
            text = {
                {middle.x + cap / 2, middle.y + half}, words, style(), Align::left, black, true};
        Box clearing = text_box(text, job_.measure).grown(points(2));
        const bool fits = box.grown(points(1)).contains(clearing);
        if (!fits)
            clearing = {};
        for (const Path& line : hatching(corners, hatch_pitch, {fine_pen}))
            hatch_around(line.segments.front().to, line.segments.back().to, clearing);
        if (!fits) {
            narrow_pathways_.emplace_back(middle, words);
            return;
        }
        frame_.add(std::move(text), Role::lettering, "roof:" + roof.name);
    }

    /// Hatching runs at 45 degrees, so that x alone tells where the clearing begins and ends.
    void hatch_around(Point from, Point to, const Box& clearing) {
        if (!crosses(from, to, clearing)) {
            frame_.add(polyline({from, to}, {fine_pen}), Role::overlay);
            return;
        }
        const auto sum = from.x.nm + from.y.nm;
        const Length enters{std::max(clearing.low.x.nm, sum - clearing.high.y.nm)};
        const Length leaves{std::min(clearing.high.x.nm, sum - clearing.low.y.nm)};
        for (const auto& [a, b] : {std::pair{from.x, enters}, std::pair{leaves, to.x}}) {
            if (a < b)
                frame_.add(polyline({{a, Length{sum - a.nm}}, {b, Length{sum - b.nm}}}, {fine_pen}),
                           Role::overlay);
        }
    }

    void draw_routes() {
        for (const Route& route : site_.plan.routes) {
            if (route.way != RouteWay::on_roof)
                continue;
            const std::vector<Point> points = view_.at(route.points);
            const std::string shows = "equipment:" + job_.equipment(route.equipment).id;
            frame_.add(polyline(points, {medium_pen, LineType::short_dashed}), Role::overlay,
                       shows);
            if (!is_on_roof(job_.equipment(route.equipment).parent))
                frame_.add(circle(points.back(), drop_radius, {medium_pen}), Role::overlay, shows);
            for (std::size_t i = 0; i + 1 < points.size(); ++i)
                room_.take_line(points[i], points[i + 1]);
        }
    }

    bool is_on_roof(int equipment) const {
        const SitedEquipment* place = sited(site_.plan, equipment);
        return place != nullptr && place->roof >= 0;
    }

    Box mark_of(const SitedEquipment& sited) const {
        const Length half = inches(0.045);
        const Point at = view_.at(sited.at);
        return {{at.x - half, at.y - half}, {at.x + half, at.y + half}};
    }

    void draw_equipment() {
        for (const SitedEquipment& sited : site_.plan.equipment) {
            if (sited.roof < 0)
                continue;
            const std::string shows = "equipment:" + job_.equipment(sited.equipment).id;
            frame_.add(filled_rectangle(mark_of(sited), black), Role::symbol, shows);
            room_.take(mark_of(sited));
        }
    }

    // ---- lettering --------------------------------------------------------------------------

    /// The outline of the plane as it lies on the sheet, for the test that serves roofs.
    Corners on_sheet(const Plane& plane) const {
        Corners corners;
        for (const Point& point : view_.at(plane.roof->corners))
            corners.push_back({Feet{point.x.in_inches()}, Feet{point.y.in_inches()}});
        return corners;
    }
    static bool lies_within(const Corners& outline, const Box& box) {
        const auto inside = [&](Length x, Length y) {
            return is_inside(outline, {Feet{x.in_inches()}, Feet{y.in_inches()}});
        };
        return inside(box.low.x, box.low.y) && inside(box.high.x, box.low.y) &&
               inside(box.low.x, box.high.y) && inside(box.high.x, box.high.y);
    }

    Length far() const { return std::max(view_.size().width, view_.size().height); }

    /// Name, pitch and facing on the plane itself; the table has them, so that where modules leave
    /// less room the name alone will do.
    void name_plane(const Plane& plane) {
        const std::string pitch = "PITCH " + pitch_words(plane.roof->tilt);
        const std::string faces = fmt::format("FACES {}°", trimmed(plane.roof->azimuth, 0));
        for (const std::vector<std::string>& lines :
             {std::vector{plane.roof->name, pitch, faces}, std::vector{plane.roof->name, pitch},
              std::vector{plane.roof->name}}) {
            if (name_inside(plane, lines))
                return;
        }
        name_outside(plane, {plane.roof->name, pitch, faces});
    }

    Size name_size(const std::vector<std::string>& lines) const {
        const Size words = lettering_.size_of(lines);
        return {words.width + fall_arrow + points(5), std::max(words.height, fall_arrow)};
    }

    /// With the arrow down the slope at the left of the lettering.
    void write_name(const Plane& plane, const Box& box, const std::vector<std::string>& lines) {
        const Size words = lettering_.size_of(lines);
        draw_arrow(plane, {box.low.x + fall_arrow / 2, box.centre().y}, fall_arrow);
        lettering_.write_lines(
            box_at({box.high.x - words.width, box.centre().y - words.height / 2}, words), lines,
            "roof:" + plane.roof->name);
        room_.take(box);
    }

    bool name_inside(const Plane& plane, const std::vector<std::string>& lines) {
        const Box around = box_of(view_.at(plane.roof->corners));
        const Corners outline = on_sheet(plane);
        const auto inside = room_.nearest(
            name_size(lines), around.centre(), std::max(around.width(), around.height()) / 2,
            [&](const Box& box) { return lies_within(outline, box); });
        if (inside)
            write_name(plane, *inside, lines);
        return inside.has_value();
    }

    /// Beyond the eave, with a leader to a free spot of the plane: neither stands on another plane,
    /// which it would seem to name.
    void name_outside(const Plane& plane, const std::vector<std::string>& lines) {
        const Point spot = free_spot(plane);
        const auto box = lettering_.place_beside(name_size(lines), spot, [&](const Box& place) {
            return is_off_the_roof(place) && beyond_eave(plane, place.centre()) >= Length{};
        });
        if (!box) {
            lettering_.tell_no_place(lines.front());
            return;
        }
        write_name(plane, *box, lines);
        lettering_.draw_leader(*box, spot, "roof:" + plane.roof->name, LeaderEnd::dot);
    }

    /// Of the spots clear of modules and lines the nearest to the middle of the eave; rather one
    /// with nothing between it and the eave.
    Point free_spot(const Plane& plane) const {
        const Box around = box_of(view_.at(plane.roof->corners));
        const RoofEdge* eave = eave_of(plane);
        const Point start = eave == nullptr
                                ? around.centre()
                                : box_of({view_.at(eave->from), view_.at(eave->to)}).centre();
        const Corners outline = on_sheet(plane);
        for (const bool open : {true, false}) {
            const auto spot =
                room_.nearest({2 * leader_dot, 2 * leader_dot}, start, far(), [&](const Box& box) {
                    return lies_within(outline, box) && (!open || sees_eave(plane, box.centre()));
                });
            if (spot)
                return spot->centre();
        }
        return around.centre();
    }

    bool sees_eave(const Plane& plane, Point spot) const {
        const Point down = downhill(plane, beyond_eave(plane, spot));
        return room_.is_free_line(spot, spot - down);
    }

    static const RoofEdge* eave_of(const Plane& plane) {
        const auto eave = std::ranges::find(plane.edges, EdgeKind::eave, &RoofEdge::kind);
        return eave == plane.edges.end() ? nullptr : &*eave;
    }
    /// How far down the slope from the eave, on paper; negative within the plane, and nothing
    /// where it has no eave.
    Length beyond_eave(const Plane& plane, Point point) const {
        const RoofEdge* eave = eave_of(plane);
        if (eave == nullptr)
            return {};
        const Point out = point - view_.at(eave->from);
        // On paper y grows downward.
        return scaled(out.y, plane.frame.uphill_y) - scaled(out.x, plane.frame.uphill_x);
    }
    static Point downhill(const Plane& plane, Length length) {
        return {scaled(length, -plane.frame.uphill_x), scaled(length, plane.frame.uphill_y)};
    }

    bool is_off_the_roof(const Box& box) const {
        return std::ranges::none_of(planes_, [&](const Plane& plane) {
            const Box around = box_of(view_.at(plane.roof->corners));
            return around.overlaps(box);
        });
    }

    void draw_arrow(const Plane& plane, Point middle, Length length) {
        // On paper y grows downward.
        const double x = -plane.frame.uphill_x, y = plane.frame.uphill_y;
        const auto at = [&](double along, double across) {
            return Point{middle.x + scaled(length, along * x - across * y),
                         middle.y + scaled(length, along * y + across * x)};
        };
        frame_.add(polyline({at(-0.5, 0), at(0.5, 0)}, {thin_pen}), Role::symbol);
        Path head = closed({at(0.5, 0), at(0.2, 0.1), at(0.2, -0.1)}, {fine_pen});
        head.filled = true;
        frame_.add(std::move(head), Role::symbol);
    }

    /// Ridges, hips and valleys beside their middle, eaves outside; a shared edge is named once.
    void name_edges(const Plane& plane) {
        for (const RoofEdge& edge : plane.edges) {
            if (edge.kind == EdgeKind::rake || edge.kind == EdgeKind::eave ||
                !is_shared(plane, edge))
                continue;
            const PlanPoint middle{(edge.from.x + edge.to.x) / 2, (edge.from.y + edge.to.y) / 2};
            if (!names_
                     .insert({static_cast<int>(edge.kind), std::lround(middle.x.value),
                              std::lround(middle.y.value)})
                     .second)
                continue;
            name_edge(edge);
        }
    }

    /// Along an edge that is upright on the sheet, the name is turned.
    void name_edge(const RoofEdge& edge) {
        const Point from = view_.at(edge.from), to = view_.at(edge.to);
        const std::string words = drafting_case(name(edge.kind));
        const Size size = lettering_.size_of({words});
        const bool upright = from.x == to.x;
        const Size turned{size.height, size.width};
        const Point middle{(from.x + to.x) / 2, (from.y + to.y) / 2};
        const auto box = room_.nearest(upright ? turned : size, middle, far() / 3,
                                       [](const Box&) { return true; });
        if (!box)
            return;
        room_.take(*box);
        write_line_in(frame_, *box, words, upright, {style()}, job_.measure);
    }

    void name_objects(const Plane& plane) {
        for (const RoofObject& object : plane.roof->objects) {
            const Box box = box_of(on_paper(view_, plane.frame, object.area));
            lettering_.write_beside(box, object.name, "roof:" + plane.roof->name);
        }
    }

    void name_equipment() {
        for (const SitedEquipment& sited : site_.plan.equipment) {
            if (sited.roof < 0)
                continue;
            const std::string& id = job_.equipment(sited.equipment).id;
            lettering_.write_beside(mark_of(sited), id, "equipment:" + id);
        }
    }

    /// The tag of the raceway, at the middle of its longest leg.
    void name_routes() {
        for (const Route& route : site_.plan.routes) {
            const int run =
                job_.system.relations.run_from[static_cast<std::size_t>(route.equipment)];
            if (route.way != RouteWay::on_roof || run < 0)
                continue;
            const std::vector<Point> points = view_.at(route.points);
            std::size_t longest = 0;
            const auto extent = [&](std::size_t i) {
                const Box leg = box_of({points[i], points[i + 1]});
                return leg.width() + leg.height();
            };
            for (std::size_t i = 1; i + 1 < points.size(); ++i) {
                if (extent(i) > extent(longest))
                    longest = i;
            }
            const Point middle = box_of({points[longest], points[longest + 1]}).centre();
            lettering_.write_beside({middle, middle},
                                    job_.system.runs[static_cast<std::size_t>(run)].tag,
                                    "run:" + job_.system.runs[static_cast<std::size_t>(run)].tag);
        }
    }

    /// A crew sets modules out to the inch.
    std::string figure(Feet length) const {
        return dimension_figure(length, view_.scale(), Nearest::inch);
    }

    void dimension(const Plane& plane) {
        const auto pathway = std::ranges::find_if(pathways_, [&](const RoofPathway& one) {
            return &site_.roofs[one.plane] == plane.roof;
        });
        const std::size_t before = frame_.marks.size();
        dimension_plane(frame_, *plane.roof, pathway == pathways_.end() ? nullptr : &*pathway,
                        view_, job_);
        room_.take_marks(frame_, before, job_.measure);
    }

    const Job& job_;
    const Site& site_;
    PlanView view_;
    const std::vector<RoofPathway>& pathways_;
    DimensionStyle style_;
    std::vector<Plane> planes_;
    std::vector<std::pair<Point, std::string>> narrow_pathways_; ///< named beside the roof
    std::set<std::tuple<int, long, long>> names_;
    OpenRoom room_{clear_of_lettering};
    Frame frame_;
    RoofLettering lettering_{frame_, room_, job_, far()};
};

} // namespace

Frame draw_roofs(const DrawingScale& scale, const Job& job) {
    return RoofDrawing(scale, job).draw();
}

} // namespace ohmfolio::sheets
