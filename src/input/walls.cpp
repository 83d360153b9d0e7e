#include "input/walls.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"
#include "input/faults.h"
#include "input/named_equipment.h"

namespace ohmfolio {
namespace {

bool overlap(const WallArea& a, const WallArea& b) {
    constexpr double touch = 1e-6; // edges that meet do not overlap
    const auto meet = [](Feet low, Feet high, Feet other_low, Feet other_high) {
        return low.value + touch < other_high.value && other_low.value + touch < high.value;
    };
    return meet(a.left, a.right(), b.left, b.right()) && meet(a.bottom, a.top(), b.bottom, b.top());
}

class WallReader {
  public:
    WallReader(const Form& form, const System& system, Findings& findings)
        : form_(form), system_(system), findings_(findings) {}

    Wall read() {
        wall_.name = drafting_case(form_.id);
        wall_.length = form_.value<Feet>("length");
        wall_.height = form_.value<Feet>("height");
        wall_.free_depth = form_.get<Feet>("free_depth");
        wall_.opposite = static_cast<AcrossTheSpace>(form_.word("opposite").value_or(0));
        wall_.from = form_.get<PlanPoint>("from");
        wall_.to = form_.get<PlanPoint>("to");
        wall_.stands_on = static_cast<WallDatum>(form_.word("stands_on").value_or(0));
        wall_.ceiling = form_.get<Feet>("ceiling");
        wall_.span = form_.span;
        for (const Form& object : form_.forms("object"))
            wall_.objects.push_back(read_object(object));
        for (const Form& placement : form_.forms("equipment"))
            place(placement);
        check_places();
        check_ends();
        std::ranges::stable_sort(wall_.equipment, {},
                                 [](const PlacedEquipment& e) { return e.area.left.value; });
        return wall_;
    }

  private:
    static WallObject read_object(const Form& f) {
        constexpr int dwelling = 1; // of the words of `opens`
        return {.name = drafting_case(f.id),
                .area = {f.value<Feet>("left"), f.value<Feet>("bottom"), f.value<Feet>("width"),
                         f.value<Feet>("height")},
                .depth = f.value<Feet>("depth"),
                .enters_dwelling = f.word("opens") == dwelling,
                .span = f.span};
    }

    void report(std::string rule, Span span, const std::string& id, std::string message,
                Advice advice) {
        findings_.push_back(input_fault(std::move(rule), span, "equipment:" + id,
                                        std::move(message), std::move(advice)));
    }

    void place(const Form& f) {
        const int index = named_equipment(system_, f.id, f.span, findings_);
        if (index < 0)
            return;
        const Record* record = system_.record(system_.at(index));
        if (record == nullptr || record->width.value <= 0 || record->height.value <= 0) {
            report("input.required", f.span, f.id,
                   fmt::format("the catalogue record of {} states no size", f.id),
                   {"width and height in its record", "width = \"12 in\", height = \"20 in\""});
            return;
        }
        if (const Wall* other = wall_of(index)) {
            report("input.overlap", f.span, f.id,
                   fmt::format("{} hangs on {} already", f.id, other->name),
                   {"each piece of equipment on one wall", "leave it out here or there"});
        }
        PlacedEquipment placed{.equipment = index,
                               .area = {{}, {}, record->width, record->height},
                               .depth = record->depth,
                               .handle = f.get<Feet>("handle"),
                               .span = f.span};
        if (set_left(f, placed.area) && set_height(f, placed.area))
            wall_.equipment.push_back(placed);
    }

    /// The wall read before that has the equipment; its working space is worked out once.
    const Wall* wall_of(int equipment) const {
        const auto other = std::ranges::find_if(system_.walls, [&](const Wall& wall) {
            return std::ranges::find(wall.equipment, equipment, &PlacedEquipment::equipment) !=
                   wall.equipment.end();
        });
        return other == system_.walls.end() ? nullptr : &*other;
    }

    bool set_left(const Form& f, WallArea& area) {
        const auto beside = f.get<std::string>("right_of");
        if (f.written("left") == beside.has_value()) {
            report("input.required", f.span, f.id,
                   fmt::format("where {} stands along the wall is not said, or said twice", f.id),
                   {"`left`, or `right_of` with a `gap`", "left = \"2 ft\""});
            return false;
        }
        if (!beside) {
            area.left = f.value<Feet>("left");
            return true;
        }
        const auto other = std::ranges::find_if(wall_.equipment, [&](const PlacedEquipment& e) {
            return system_.at(e.equipment).id == beside->value;
        });
        if (other == wall_.equipment.end()) {
            report("input.reference", beside->span, f.id,
                   fmt::format("\"{}\" is not placed on this wall before {}", beside->value, f.id),
                   {"equipment that is placed on the wall before", ""});
            return false;
        }
        area.left = other->area.right() + f.value<Feet>("gap");
        return true;
    }

    bool set_height(const Form& f, WallArea& area) {
        const int stated =
            int{f.written("bottom")} + int{f.written("center")} + int{f.written("top")};
        if (stated != 1) {
            report("input.required", f.span, f.id,
                   fmt::format("the height of {} is {}", f.id,
                               stated == 0 ? "not stated" : "stated more than once"),
                   {"one of bottom, center and top", "top = \"66 in\""});
            return false;
        }
        area.bottom = f.written("bottom")   ? f.value<Feet>("bottom")
                      : f.written("center") ? f.value<Feet>("center") - area.height / 2
                                            : f.value<Feet>("top") - area.height;
        return true;
    }

    void check_within(const WallArea& area, Span span, const std::string& name) {
        if (area.bottom >= Feet{0} && area.right() <= wall_.length && area.top() <= wall_.height)
            return;
        report("input.value", span, name, fmt::format("{} reaches beyond {}", name, wall_.name),
               {"a place within the length and the height of the wall", ""});
    }

    /// Its ends on the plan are as far apart as the wall is long.
    void check_ends() {
        if (wall_.from.has_value() != wall_.to.has_value()) {
            report("input.required", wall_.span, wall_.name,
                   fmt::format("one end of {} on the plan is stated, the other is not", wall_.name),
                   {"both `from` and `to`, or neither", ""});
        }
        if (!wall_.from || !wall_.to)
            return;
        constexpr double tolerance = 0.1; // feet
        const double apart = std::hypot(wall_.to->value.x.value - wall_.from->value.x.value,
                                        wall_.to->value.y.value - wall_.from->value.y.value);
        if (std::abs(apart - wall_.length.value) > tolerance) {
            report("input.value", wall_.from->span, wall_.name,
                   fmt::format("{} is {} ft long, and its ends on the plan are {} ft apart",
                               wall_.name, trimmed(wall_.length.value, 2), trimmed(apart, 2)),
                   {"ends as far apart as the wall is long", "check `length`, `from` and `to`"});
        }
    }

    void check_places() {
        for (const WallObject& object : wall_.objects)
            check_within(object.area, object.span, object.name);
        for (std::size_t i = 0; i < wall_.equipment.size(); ++i) {
            const PlacedEquipment& one = wall_.equipment[i];
            const std::string& id = system_.at(one.equipment).id;
            check_within(one.area, one.span, id);
            for (std::size_t j = 0; j < i; ++j) {
                if (overlap(one.area, wall_.equipment[j].area))
                    report_overlap(one, system_.at(wall_.equipment[j].equipment).id);
            }
            for (const WallObject& object : wall_.objects) {
                if (overlap(one.area, object.area))
                    report_overlap(one, object.name);
            }
        }
    }

    void report_overlap(const PlacedEquipment& one, const std::string& other) {
        const std::string& id = system_.at(one.equipment).id;
        report("input.overlap", one.span, id,
               fmt::format("{} and {} take the same place on the wall", id, other),
               {"places that do not overlap", "move one of them, or check their sizes"});
    }

    const Form& form_;
    const System& system_;
    Findings& findings_;
    Wall wall_;
};

/// Between their nearest edges.
Feet clear_distance(const WallArea& a, const WallArea& b) {
    const auto gap = [](Feet low, Feet high, Feet other_low, Feet other_high) {
        return std::max({0.0, other_low.value - high.value, low.value - other_high.value});
    };
    return Feet{std::hypot(gap(a.left, a.right(), b.left, b.right()),
                           gap(a.bottom, a.top(), b.bottom, b.top()))};
}

/// To the nearest other storage unit on the wall; nothing where there is none.
std::optional<Feet> to_next_storage(const System& system, const Wall& wall,
                                    const PlacedEquipment& unit) {
    std::optional<Feet> nearest;
    for (const PlacedEquipment& other : wall.equipment) {
        if (&other == &unit || !system.at(other.equipment).is<Battery>())
            continue;
        const Feet distance = clear_distance(unit.area, other.area);
        nearest = nearest ? std::min(*nearest, distance) : distance;
    }
    return nearest;
}

/// The wall gives the spacing of storage units; one that the unit states must not be larger.
void space_storage(const Wall& wall, System& system, Findings& findings) {
    constexpr double sixteenth = 1.0 / 192; // of an inch, in feet: less is rounding
    for (const PlacedEquipment& placed : wall.equipment) {
        Equipment& e = system.equipment[static_cast<std::size_t>(placed.equipment)];
        auto* battery = std::get_if<Battery>(&e.detail);
        const auto drawn = battery ? to_next_storage(system, wall, placed) : std::nullopt;
        if (!drawn)
            continue;
        if (!battery->spacing) {
            battery->spacing = Spanned<Feet>{*drawn, placed.span};
        } else if (battery->spacing->value.value > drawn->value + sixteenth) {
            findings.push_back(input_fault(
                "input.value", placed.span, "equipment:" + e.id,
                fmt::format("{} hangs {} ft from the next unit and states a spacing of {} ft", e.id,
                            trimmed(drawn->value, 2), trimmed(battery->spacing->value.value, 2)),
                {"places that keep the spacing stated", "leave `spacing` out: the wall gives it"}));
        }
    }
}

/// The wall gives the distance of storage units to its openings that enter the dwelling.
void keep_storage_from_openings(const Wall& wall, System& system) {
    for (const PlacedEquipment& placed : wall.equipment) {
        auto* battery = std::get_if<Battery>(
            &system.equipment[static_cast<std::size_t>(placed.equipment)].detail);
        for (const WallObject& object : wall.objects) {
            if (battery == nullptr || !object.enters_dwelling)
                continue;
            const Feet distance = clear_distance(placed.area, object.area);
            if (!battery->to_opening || distance < battery->to_opening->value)
                battery->to_opening = Spanned<Feet>{distance, placed.span};
        }
    }
}

} // namespace

void read_walls(const Form& description, System& system, Findings& findings) {
    for (const Form& form : description.forms("wall"))
        system.walls.push_back(WallReader(form, system, findings).read());
    for (const Wall& wall : system.walls) {
        space_storage(wall, system, findings);
        keep_storage_from_openings(wall, system);
    }
}

} // namespace ohmfolio
