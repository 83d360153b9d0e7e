#include "sheet/roof_dimensions.h"

#include <algorithm>
#include <cmath>
#include <functional>

#include "drawing/dimension.h"

namespace ohmfolio::sheets {

namespace {

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
    stops.erase(std::unique(stops.begin(), stops.end(),
                            [](Feet a, Feet b) { return (b - a).value < 0.05; }),
                stops.end());
}

class PlaneDimensions {
  public:
    PlaneDimensions(Frame& frame, const RoofPlane& plane, const PlanView& view, const Job& job)
        : frame_(frame), plane_(plane), view_(view), job_(job),
          slope_(frame_of(plane, job.system.site.plan.north)),
          edges_(edges_of(plane, job.system.site.plan.north)), style_{
                                                                   .lettering =
                                                                       job.layout.lettering.body} {}

    void draw(const RoofPathway* pathway) {
        const auto lies = square(slope_);
        // Of a plane that is free as a whole the place of its pathway matters where a ladder is set
        // up.
        const bool needed = !plane_.fields.empty() || (pathway != nullptr && plane_.from_street);
        if (!lies || !needed)
            return;
        along(*lies, pathway);
        if (!plane_.fields.empty())
            up(*lies);
    }

  private:
    /// Outside the eave: ends of the plane, of the array, and the pathway.
    void along(const Square& lies, const RoofPathway* pathway) {
        std::vector<Feet> stops;
        const auto stop = [&](Feet from, Feet to) {
            stops.push_back(from);
            stops.push_back(to);
        };
        for (const RoofEdge& edge : edges_) {
            if (edge.kind == EdgeKind::eave)
                stop(slope_.slope(edge.from).along, slope_.slope(edge.to).along);
        }
        for (const ModuleField& field : plane_.fields) {
            const RoofArea area = extent_of(field);
            stop(area.along, area.right());
        }
        if (pathway != nullptr)
            stop(pathway->area.along, pathway->area.right());
        drop_repeated(stops);
        draw_chain(
            lies.sideways, stops,
            [&](Feet along) {
                return view_.at(slope_.plan({along, Feet{0}}));
            },
            view_.at(slope_.plan({Feet{0}, Feet{-1}})));
    }

    /// Beside a rake that no other plane joins: eave, array, ridge, by true lengths up the slope.
    void up(const Square& lies) {
        const auto rake = std::ranges::find_if(edges_, [&](const RoofEdge& edge) {
            return edge.kind == EdgeKind::rake && !is_shared(edge, plane_, job_.system.site.roofs);
        });
        if (rake == edges_.end())
            return;
        std::vector<Feet> stops;
        for (const PlanPoint& corner : {rake->from, rake->to})
            stops.push_back(slope_.slope(corner).up);
        for (const ModuleField& field : plane_.fields) {
            const RoofArea area = extent_of(field);
            stops.push_back(area.up);
            stops.push_back(area.top());
        }
        drop_repeated(stops);
        const Feet along = slope_.slope(rake->from).along;
        const Feet outward = along < extent_of(plane_.fields.front()).along ? Feet{-1} : Feet{1};
        draw_chain(
            !lies.sideways, stops,
            [&](Feet up) {
                return view_.at(slope_.plan({along, up}));
            },
            view_.at(slope_.plan({along + outward, Feet{0}})));
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
            chain.figures.push_back(
                dimension_figure(stops[i + 1] - stops[i], view_.scale(), Nearest::inch));
        if (chain.stops.front().along > chain.stops.back().along) {
            std::ranges::reverse(chain.stops);
            std::ranges::reverse(chain.figures);
        }
        draw_dimensions(frame_, chain, style_, job_.measure);
    }

    Frame& frame_;
    const RoofPlane& plane_;
    const PlanView& view_;
    const Job& job_;
    RoofFrame slope_;
    std::vector<RoofEdge> edges_;
    DimensionStyle style_;
};

} // namespace

void dimension_plane(Frame& frame, const RoofPlane& plane, const RoofPathway* pathway,
                     const PlanView& view, const Job& job) {
    PlaneDimensions(frame, plane, view, job).draw(pathway);
}

} // namespace ohmfolio::sheets
