#include "sheet/site_call_outs.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "drawing/dimension.h"
#include "model/sited.h"
#include "sheet/schedule_rows.h"

namespace ohmfolio::sheets {

namespace {

class CallOuts {
  public:
    CallOuts(const PlanView& view, const ArrayBoxes& arrays, const Job& job)
        : view_(view), arrays_(arrays), job_(job), site_(job.system.site) {}

    std::vector<MarginNote> all() const {
        std::vector<MarginNote> notes;
        std::vector<int> told;
        for (const Wall& wall : job_.system.walls) {
            if (auto note = wall_note(wall, told))
                notes.push_back(std::move(*note));
        }
        for (const SitedEquipment& one : site_.plan.equipment) {
            if (std::ranges::find(told, one.equipment) == told.end())
                notes.push_back({view_.at(one.at), {line_of(one.equipment)}});
        }
        for (const RoofPlane& roof : site_.roofs) {
            const auto box = arrays_.find(&roof);
            if (box != arrays_.end())
                notes.push_back({array_anchor(box->second), array_lines(roof)});
        }
        for (const Route& route : site_.plan.routes)
            notes.push_back(route_note(route));
        return notes;
    }

  private:
    NoteLine line_of(int equipment) const {
        const Equipment& e = job_.equipment(equipment);
        return {id_with_status(e) + "  " + drafting_case(e.title), "equipment:" + e.id};
    }

    /// What hangs on a wall that is on the plan, in one block.
    std::optional<MarginNote> wall_note(const Wall& wall, std::vector<int>& told) const {
        MarginNote note;
        std::vector<Point> places;
        note.lines.push_back({wall.name, "", true});
        for (const PlacedEquipment& placed : wall.equipment) {
            const SitedEquipment* place = sited(site_.plan, placed.equipment);
            if (place == nullptr || !wall.from)
                continue;
            places.push_back(view_.at(place->at));
            note.lines.push_back(line_of(placed.equipment));
            told.push_back(placed.equipment);
        }
        if (places.empty())
            return std::nullopt;
        note.lines.front().shows = note.lines[1].shows;
        note.anchor = row_of(wall, view_, job_)->middle();
        return note;
    }

    /// The corner of the array that is nearest to a margin.
    Point array_anchor(const Box& box) const {
        const bool left = box.centre().x * 2 < view_.size().width;
        const Length inside = inches(0.08);
        return {left ? box.low.x + inside : box.high.x - inside, box.low.y + inside};
    }

    std::vector<NoteLine> array_lines(const RoofPlane& roof) const {
        std::map<int, int> counts;
        for (const ModuleField& field : roof.fields) {
            for (const SetModule& module : field.modules)
                ++counts[module.source];
        }
        std::vector<NoteLine> lines;
        int total = 0;
        for (const auto& [source, count] : counts) {
            const std::string& id = job_.equipment(source).id;
            lines.push_back({fmt::format("{}  {} MODULES", id, count), "equipment:" + id});
            total += count;
        }
        const std::string shows = lines.front().shows;
        lines.insert(lines.begin(), {fmt::format("{}, {} MODULES", roof.name, total), shows, true});
        return lines;
    }

    /// The tag of its raceway and where it runs, at the middle of its longest leg.
    MarginNote route_note(const Route& route) const {
        const std::vector<Point> points = view_.at(route.points);
        std::size_t longest = 0;
        const auto length = [&](std::size_t i) {
            return std::abs((points[i + 1].x - points[i].x).nm) +
                   std::abs((points[i + 1].y - points[i].y).nm);
        };
        for (std::size_t i = 1; i + 1 < points.size(); ++i) {
            if (length(i) > length(longest))
                longest = i;
        }
        const Point a = points[longest], b = points[longest + 1];
        const int run = job_.system.relations.run_from[static_cast<std::size_t>(route.equipment)];
        constexpr std::array<std::string_view, 4> ways = {"ON THE ROOF", "ON THE WALL",
                                                          "IN THE ATTIC", "BURIED"};
        std::string words = run < 0 ? job_.equipment(route.equipment).id
                                    : job_.system.runs[static_cast<std::size_t>(run)].tag;
        words += fmt::format("  CONDUIT {}", ways.at(static_cast<std::size_t>(route.way)));
        if (route.depth)
            words += ", COVER " + dimension_figure(*route.depth, view_.scale(), Nearest::inch);
        return {{a.x + scaled(b.x - a.x, 0.35), a.y + scaled(b.y - a.y, 0.35)},
                {{words, "equipment:" + job_.equipment(route.equipment).id}}};
    }

    const PlanView& view_;
    const ArrayBoxes& arrays_;
    const Job& job_;
    const Site& site_;
};

} // namespace

std::optional<WallRow> row_of(const Wall& wall, const PlanView& view, const Job& job) {
    std::vector<Point> places;
    for (const PlacedEquipment& placed : wall.equipment) {
        const SitedEquipment* place = sited(job.system.site.plan, placed.equipment);
        if (place != nullptr && wall.from && wall.to)
            places.push_back(view.at(place->at));
    }
    if (places.empty())
        return std::nullopt;
    // Who faces the wall has its `from` at the left, and so stands to the right of the way from
    // `from` to `to`; on paper y grows downward.
    const Point a = view.at(wall.from->value), b = view.at(wall.to->value);
    const double x = (b.x - a.x).in_inches(), y = (b.y - a.y).in_inches();
    const double length = std::max(std::hypot(x, y), 1e-9);
    const Length away = inches(0.08);
    const Point aside{scaled(away, -y / length), scaled(away, x / length)};
    return WallRow{places.front() + aside, places.back() + aside};
}

std::vector<MarginNote> call_outs(const PlanView& view, const ArrayBoxes& arrays, const Job& job) {
    return CallOuts(view, arrays, job).all();
}

} // namespace ohmfolio::sheets
