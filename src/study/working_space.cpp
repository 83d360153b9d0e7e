// Working space and reach of what hangs on walls that the description draws.

#include <algorithm>

#include <fmt/format.h>

#include "code/working_space_rules.h"
#include "study/steps.h"

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

/// Of direct current the highest voltage of its strings, by 690.7; of alternating current the
/// service's. An array may be floating: then this errs to the safe side.
Volts voltage_to_ground(const Work& work, int equipment) {
    const System& system = work.system;
    Volts highest = system.site.to_neutral;
    const auto index = static_cast<std::size_t>(equipment);
    for (const auto* circuits :
         {&system.relations.circuits_from[index], &system.relations.circuits_into[index]}) {
        for (const int c : *circuits) {
            const Circuit& circuit = at(system.circuits, c);
            if (!circuit.direct_current)
                continue;
            for (const int below : system.subtree(system.child_of(circuit))) {
                const auto string = work.string_voltage.find(system.at(below).id);
                if (string != work.string_voltage.end())
                    highest = std::max(highest, string->second.value);
            }
        }
    }
    return highest;
}

/// One piece of equipment on its wall.
class PlacedCheck {
  public:
    PlacedCheck(Work& work, const Wall& wall, const PlacedEquipment& placed)
        : work_(work), wall_(wall), placed_(placed), equipment_(work.system.at(placed.equipment)),
          desk_(work.desk("space:" + equipment_.id)) {}

    void check() {
        const Feet height = judge_space();
        check_objects(height);
        check_other_equipment();
        check_handle();
    }

  private:
    void complain(const RuleVerdicts& verdicts, Span span, std::string message,
                  std::string expected, std::string hint = {}) {
        complain_of_verdicts(work_, verdicts,
                             {.rule = {},
                              .span = span,
                              .message = std::move(message),
                              .expected = std::move(expected),
                              .hint = std::move(hint),
                              .subject = "equipment:" + equipment_.id});
    }

    std::string space_words() const {
        return fmt::format("working space of {} at {}", equipment_.id, wall_.name);
    }

    /// Returns the height of the space. It may lie to either side of the equipment, as far as what
    /// stands out from the wall leaves it.
    Feet judge_space() {
        const Volts to_ground = voltage_to_ground(work_, placed_.equipment);
        if (to_ground != work_.system.site.to_neutral) {
            work_.study.worksheet.state({.subject = desk_.subject,
                                         .name = "to_ground",
                                         .symbol = "V_g",
                                         .title = "Voltage to ground",
                                         .source = "highest voltage of its strings"},
                                        to_ground);
        }
        WorkingSpaceInput input{.to_ground = to_ground,
                                .opposite = opposite_of(wall_),
                                .equipment_width = placed_.area.width,
                                .equipment_top = placed_.area.top(),
                                .width = free_stretch(wall_, placed_, placed_.area.top()).width()};
        if (wall_.free_depth)
            input.depth = wall_.free_depth->value;
        if (wall_.ceiling)
            input.height = wall_.ceiling->value;
        const WorkingSpaceResult result = judge_working_space(desk_, input);
        complain(result.verdicts, wall_.free_depth ? wall_.free_depth->span : placed_.span,
                 space_words(), "the space of 110.26(A) kept free, or the equipment elsewhere");
        return result.needed.height;
    }

    /// What stands out above or below the equipment is in its space.
    void check_objects(Feet height) {
        for (const WallObject& object : wall_.objects) {
            if (object.depth <= Feet{0} || !share_stretch(object.area, placed_.area))
                continue;
            const bool inside = object.area.bottom < height;
            complain({check_clear(desk_, object.name, inside)}, object.span, space_words(),
                     "nothing but electrical equipment in the space",
                     "move one of them along the wall");
        }
    }

    /// Electrical equipment above or below may stand out a little further.
    void check_other_equipment() {
        for (const PlacedEquipment& other : wall_.equipment) {
            const bool known = other.depth > Feet{0} && placed_.depth > Feet{0};
            if (&other == &placed_ || !known || !share_stretch(other.area, placed_.area) ||
                other.depth <= placed_.depth)
                continue;
            complain({check_projection(desk_, work_.system.at(other.equipment).id,
                                       other.depth - placed_.depth)},
                     other.span, space_words(), "equipment above and below about as deep",
                     "move one of them along the wall");
        }
    }

    void check_handle() {
        if (!placed_.handle)
            return;
        const auto kind =
            holds_breakers(equipment_) ? HandleKind::breaker_handle : HandleKind::switch_handle;
        complain({check_reach(desk_, kind, placed_.handle->value)}, placed_.handle->span,
                 fmt::format("handle of {}", equipment_.id), "a handle within reach",
                 "hang it lower");
    }

    Work& work_;
    const Wall& wall_;
    const PlacedEquipment& placed_;
    const Equipment& equipment_;
    Desk desk_;
};

} // namespace

void check_working_spaces(Work& work) {
    for (const Wall& wall : work.system.walls) {
        for (const PlacedEquipment& placed : wall.equipment)
            PlacedCheck(work, wall, placed).check();
    }
}

} // namespace ohmfolio::workings
