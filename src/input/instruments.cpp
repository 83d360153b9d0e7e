#include "input/instruments.h"

#include <fmt/format.h>

#include "input/topology.h"
#include "model/shedding.h"

namespace ohmfolio {
namespace {

Electrode electrode(std::string_view word) {
    if (word == "two ground rods") {
        return Electrode::two_ground_rods;
    }
    if (word == "concrete-encased") {
        return Electrode::concrete_encased;
    }
    if (word == "water pipe") {
        return Electrode::water_pipe;
    }
    return word == "ground ring" ? Electrode::ground_ring : Electrode::ground_rod;
}

Grounding grounding_at(int index, const Form& form) {
    Grounding grounding;
    grounding.at = index;
    for (const Item& item : form.items("electrodes")) {
        grounding.electrodes.push_back({electrode(std::get<std::string>(item.value)), item.span});
    }
    grounding.material = form.value<Material>("electrode_material");
    grounding.stated_size = form.get<WireSize>("electrode_conductor");
    return grounding;
}

/// A panel is backed up when its way to the utility leads through the backup side of a MID.
bool is_backed_up(const System& system, const std::vector<Declared>& all, int panel) {
    for (int i = panel; i >= 0; i = system.at(i).parent) {
        if (all[static_cast<std::size_t>(i)].on_backup) {
            return true;
        }
    }
    return false;
}

void add_transformer(System& system, int equipment, std::string port, bool production,
                     int gateway) {
    system.transformers.push_back({fmt::format("CT-{}", system.transformers.size() + 1), equipment,
                                   std::move(port), production, gateway});
}

bool has_gateway(const System& system, const Equipment& e) {
    const auto* ratings = system.ratings<CombinerRatings>(e);
    return ratings != nullptr && ratings->gateway;
}

/// The gateway speaks to the MID and to the first storage unit of each chain; further units listen
/// along the chain.
void link_controls(System& system, int gateway) {
    for (int i = 0; i < static_cast<int>(system.equipment.size()); ++i) {
        const Equipment& e = system.at(i);
        if (e.is<Mid>()) {
            system.controls.push_back({gateway, i, "MID CONTROL"});
        } else if (e.is<Battery>()) {
            const bool chained = system.at(e.parent).is<Battery>();
            system.controls.push_back({chained ? e.parent : gateway, i, "STORAGE CONTROL"});
        }
    }
}

/// The current transformers at the service, and what else reports to the gateway.
void join_gateway(System& system, int gateway) {
    for (const int service : system.children(service_meter(system))) {
        add_transformer(system, service, outgoing_terminal(system, service, 0), false, gateway);
    }
    link_controls(system, gateway);
}

} // namespace

void place_service(System& system, const std::vector<Declared>& all) {
    for (int i = 0; i < static_cast<int>(system.equipment.size()); ++i) {
        Equipment& e = system.equipment[static_cast<std::size_t>(i)];
        if (auto* panel = std::get_if<Panel>(&e.detail)) {
            panel->service_equipment = is_service_equipment(system, i);
            panel->backed_up = is_backed_up(system, all, i);
        }
        const Form* form = all[static_cast<std::size_t>(i)].form;
        if (form != nullptr && form->written("electrodes")) {
            system.grounding = grounding_at(i, *form);
        }
    }
}

void place_instruments(System& system) {
    int first_gateway = -1;
    for (int i = 0; i < static_cast<int>(system.equipment.size()); ++i) {
        if (has_gateway(system, system.at(i))) {
            add_transformer(system, i, outgoing_terminal(system, i, 0), true, i);
            first_gateway = first_gateway < 0 ? i : first_gateway;
        }
    }
    if (first_gateway >= 0) {
        join_gateway(system, first_gateway);
    }
    const auto shedding = shedding_links(system);
    system.controls.insert(system.controls.end(), shedding.begin(), shedding.end());
}

} // namespace ohmfolio
