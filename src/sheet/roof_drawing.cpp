#include "sheet/roof_drawing.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>
#include <tuple>

#include <fmt/format.h>

#include "base/angle.h"
#include "base/drafting_case.h"
#include "base/text.h"
#include "drawing/dimension.h"
#include "sheet/open_room.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

const Length clear = points(4);
const Length hatch_pitch = inches(0.11);
const Length drop_radius = inches(0.04);

/// Corners of an area on the paper, all on one side of the next.
std::vector<Point> on_paper(const PlanView& view, const RoofFrame& frame, const RoofArea& area) {
    const auto corners = corners_on_plan(frame, area);
    return view.at({corners.begin(), corners.end()});
}

Box box_of(const std::vector<Point>& points) {
    Box box{points.front(), points.front()};
    for (const Point& point : points)
        box = united(box, {point, point});
    return box;
}

/// Lengths across the slope of plane, when it lies square on the sheet.
struct Square {
    bool sideways = false; ///< its eave runs up and down the sheet
};
std::optional<Square> square(const RoofFrame& frame) {
    constexpr double nearly = 0.999;
    if (std::abs(frame.right_x) > nearly)
        return Square{false};
    if (std::abs(frame.right_y) > nearly)
        return Square{true};
    return std::nullopt;
}

void drop_repeated(std::vector<Feet>& stops) {
    std::ranges::sort(stops);
    const auto repeated =
        std::ranges::unique(stops, [](Feet a, Feet b) { return (b - a).value < 0.05; });
    stops.erase(repeated.begin(), repeated.end());
}

class RoofDrawing {
  public:
    RoofDrawing(const DrawingScale& scale, const std::vector<Pathway>& pathways, const Job& job)
        : job_(job), site_(job.system.site), view_(shown_points(site_), scale),
          pathways_(pathways), style_{.lettering = job.layout.lettering.body} {}

    Frame draw() {
        for (const std::size_t i : described_planes(job_.system))
            planes_.push_back({&site_.roofs[i], frame_of(site_.roofs[i], site_.plan.north),
                               edges_of(site_.roofs[i], site_.plan.north)});
        for (const Plane& plane : planes_)
            draw_outline(plane);
        for (const Plane& plane : planes_)
            draw_contents(plane);
        draw_routes();
        draw_equipment();
        for (const Pathway& pathway : pathways_)
            label_pathway(pathway);
        for (const Plane& plane : planes_)
            dimension(plane);
        for (const Plane& plane : planes_)
            name_plane(plane);
        for (const Plane& plane : planes_)
            name_edges(plane);
        for (const Plane& plane : planes_)
            name_objects(plane);
        name_equipment();
        name_routes();
        for (const auto& [middle, words] : narrow_pathways_)
            write_with_leader(middle, {words}, {});
        return framed();
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
    Size size_of(const std::vector<std::string>& lines) const {
        Size size{{},
                  lettering_height(static_cast<int>(lines.size()), style(), job_.measure) +
                      job_.measure.descent(style())};
        for (const std::string& line : lines)
            size.width = std::max(size.width, job_.measure.width(line, style()));
        return size;
    }
    void write_lines(const Box& box, const std::vector<std::string>& lines,
                     const std::string& shows) {
        Length y = box.low.y;
        for (const std::string& line : lines) {
            write_line(frame_, {box.centre().x, y}, line, {style(), Align::centre, black, shows},
                       job_.measure);
            y += line_pitch(style());
        }
        room_.take(box);
    }

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
        for (const Pathway& pathway : pathways_) {
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
        const Size size = size_of({id});
        if (size.width + 2 * points(2) > box.width() || size.height + points(2) > box.height())
            return; // the table has it, and the branch map
        write_line(frame_, {box.centre().x, box.centre().y - job_.measure.cap_height(style()) / 2},
                   id, {style(), Align::centre, black, shows}, job_.measure);
    }

    void draw_pathway(const Plane& plane, const Pathway& pathway) {
        const std::vector<Point> corners = on_paper(view_, plane.frame, pathway.area);
        frame_.add(closed(corners, {medium_pen, LineType::dashed}), Role::overlay);
        room_.take(box_of(corners));
    }

    /// Its name along its length, and hatching around the name.
    void label_pathway(const Pathway& pathway) {
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
        return std::ranges::any_of(site_.plan.equipment, [&](const SitedEquipment& sited) {
            return sited.equipment == equipment && sited.roof >= 0;
        });
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

    bool lies_on(const Plane& plane, const Box& box) const {
        const std::vector<Point> outline = view_.at(plane.roof->corners);
        Corners on_sheet; // the same test on paper
        for (const Point& point : outline)
            on_sheet.push_back({Feet{point.x.in_inches()}, Feet{point.y.in_inches()}});
        const auto inside = [&](Length x, Length y) {
            return is_inside(on_sheet, {Feet{x.in_inches()}, Feet{y.in_inches()}});
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
        const Point middle = box_of(view_.at(plane.roof->corners)).centre();
        // Where no name fits, none stands on another plane, which it would seem to name.
        write_with_leader(middle, {plane.roof->name, pitch, faces}, "roof:" + plane.roof->name,
                          [&](const Box& box) { return is_off_the_roof(box); });
    }

    bool is_off_the_roof(const Box& box) const {
        return std::ranges::none_of(planes_, [&](const Plane& plane) {
            const Box around = box_of(view_.at(plane.roof->corners));
            return around.overlaps(box);
        });
    }

    /// With the arrow down the slope at the left of the lettering.
    bool name_inside(const Plane& plane, const std::vector<std::string>& lines) {
        const Length arrow = inches(0.34);
        const Size words = size_of(lines);
        const Size whole{words.width + arrow + points(5), std::max(words.height, arrow)};
        const Point middle = box_of(view_.at(plane.roof->corners)).centre();
        const auto inside = room_.nearest(whole, middle, far(),
                                          [&](const Box& box) { return lies_on(plane, box); });
        if (!inside)
            return false;
        draw_arrow(plane, {inside->low.x + arrow / 2, inside->centre().y}, arrow);
        write_lines(
            box_at({inside->high.x - words.width, inside->centre().y - words.height / 2}, words),
            lines, "roof:" + plane.roof->name);
        room_.take(*inside);
        return true;
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

    /// Lettering that stands where there is room, with a line to what it names.
    void write_with_leader(Point to, const std::vector<std::string>& lines,
                           const std::string& shows,
                           const std::function<bool(const Box&)>& is_allowed = {}) {
        const Size size = size_of(lines);
        const auto box = room_.nearest(size, to, 2 * far(), [&](const Box& place) {
            const Point end = leader_end(place, to);
            return (!is_allowed || is_allowed(place)) && room_.is_free_line(end, to);
        });
        if (!box)
            return;
        write_lines(*box, lines, shows);
        const Point end = leader_end(*box, to);
        frame_.add(polyline({end, to}, {fine_pen}), Role::leader, shows);
        room_.take_line(end, to);
    }

    /// Where a leader leaves its lettering: from the side that faces what it names.
    static Point leader_end(const Box& box, Point to) {
        const Length away = points(2);
        if (to.x < box.low.x)
            return {box.low.x - away, box.centre().y};
        if (to.x > box.high.x)
            return {box.high.x + away, box.centre().y};
        return {box.centre().x, to.y < box.low.y ? box.low.y - away : box.high.y + away};
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
        const Size size = size_of({words});
        const bool upright = from.x == to.x;
        const Size turned{size.height, size.width};
        const Point middle{(from.x + to.x) / 2, (from.y + to.y) / 2};
        const auto box = room_.nearest(upright ? turned : size, middle, far() / 3,
                                       [](const Box&) { return true; });
        if (!box)
            return;
        room_.take(*box);
        if (upright) {
            frame_.add(Text{{box->low.x + job_.measure.cap_height(style()), box->high.y},
                            words,
                            style(),
                            Align::left,
                            black,
                            true},
                       Role::lettering);
        } else {
            write_line(frame_, {box->centre().x, box->low.y}, words, {style(), Align::centre},
                       job_.measure);
        }
    }

    void name_objects(const Plane& plane) {
        for (const RoofObject& object : plane.roof->objects) {
            const Box box = box_of(on_paper(view_, plane.frame, object.area));
            write_beside(box, object.name, {});
        }
    }

    void name_equipment() {
        for (const SitedEquipment& sited : site_.plan.equipment) {
            if (sited.roof < 0)
                continue;
            const std::string& id = job_.equipment(sited.equipment).id;
            write_beside(mark_of(sited), id, "equipment:" + id);
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
            write_beside({middle, middle}, job_.system.runs[static_cast<std::size_t>(run)].tag,
                         "run:" + job_.system.runs[static_cast<std::size_t>(run)].tag);
        }
    }

    /// Right beside it where that is free, else with a leader.
    void write_beside(const Box& box, const std::string& words, const std::string& shows) {
        const Size size = size_of({words});
        const Length half = box.width() / 2 + size.width / 2 + clear + points(2);
        const Length over = box.height() / 2 + size.height / 2 + clear + points(2);
        const Point middle = box.centre();
        for (const Point& at :
             {Point{middle.x + half, middle.y}, Point{middle.x - half, middle.y},
              Point{middle.x, middle.y - over}, Point{middle.x, middle.y + over}}) {
            const Box place{{at.x - size.width / 2, at.y - size.height / 2},
                            {at.x + size.width / 2, at.y + size.height / 2}};
            if (room_.is_free(place)) {
                write_lines(place, {words}, shows);
                return;
            }
        }
        write_with_leader(middle, {words}, shows);
    }

    // ---- dimensions -------------------------------------------------------------------------

    /// A crew sets modules out to the inch.
    std::string figure(Feet length) const {
        return dimension_figure(length, view_.scale(), Nearest::inch);
    }

    const Pathway* pathway_of(const Plane& plane) const {
        const auto found = std::ranges::find_if(pathways_, [&](const Pathway& pathway) {
            return &site_.roofs[pathway.plane] == plane.roof;
        });
        return found == pathways_.end() ? nullptr : &*found;
    }

    void dimension(const Plane& plane) {
        const auto lies = square(plane.frame);
        const Pathway* pathway = pathway_of(plane);
        if (!lies || (plane.roof->fields.empty() && pathway == nullptr))
            return;
        dimension_along(plane, *lies, pathway);
        if (!plane.roof->fields.empty())
            dimension_up(plane, *lies);
    }

    /// Outside the eave: ends of the plane, of the array, and the pathway.
    void dimension_along(const Plane& plane, const Square& lies, const Pathway* pathway) {
        std::vector<Feet> stops;
        const auto stop = [&](Feet from, Feet to) {
            stops.push_back(from);
            stops.push_back(to);
        };
        for (const RoofEdge& edge : plane.edges) {
            if (edge.kind == EdgeKind::eave)
                stop(plane.frame.slope(edge.from).along, plane.frame.slope(edge.to).along);
        }
        for (const ModuleField& field : plane.roof->fields) {
            const RoofArea area = extent_of(field);
            stop(area.along, area.right());
        }
        if (pathway != nullptr)
            stop(pathway->area.along, pathway->area.right());
        drop_repeated(stops);
        draw_chain(
            lies.sideways, stops,
            [&](Feet along) {
                return view_.at(plane.frame.plan({along, Feet{0}}));
            },
            view_.at(plane.frame.plan({Feet{0}, Feet{-1}})));
    }

    /// Beside a rake that no other plane joins: eave, array, ridge, by true lengths up the slope.
    void dimension_up(const Plane& plane, const Square& lies) {
        const auto rake = std::ranges::find_if(plane.edges, [&](const RoofEdge& edge) {
            return edge.kind == EdgeKind::rake && !is_shared(plane, edge);
        });
        if (rake == plane.edges.end())
            return;
        std::vector<Feet> stops;
        for (const PlanPoint& corner : {rake->from, rake->to})
            stops.push_back(plane.frame.slope(corner).up);
        for (const ModuleField& field : plane.roof->fields) {
            const RoofArea area = extent_of(field);
            stops.push_back(area.up);
            stops.push_back(area.top());
        }
        drop_repeated(stops);
        const Feet along = plane.frame.slope(rake->from).along;
        const Feet outward =
            along < extent_of(plane.roof->fields.front()).along ? Feet{-1} : Feet{1};
        draw_chain(
            !lies.sideways, stops,
            [&](Feet up) {
                return view_.at(plane.frame.plan({along, up}));
            },
            view_.at(plane.frame.plan({along + outward, Feet{0}})));
    }

    /// A string on the side of the stops where `outside` is.
    void draw_chain(bool vertical, const std::vector<Feet>& stops,
                    const std::function<Point(Feet)>& at, Point outside) {
        const auto along = [&](Point p) { return vertical ? p.y : p.x; };
        const auto across = [&](Point p) { return vertical ? p.x : p.y; };
        const Point first = at(stops.front());
        const int side = across(outside) < across(first) ? -1 : 1;
        DimensionString chain{.vertical = vertical,
                              .line = across(first) + side * dimension_pitch(style_, job_.measure),
                              .stops = {},
                              .figures = {}};
        for (const Feet stop : stops)
            chain.stops.push_back({along(at(stop)), across(first)});
        for (std::size_t i = 0; i + 1 < stops.size(); ++i)
            chain.figures.push_back(figure(stops[i + 1] - stops[i]));
        if (chain.stops.front().along > chain.stops.back().along) {
            std::ranges::reverse(chain.stops);
            std::ranges::reverse(chain.figures);
        }
        const std::size_t before = frame_.marks.size();
        draw_dimensions(frame_, chain, style_, job_.measure);
        room_.take_marks(frame_, before, job_.measure);
    }

    /// Brought into the corner of a frame as large as all of its marks.
    Frame framed() {
        Box all{{}, {view_.size().width, view_.size().height}};
        for (const Mark& mark : frame_.marks) {
            if (const auto* path = std::get_if<Path>(&mark.item))
                all = united(all, bounds(*path));
            if (const auto* text = std::get_if<Text>(&mark.item))
                all = united(all, text_box(*text, job_.measure));
        }
        all = all.grown(points(2));
        Frame whole;
        whole.add(frame_, {-all.low.x, -all.low.y});
        whole.size = {all.width(), all.height()};
        return whole;
    }

    const Job& job_;
    const Site& site_;
    PlanView view_;
    const std::vector<Pathway>& pathways_;
    DimensionStyle style_;
    std::vector<Plane> planes_;
    std::vector<std::pair<Point, std::string>> narrow_pathways_; ///< named beside the roof
    std::set<std::tuple<int, long, long>> names_;
    OpenRoom room_{clear};
    Frame frame_;
};

} // namespace

std::vector<std::size_t> described_planes(const System& system) {
    std::vector<std::size_t> planes;
    for (std::size_t i = 0; i < system.site.roofs.size(); ++i) {
        if (!system.site.roofs[i].corners.empty())
            planes.push_back(i);
    }
    return planes;
}

std::vector<Pathway> pathways(const System& system, Feet needed_width) {
    constexpr double rounding = 1e-6;
    const double north = system.site.plan.north;
    std::vector<Pathway> found;
    for (const std::size_t i : described_planes(system)) {
        const RoofPlane& plane = system.site.roofs[i];
        if (plane.fields.empty() && !plane.from_street)
            continue;
        const std::vector<FreeStrip> strips = free_strips(plane, north);
        const auto widest = std::ranges::max_element(strips, {}, &FreeStrip::width);
        if (widest == strips.end() || widest->width().value + rounding < needed_width.value)
            continue;
        Feet eave{0}, ridge{0};
        const RoofFrame frame = frame_of(plane, north);
        for (const PlanPoint& corner : plane.corners)
            ridge = std::max(ridge, frame.slope(corner).up);
        // Along the left end where the strip begins there, else along its right end: away from
        // the modules.
        const Feet left =
            widest->left.value < rounding ? widest->left : widest->right - needed_width;
        found.push_back({i, {left, eave, needed_width, ridge - eave}});
    }
    return found;
}

std::string pitch_words(double tilt) {
    constexpr double run = 12;
    const double rise = run * sine(Degrees{tilt}) / cosine(Degrees{tilt});
    return fmt::format("{}:12", trimmed(rise, 1));
}

Frame roof_legend(const std::vector<Pathway>& pathways, Length width, const Job& job) {
    const Size sample{inches(0.55), inches(0.16)};
    const Box box{{}, {sample.width, sample.height}};
    const std::vector<Point> corners = {
        box.low, {box.high.x, box.low.y}, box.high, {box.low.x, box.high.y}};
    const Point left{{}, sample.height / 2}, right{sample.width, sample.height / 2};
    Frame module, pathway, raceway, drop, device, object;
    module.add(rectangle(box, {thin_pen}), Role::enclosure);
    pathway.add(closed(corners, {medium_pen, LineType::dashed}), Role::overlay);
    for (Path& line : hatching(corners, hatch_pitch, {fine_pen}))
        pathway.add(std::move(line), Role::overlay);
    raceway.add(polyline({left, right}, {medium_pen, LineType::short_dashed}), Role::overlay);
    const Length half = sample.height / 2;
    const Box small{{sample.width / 2 - half, {}}, {sample.width / 2 + half, sample.height}};
    drop.add(circle(box.centre(), drop_radius, {medium_pen}), Role::overlay);
    device.add(filled_rectangle(Box{small.low, small.high}.grown(-inches(0.035)), black),
               Role::symbol);
    object.add(rectangle(small, {medium_pen}), Role::symbol);
    object.add(polyline({small.low, small.high}, {fine_pen}), Role::symbol);
    object.add(polyline({{small.low.x, small.high.y}, {small.high.x, small.low.y}}, {fine_pen}),
               Role::symbol);

    const Site& site = job.system.site;
    const auto on_roof = [](const Route& route) { return route.way == RouteWay::on_roof; };
    const auto has_objects = [](const RoofPlane& plane) { return !plane.objects.empty(); };
    const auto is_sited = [](const SitedEquipment& e) { return e.roof >= 0; };
    const std::vector<std::tuple<bool, const Frame*, std::string_view>> entries = {
        {true, &module, "PV module with its branch or string"},
        {!pathways.empty(), &pathway, "Pathway, kept free"},
        {std::ranges::any_of(site.plan.routes, on_roof), &raceway, "Raceway on the roof, by tag"},
        {std::ranges::any_of(site.plan.routes, on_roof), &drop, "Its way down to equipment below"},
        {std::ranges::any_of(site.plan.equipment, is_sited), &device, "Equipment on the roof"},
        {std::ranges::any_of(site.roofs, has_objects), &object, "Vent, skylight or the like"}};
    Frame legend = block_heading("Marks of this plan", width, job.layout, job.measure);
    const Length pitch = std::max(sample.height, line_pitch(job.layout.lettering.body)) + points(4);
    for (const auto& [occurs, frame, words] : entries) {
        if (!occurs)
            continue;
        const Length top = legend.size.height + points(4);
        legend.add(*frame, {{}, top});
        const Length capitals = job.measure.cap_height(job.layout.lettering.body);
        write_line(legend, {sample.width + points(8), top + (sample.height - capitals) / 2},
                   drafting_case(std::string(words)), {job.layout.lettering.body}, job.measure);
        legend.size.height += pitch;
    }
    return legend;
}

Frame draw_roofs(const DrawingScale& scale, const std::vector<Pathway>& pathways, const Job& job) {
    return RoofDrawing(scale, pathways, job).draw();
}

} // namespace ohmfolio::sheets
