// Working space and reach of what hangs on walls that the description draws.

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "base/text.h"
#include "code/working_space_rules.h"
#include "study/steps.h"
#include "study/strings.h"
#include "study/wall_space.h"

namespace ohmfolio::workings {

namespace {

Opposite opposite_of(const Wall& wall) {
    switch (wall.opposite) {
    case AcrossTheSpace::nothing:
        return Opposite::nothing;
    case AcrossTheSpace::grounded:
        return Opposite::grounded;
    case AcrossTheSpace::live:
        return Opposite::live;
    }
    return Opposite::live;
}

/// Storage units and meter sockets have no handle of ours, panels and combiners hold breakers.
bool holds_breakers(const Equipment& e) { return e.is<Panel>() || e.is<Combiner>() || e.is<Mid>(); }
bool is_switch(const Equipment& e) { return e.is<Disconnect>() || e.is<TransferSwitch>(); }

/// Of what is not connected to ground the voltage to it is that between conductors (Article 100).
Volts circuit_to_ground(const Work& work, const Circuit& circuit) {
    if (!circuit.direct_current)
        return work.system.site.to_neutral;
    Volts highest{};
    for (const int unit : batteries_below(work.system, work.system.child_of(circuit)))
        highest =
            std::max(highest, work.system.ratings<BatteryRatings>(work.system.at(unit))->highest);
    const auto string = work.string_voltage.find(work.system.at(work.system.child_of(circuit)).id);
    return string == work.string_voltage.end() ? highest : std::max(highest, string->second.value);
}

/// The highest of all circuits that enter or leave.
Volts voltage_to_ground(const Work& work, int equipment) {
    Volts highest{};
    for (const auto* circuits :
         {&circuits_from(work.system, equipment), &circuits_into(work.system, equipment)}) {
        for (const int circuit : *circuits)
            highest = std::max(highest, circuit_to_ground(work, at(work.system.circuits, circuit)));
    }
    return highest > Volts{0} ? highest : work.system.site.to_neutral;
}

/// What is told of one piece of equipment and where it hangs.
class SpaceCheck {
  public:
    SpaceCheck(Work& work, const Wall& wall, const PlacedEquipment& placed)
        : work_(work), wall_(wall), placed_(placed), equipment_(work.system.at(placed.equipment)),
          desk_(work.desk("space:" + equipment_.id)) {}

    std::optional<KeptSpace> judge() {
        WorkingSpaceInput input{.to_ground = voltage_to_ground(work_, placed_.equipment),
                                .opposite = opposite_of(wall_),
                                .equipment_width = placed_.area.width,
                                .equipment_top = placed_.area.top()};
        if (input.to_ground > highest_to_ground(work_.book)) {
            tell_beyond_table(input.to_ground);
            return std::nullopt;
        }
        const WorkingSpaceTerms needed = need_working_space(desk_, input);
        const WallStretch free = free_stretch(wall_, placed_, needed.height.value, allowed());
        if (wall_.free_depth)
            input.depth = wall_.free_depth->value;
        input.width = free.width();
        if (wall_.ceiling)
            input.height = wall_.ceiling->value;
        for (const RuleVerdict& verdict : judge_free_space(desk_, needed, input))
            complain_of_verdicts(work_, {verdict}, complaint_of(verdict));
        const SpaceOnWall space{place_space(wall_, placed_, needed.width.value, free),
                                needed.height.value};
        judge_contents(space);
        return KeptSpace{placed_.equipment, space.along.left,   space.along.right,
                         space.height,      needed.depth.value, input.to_ground};
    }

    void judge_reach() {
        if (!placed_.handle)
            return;
        const auto reach = check_reach(desk_,
                                       holds_breakers(equipment_) ? HandleKind::breaker_handle
                                                                  : HandleKind::switch_handle,
                                       placed_.handle->value);
        complain_of_verdicts(work_, {reach},
                             {.rule = {},
                              .span = placed_.handle->span,
                              .message = fmt::format("handle of {}", equipment_.id),
                              .expected = "a handle within reach",
                              .hint = "hang it lower",
                              .subject = subject_of(equipment_)});
    }

  private:
    Feet allowed() const { return allowed_projection(work_.book); }

    void tell_beyond_table(Volts to_ground) {
        complain_of_missing(
            work_, "space.depth",
            {.rule = "space.depth",
             .severity = Severity::warning,
             .span = placed_.span,
             .message = fmt::format("{} has {} V to ground, more than the depths of working space "
                                    "are given for ({} V): its space is not checked",
                                    equipment_.id, trimmed(to_ground.value, 0),
                                    trimmed(highest_to_ground(work_.book).value, 0)),
             .expected = "a space by the part of Article 110 for higher voltages",
             .subject = subject_of(equipment_)});
    }

    Complaint complaint_of(const RuleVerdict& verdict) const {
        Complaint complaint{.rule = {},
                            .span = placed_.span,
                            .message = fmt::format("working space of {} at {}, {}", equipment_.id,
                                                   wall_.name, name_of(verdict)),
                            .expected =
                                "the space of 110.26(A) kept free, or the equipment elsewhere",
                            .subject = subject_of(equipment_)};
        if (verdict.rule == "space.depth" && wall_.free_depth)
            complaint.span = wall_.free_depth->span;
        if (verdict.rule == "space.height") {
            complaint.span = wall_.ceiling->span;
            complaint.expected = "a ceiling as high as the working space, or the equipment "
                                 "elsewhere";
        }
        return complaint;
    }

    static std::string_view name_of(const RuleVerdict& verdict) {
        return verdict.rule == "space.depth"    ? "depth"
               : verdict.rule == "space.height" ? "height"
                                                : "width";
    }

    /// Whatever stands in the stretch of wall of the space, from floor to its height.
    void judge_contents(const SpaceOnWall& space) {
        for (const WallObject* object : objects_within(wall_, space)) {
            complain_of_verdicts(
                work_, {check_clear(desk_, object->name, true)},
                {.rule = {},
                 .span = object->span,
                 .message = fmt::format("working space of {} at {}", equipment_.id, wall_.name),
                 .expected = "the space kept clear from floor or grade to its height",
                 .hint = fmt::format("move {} or {}", object->name, equipment_.id),
                 .subject = subject_of(equipment_)});
        }
        for (const PlacedEquipment* other : enclosures_within(wall_, placed_, space)) {
            const Feet beyond = stands_beyond(placed_, *other);
            if (beyond <= Feet{0})
                continue;
            const std::string& id = work_.system.at(other->equipment).id;
            complain_of_verdicts(
                work_, {check_projection(desk_, id, beyond)},
                {.rule = {},
                 .span = placed_.span,
                 .message = fmt::format("{} stands in the working space of {} at {}", id,
                                        equipment_.id, wall_.name),
                 .expected = "enclosures of nearly the same depth, or farther apart",
                 .hint = fmt::format("move {} away from {}", id, equipment_.id),
                 .subject = subject_of(equipment_)});
        }
    }

    Work& work_;
    const Wall& wall_;
    const PlacedEquipment& placed_;
    const Equipment& equipment_;
    Desk desk_;
};

/// Where switches or breakers hang, or a handle is stated.
std::optional<HandleLimit> handle_limit(const Work& work, const Wall& wall) {
    bool switches = false, breakers = false;
    for (const PlacedEquipment& placed : wall.equipment) {
        const Equipment& e = work.system.at(placed.equipment);
        breakers = breakers || holds_breakers(e);
        switches = switches || is_switch(e) || (placed.handle && !holds_breakers(e));
    }
    std::vector<std::string> sections;
    if (switches)
        sections.push_back(reach_section(work.book, HandleKind::switch_handle).section);
    if (breakers)
        sections.push_back(reach_section(work.book, HandleKind::breaker_handle).section);
    if (sections.empty())
        return std::nullopt;
    return HandleLimit{highest_grip(work.book), join(sections, ", ")};
}

} // namespace

void check_working_spaces(Work& work) {
    for (std::size_t i = 0; i < work.system.walls.size(); ++i) {
        const Wall& wall = work.system.walls[i];
        WallStudy& study = work.study.walls[i];
        for (const PlacedEquipment& placed : wall.equipment) {
            SpaceCheck check(work, wall, placed);
            if (const auto space = check.judge())
                study.spaces.push_back(*space);
            check.judge_reach();
        }
        study.handles = handle_limit(work, wall);
    }
}

} // namespace ohmfolio::workings
