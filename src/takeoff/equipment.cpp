// Enclosures, storage, what measures and controls, and the grounding electrode system.
#include <algorithm>

#include <fmt/format.h>

#include "base/text.h"
#include "takeoff/bill.h"

namespace ohmfolio::takeoff {

namespace {

/// "at most 250 ft in all": the shortest reach of the interconnect devices that state one.
std::string control_note(const System& system) {
    Feet least{};
    for (const Equipment& e : system.equipment) {
        const auto* ratings = system.ratings<MidRatings>(e);
        if (ratings != nullptr && ratings->control_limit > Feet{0} &&
            (least <= Feet{0} || ratings->control_limit < least))
            least = ratings->control_limit;
    }
    const std::string limit = least > Feet{0}
                                  ? fmt::format("at most {} ft in all", trimmed(least.value, 1))
                                  : std::string{};
    if (system.control_length)
        return limit;
    return limit.empty() ? "measured on site" : "measured on site; " + limit;
}

void add_electrode(Bill& bill, Electrode electrode, const std::string& at) {
    const auto add = [&](const std::string& what, int count) {
        bill.add(pieces(MaterialGroup::grounding, what, count, at));
    };
    switch (electrode) {
    case Electrode::ground_rod:
        add("Ground rod", 1);
        add("Ground rod clamp", 1);
        break;
    case Electrode::two_ground_rods:
        add("Ground rod", 2);
        add("Ground rod clamp", 2);
        break;
    case Electrode::water_pipe:
        add("Water pipe clamp", 1);
        break;
    case Electrode::concrete_encased:
        add("Clamp for the electrode in the footing", 1);
        break;
    case Electrode::ground_ring:
        add("Clamp for the ground ring", 1);
        break;
    }
}

void add_electrode_conductor(Bill& bill) {
    MaterialItem item;
    item.group = MaterialGroup::grounding;
    item.description =
        fmt::format("Grounding electrode conductor, {} {}", name(bill.study.grounding_electrode),
                    name(bill.system.grounding.material));
    item.unit = "ft";
    item.serves = {"G1"};
    if (const auto& length = bill.system.material.electrode_conductor) {
        item.net = length->value.value;
        item.waste = bill.waste;
    } else {
        item.measured_on_site = true;
        item.note = "measured on site";
    }
    bill.add(std::move(item));
}

void add_controllers(Bill& bill) {
    for (const LoadController& controller : bill.system.load_controllers) {
        if (controller.existing || controller.record < 0)
            continue;
        const auto record = static_cast<std::size_t>(controller.record);
        bill.add(pieces_of(MaterialGroup::control, "Load controller",
                           bill.system.catalogue.records[record], 1, controller.id));
    }
}

void add_transformers(Bill& bill) {
    for (const CurrentTransformer& transformer : bill.system.transformers) {
        if (transformer.reports_to >= 0 && bill.system.at(transformer.reports_to).existing)
            continue;
        MaterialItem item = pieces(MaterialGroup::control,
                                   transformer.production ? "Production current transformer"
                                                          : "Consumption current transformer",
                                   bill.system.lines_at(transformer.at), transformer.tag);
        item.note = "one on each line; may come with the gateway";
        bill.add(std::move(item));
    }
}

void add_control_cable(Bill& bill) {
    const System& system = bill.system;
    MaterialItem cable;
    cable.group = MaterialGroup::control;
    cable.description = "Control cable, by the instructions of the equipment";
    cable.unit = "ft";
    for (const ControlLink& link : system.controls) {
        const bool counted_below = !link.controller.empty();
        if (!counted_below && (!system.at(link.from).existing || !system.at(link.to).existing))
            cable.serves.push_back(system.at(link.to).id);
    }
    for (const LoadController& controller : system.load_controllers) {
        if (!controller.existing)
            cable.serves.push_back(controller.id);
    }
    if (cable.serves.empty())
        return;
    cable.note = control_note(system);
    cable.measured_on_site = !system.control_length;
    if (system.control_length) {
        cable.net = system.control_length->value.value;
        cable.waste = bill.waste;
    }
    bill.add(std::move(cable));
}

void add_surge_device(Bill& bill, const Equipment& e) {
    const SurgeDevice* device = surge_device(e);
    if (device == nullptr)
        return;
    MaterialItem item = pieces(MaterialGroup::enclosures,
                               fmt::format("Surge-protective device, {}", name(*device)), 1, e.id);
    item.note = "as the equipment takes it";
    bill.add(std::move(item));
}

} // namespace

void count_equipment(Bill& bill) {
    for (const Equipment& e : bill.system.equipment) {
        const Record* record = bill.system.record(e);
        if (e.existing || record == nullptr)
            continue;
        const bool stores = e.is<Battery>() || e.is<Generator>();
        bill.add(pieces_of(stores ? MaterialGroup::storage : MaterialGroup::enclosures, e.title,
                           *record, 1, e.id));
        add_surge_device(bill, e);
    }
}

void count_controls(Bill& bill) {
    add_controllers(bill);
    add_transformers(bill);
    add_control_cable(bill);
}

void count_grounding(Bill& bill) {
    const Grounding& grounding = bill.system.grounding;
    if (grounding.at < 0 || bill.system.at(grounding.at).existing ||
        bill.study.grounding_steps.empty())
        return;
    const std::string& at = bill.system.at(grounding.at).id;
    add_electrode_conductor(bill);
    for (const auto& electrode : grounding.electrodes)
        add_electrode(bill, electrode.value, at);
}

} // namespace ohmfolio::takeoff
