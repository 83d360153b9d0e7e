#include "sheet/building_plan.h"

#include <algorithm>
#include <cstdlib>

#include "sheet/plan_view.h"
#include "sheet/writing.h"

#include "model/roof_geometry.h"
#include "model/sited.h"

namespace ohmfolio::sheets {

namespace {

constexpr Length mark_half = inches(0.06);
constexpr Length between_marks = inches(0.04);

/// Equipment and where it is on the plan.
struct Place {
    int equipment;
    Point at;
};

std::vector<PlanPoint> corners_of(const Site& site) {
    std::vector<PlanPoint> points;
    for (const PlanArea& building : site.plan.buildings)
        points.insert(points.end(), building.corners.begin(), building.corners.end());
    for (const RoofPlane& roof : site.roofs)
        points.insert(points.end(), roof.corners.begin(), roof.corners.end());
    return points;
}

/// The scale at which all of `points` fill `most`.
DrawingScale filling(const std::vector<PlanPoint>& points, Size most) {
    constexpr double one_to_one = 1;
    const Size full = PlanView(points, {"", one_to_one, false}).size();
    const auto share = [](Length room, Length needed) {
        return needed.nm == 0 ? 1.0 : static_cast<double>(room.nm) / static_cast<double>(needed.nm);
    };
    return {"", std::min(share(most.width, full.width), share(most.height, full.height)), false};
}

class Drawing {
  public:
    Drawing(Size most, const TextStyle& lettering, std::string shows, const Job& job)
        : job_(job), site_(job.system.site), style_(lettering), shows_(std::move(shows)),
          view_(corners_of(site_), filling(corners_of(site_), most)) {}

    BuildingPlan draw(const std::vector<int>& equipment, bool named) {
        draw_building();
        find_marks(equipment);
        for (const Place& mark : marks_)
            frame_.add(filled_rectangle({{mark.at.x - mark_half, mark.at.y - mark_half},
                                         {mark.at.x + mark_half, mark.at.y + mark_half}},
                                        black),
                       Role::symbol, shows_);
        Length left{}, right = view_.size().width;
        if (named) {
            left = write_names(true);
            right = write_names(false);
        }
        BuildingPlan plan;
        plan.frame.add(frame_, {-left, {}});
        plan.frame.size = {right - left, view_.size().height};
        for (const Place& mark : marks_)
            plan.marks.push_back({mark.at.x - left, mark.at.y});
        return plan;
    }

  private:
    void draw_building() {
        for (const RoofPlane& roof : site_.roofs) {
            if (!roof.corners.empty())
                frame_.add(closed(view_.at(roof.corners), {thin_pen}), Role::symbol, shows_);
        }
        const bool roofs = std::ranges::any_of(
            site_.roofs, [](const RoofPlane& roof) { return !roof.corners.empty(); });
        for (const PlanArea& building : site_.plan.buildings) {
            if (!roofs)
                frame_.add(closed(view_.at(building.corners), {medium_pen}), Role::symbol, shows_);
        }
        for (const RoofPlane& roof : site_.roofs) {
            for (const ModuleField& field : roof.fields)
                draw_modules(roof, field);
        }
    }

    /// Modules are hatched, one by one, so that an array shows its own outline.
    void draw_modules(const RoofPlane& roof, const ModuleField& field) {
        const RoofFrame frame = frame_of(roof, site_.plan.north);
        for (const SetModule& module : field.modules) {
            const auto corners = corners_on_plan(frame, module.area);
            const auto points = view_.at(Corners(corners.begin(), corners.end()));
            Path outline = closed(points, {fine_pen});
            outline.filled = true;
            outline.fill = Color{200, 200, 200};
            frame_.add(std::move(outline), Role::symbol, shows_);
        }
    }

    void find_marks(const std::vector<int>& equipment) {
        for (const int e : equipment) {
            if (const SitedEquipment* place = sited(site_.plan, e))
                marks_.push_back({e, view_.at(place->at)});
        }
        part_marks();
    }

    /// Where marks would run into one another they stand apart, each moved as far as the other,
    /// in the order in which the equipment stands. What parts two may bring a third near, so that
    /// it takes rounds, each with less to do.
    void part_marks() {
        constexpr int rounds = 20;
        const Length least = 2 * mark_half + between_marks;
        for (int round = 0; round < rounds; ++round) {
            for (std::size_t i = 0; i < marks_.size(); ++i) {
                for (std::size_t j = i + 1; j < marks_.size(); ++j)
                    part(marks_[i].at, marks_[j].at, least);
            }
        }
    }

    /// Along the way on which they are farther apart already.
    static void part(Point& a, Point& b, Length least) {
        const bool sideways = std::abs((b.x - a.x).nm) > std::abs((b.y - a.y).nm);
        Length& one = sideways ? a.x : a.y;
        Length& other = sideways ? b.x : b.y;
        const Length apart{std::abs((other - one).nm)};
        if (apart >= least)
            return;
        const Length move = (least - apart) / 2;
        (one <= other ? one : other) -= move;
        (one <= other ? other : one) += move;
    }

    /// Names of what is nearer to that side, one below the other in the order of their places, with
    /// leaders; returns how far they reach.
    Length write_names(bool left) {
        const Length edge = left ? Length{} : view_.size().width;
        std::vector<Place> side;
        for (const Place& mark : marks_) {
            if ((mark.at.x * 2 < view_.size().width) == left)
                side.push_back(mark);
        }
        if (side.empty())
            return edge;
        std::ranges::stable_sort(side, {}, [](const Place& mark) { return mark.at.y.nm; });
        const Length pitch = line_pitch(style_);
        const Length cap = job_.measure.cap_height(style_);
        const Length height = pitch * (static_cast<int>(side.size()) - 1) + cap;
        const Length middle = (side.front().at.y + side.back().at.y) / 2;
        const Length highest = std::max(view_.size().height - height, Length{});
        Length y = std::clamp(middle - height / 2, Length{}, highest);
        const int out = left ? -1 : 1;
        const Length words = edge + out * inches(0.3);
        Length reach = edge;
        for (const Place& mark : side) {
            const std::string& id = job_.equipment(mark.equipment).id;
            const Point end{words - out * points(3), y + cap / 2};
            frame_.add(polyline({mark.at, end}, {fine_pen}), Role::leader, shows_);
            write_line(frame_, {words, y}, id,
                       {style_, left ? Align::right : Align::left, black, shows_}, job_.measure);
            const Length far = words + out * job_.measure.width(id, style_);
            reach = left ? std::min(reach, far) : std::max(reach, far);
            y += pitch;
        }
        return reach;
    }

    const Job& job_;
    const Site& site_;
    TextStyle style_;
    std::string shows_;
    PlanView view_;
    std::vector<Place> marks_;
    Frame frame_;
};

} // namespace

std::optional<BuildingPlan> building_plan(const std::vector<int>& equipment, bool named, Size most,
                                          const TextStyle& lettering, const std::string& shows,
                                          const Job& job) {
    if (corners_of(job.system.site).empty())
        return std::nullopt;
    BuildingPlan plan = Drawing(most, lettering, shows, job).draw(equipment, named);
    if (plan.marks.empty())
        return std::nullopt;
    return plan;
}

} // namespace ohmfolio::sheets
