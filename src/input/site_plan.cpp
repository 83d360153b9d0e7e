#include "input/site_plan.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"
#include "input/faults.h"
#include "input/named_equipment.h"
#include "model/sited.h"

namespace ohmfolio {
namespace {

class PlanReader {
  public:
    PlanReader(const System& system, Findings& findings) : system_(system), findings_(findings) {}

    SitePlan read(const Form& form) {
        SitePlan plan{.north = form.value<Degrees>("north").value,
                      .parcel = form.values<PlanPoint>("parcel"),
                      .buildings = areas(form, "building"),
                      .areas = areas(form, "area"),
                      .sprinklers = form.value<bool>("sprinklers"),
                      .span = form.span};
        if (form.written("parcel")) {
            check_corners(plan.parcel, form.span_of("parcel"), "the parcel");
        }
        for (const Form& street : form.forms("street")) {
            plan.streets.push_back({drafting_case(street.id), street.value<PlanPoint>("from"),
                                    street.value<PlanPoint>("to"), street.span});
        }
        for (const Wall& wall : system_.walls) {
            add_wall(wall, plan);
        }
        for (const Form& place : form.forms("equipment")) {
            const int index = named_equipment(system_, place.id, place.span, findings_);
            if (index >= 0) {
                plan.equipment.push_back({index, place.value<PlanPoint>("at"), place.span});
            }
        }
        return plan;
    }

  private:
    void check_corners(const Corners& corners, Span span, const std::string& what) {
        if (corners.size() < 3) {
            findings_.push_back(input_fault("input.value", span, "",
                                            fmt::format("the corners of {} enclose no area", what),
                                            {"three corners or more, in order", ""}));
        }
    }

    std::vector<PlanArea> areas(const Form& form, std::string_view key) {
        std::vector<PlanArea> result;
        for (const Form& area : form.forms(key)) {
            result.push_back(
                {drafting_case(area.id), area.values<PlanPoint>("corners"), area.span});
            check_corners(result.back().corners, area.span, result.back().name);
        }
        return result;
    }

    /// What hangs on a wall stands where the wall is.
    static void add_wall(const Wall& wall, SitePlan& plan) {
        if (!wall.from || !wall.to || wall.length.value <= 0) {
            return;
        }
        const PlanPoint from = wall.from->value, to = wall.to->value;
        for (const PlacedEquipment& placed : wall.equipment) {
            const double share =
                (placed.area.left.value + placed.area.width.value / 2) / wall.length.value;
            plan.equipment.push_back(
                {placed.equipment,
                 {from.x + (to.x - from.x) * share, from.y + (to.y - from.y) * share},
                 placed.span});
        }
    }

    const System& system_;
    Findings& findings_;
};

/// In order from the equipment that the route starts at to its neighbor toward the utility.
class RouteReader {
  public:
    RouteReader(System& system, Findings& findings) : system_(system), findings_(findings) {}

    void read(const Form& form) {
        const int index = named_equipment(system_, form.id, form.span, findings_);
        if (index < 0) {
            return;
        }
        const int parent = system_.at(index).parent;
        const SitedEquipment* start = sited(system_.site.plan, index);
        const SitedEquipment* end = parent < 0 ? nullptr : sited(system_.site.plan, parent);
        if (start == nullptr || end == nullptr) {
            const int missing = start == nullptr || parent < 0 ? index : parent;
            findings_.push_back(input_fault(
                "input.required", form.span, "equipment:" + form.id,
                fmt::format("{} has a route, and {} has no place on the plan", form.id,
                            system_.at(missing).id),
                {"a place on a wall with ends, on a roof, or in [plan.equipment]", ""}));
            return;
        }
        Route route{.equipment = index,
                    .points = {start->at},
                    .way = static_cast<RouteWay>(form.word("way").value_or(0)),
                    .span = form.span};
        for (const Item& item : form.items("via")) {
            route.points.push_back(std::get<PlanPoint>(item.value));
        }
        route.points.push_back(end->at);
        if (const auto depth = form.get<Feet>("depth")) {
            route.depth = depth->value;
        }
        if (route.depth && route.way != RouteWay::buried) {
            findings_.push_back(input_fault(
                "input.no_place", form.span_of("depth"), "equipment:" + form.id,
                "only what is buried has a depth", {"way = \"buried\", or no depth", ""}));
        }
        system_.site.plan.routes.push_back(std::move(route));
    }

  private:
    System& system_;
    Findings& findings_;
};

/// One piece of equipment has one place.
void check_places(const SitePlan& plan, const System& system, Findings& findings) {
    for (std::size_t i = 0; i < plan.equipment.size(); ++i) {
        const SitedEquipment& one = plan.equipment[i];
        const SitedEquipment* first = sited(plan, one.equipment);
        if (first != &one) {
            const std::string& id = system.at(one.equipment).id;
            findings.push_back(input_fault(
                "input.overlap", one.span, "equipment:" + id,
                fmt::format("{} has a place on the plan already", id),
                {"one place for each piece of equipment", "leave it out here or there"}));
        }
    }
}

} // namespace

void read_site_plan(const Form& description, System& system, Findings& findings) {
    if (const Form* form = description.form("plan")) {
        system.site.plan = PlanReader(system, findings).read(*form);
    }
}

void read_routes(const Form& description, System& system, Findings& findings) {
    check_places(system.site.plan, system, findings);
    if (const Form* form = description.form("plan")) {
        for (const Form& route : form->forms("route")) {
            RouteReader(system, findings).read(route);
        }
    }
}

void check_route_lengths(const System& system, Findings& findings) {
    for (const Route& route : system.site.plan.routes) {
        const int index = system.relations.run_from[static_cast<std::size_t>(route.equipment)];
        if (index < 0) {
            continue;
        }
        const Run& run = system.runs[static_cast<std::size_t>(index)];
        double way = 0;
        for (std::size_t i = 0; i + 1 < route.points.size(); ++i) {
            way += std::hypot((route.points[i + 1].x - route.points[i].x).value,
                              (route.points[i + 1].y - route.points[i].y).value);
        }
        constexpr double tolerance = 0.5; // feet: points are scaled off drawings
        if (way > run.length.value + tolerance) {
            findings.push_back(input_fault(
                "input.value", route.span, "equipment:" + system.at(route.equipment).id,
                fmt::format("{} is {} ft long, and its way on the plan is {} ft",
                            run.tag.empty() ? "the run" : run.tag, trimmed(run.length.value, 1),
                            trimmed(way, 1)),
                {"a run no shorter than its way", "check `length` of the run and the route"}));
        }
    }
}

} // namespace ohmfolio
