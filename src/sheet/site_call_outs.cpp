#include "sheet/site_call_outs.h"

#include <algorithm>
#include <array>
#include <cstdlib>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "drawing/dimension.h"
#include "sheet/schedule_rows.h"

namespace ohmfolio::sheets {

namespace {

class CallOuts {
  public:
    CallOuts(const PlanView& view, const ArrayBoxes& arrays, const Job& job)
        : view_(view), arrays_(arrays), job_(job), site_(job.system.site),
          mark_half_(mark_half(view, job)) {}

    std::vector<MarginNote> all() const {
        std::vector<MarginNote> notes;
        for (const SitedEquipment& one : site_.plan.equipment)
            notes.push_back(equipment_note(one));
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
    /// What hangs on a wall stands under the name of that wall.
    MarginNote equipment_note(const SitedEquipment& one) const {
        const Equipment& e = job_.equipment(one.equipment);
        const std::string shows = "equipment:" + e.id;
        const std::string title = id_with_status(e) + "  " + drafting_case(e.title);
        MarginNote note{.anchor = view_.at(one.at), .lines = {{title, shows}}, .mark = mark_half_};
        for (const Wall& wall : job_.system.walls) {
            if (wall.from && hangs_on(wall, one.equipment))
                note.heading = {wall.name, shows, true};
        }
        return note;
    }

    static bool hangs_on(const Wall& wall, int equipment) {
        return std::ranges::find(wall.equipment, equipment, &PlacedEquipment::equipment) !=
               wall.equipment.end();
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
    Length mark_half_;
};

} // namespace

Length mark_half(const PlanView& view, const Job& job) {
    constexpr Length least = inches(0.018);
    constexpr double of_the_way = 0.4; // a fifth of the way between two stays free
    const std::vector<SitedEquipment>& all = job.system.site.plan.equipment;
    Length half = usual_mark_half;
    for (std::size_t i = 0; i < all.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            const Point way = view.at(all[i].at) - view.at(all[j].at);
            const Length apart{std::max(std::abs(way.x.nm), std::abs(way.y.nm))};
            half = std::min(half, scaled(apart, of_the_way));
        }
    }
    return std::max(half, least);
}

std::vector<MarginNote> call_outs(const PlanView& view, const ArrayBoxes& arrays, const Job& job) {
    return CallOuts(view, arrays, job).all();
}

} // namespace ohmfolio::sheets
