#include "sheet/conditions.h"

#include <algorithm>
#include <stdexcept>

#include <fmt/format.h>

#include "base/text.h"
#include "sheet/places.h"
#include "study/fault_currents.h"

namespace ohmfolio::sheets {

namespace {

template <class Kind> bool any_of_kind(const System& system) {
    return std::any_of(system.equipment.begin(), system.equipment.end(),
                       [](const Equipment& e) { return e.is<Kind>(); });
}

bool has_microinverters(const System& system, const Study&) {
    return any_of_kind<BranchArray>(system);
}
bool has_strings(const System& system, const Study&) { return any_of_kind<StringArray>(system); }
bool has_pv(const System& system, const Study& study) {
    return has_microinverters(system, study) || has_strings(system, study);
}
bool has_generator(const System& system, const Study&) { return any_of_kind<Generator>(system); }
bool has_transfer_switch(const System& system, const Study&) {
    return any_of_kind<TransferSwitch>(system);
}
bool has_storage(const System& system, const Study&) { return any_of_kind<Battery>(system); }
bool has_mid(const System& system, const Study&) { return any_of_kind<Mid>(system); }

bool backs_up_a_panel(const System& system) {
    return std::any_of(system.equipment.begin(), system.equipment.end(), [](const Equipment& e) {
        const auto* panel = e.as<Panel>();
        return panel && panel->backed_up;
    });
}

/// Storage behind an interconnect device or an inverter that backs up keeps its loads alive when
/// the grid is gone.
bool has_storage_backup(const System& system, const Study& study) {
    return has_storage(system, study) && (has_mid(system, study) || backs_up_a_panel(system));
}

/// Without storage the loads are there while the sun shines.
bool has_sun_backup(const System& system, const Study& study) {
    return backs_up_a_panel(system) && has_pv(system, study) && !has_storage(system, study) &&
           !any_of_kind<Generator>(system);
}

bool has_interlocked_inputs(const System& system, const Study&) {
    return std::any_of(system.equipment.begin(), system.equipment.end(), [&](const Equipment& e) {
        const auto* ratings = system.ratings<MidRatings>(e);
        return ratings && ratings->interlocked;
    });
}

bool has_dc_storage(const System& system, const Study&) {
    return std::any_of(system.equipment.begin(), system.equipment.end(), [&](const Equipment& e) {
        const auto* ratings = system.ratings<BatteryRatings>(e);
        return ratings && ratings->direct_current();
    });
}

/// So does a generator.
bool has_backup(const System& system, const Study& study) {
    return has_storage_backup(system, study) || has_generator(system, study);
}

bool has_standby(const System& system, const Study& study) {
    return has_backup(system, study) || has_sun_backup(system, study);
}

/// Loads and PV branches are cut off while the utility is absent.
bool has_load_control(const System& system, const Study&) {
    return !system.load_controllers.empty();
}

/// The older edition knows no such systems: settings count for nothing there.
bool has_power_control(const System& system, const Study&) {
    return !system.power_controls.empty();
}

bool has_vehicle_supply(const System& system, const Study&) {
    return std::any_of(system.equipment.begin(), system.equipment.end(), [](const Equipment& e) {
        const auto* panel = e.as<Panel>();
        return panel &&
               std::any_of(panel->loads.begin(), panel->loads.end(), [](const LoadCircuit& load) {
                   return load.kind == LoadKind::vehicle && load.added;
               });
    });
}

bool has_supply_side(const System& system, const Study&) {
    return !source_service_disconnects(system).empty();
}

bool is_dwelling(const System& system, const Study&) {
    const std::string occupancy = upper(system.project.occupancy);
    return occupancy.find("DWELLING") != std::string::npos ||
           occupancy.find("RESIDENCE") != std::string::npos ||
           occupancy.find("R-3") != std::string::npos;
}

bool on_roof(const System& system, const Study&) {
    return std::any_of(system.equipment.begin(), system.equipment.end(), [](const Equipment& e) {
        const auto* branch = e.as<BranchArray>();
        const auto* strings = e.as<StringArray>();
        return (branch && !branch->roof.empty()) || (strings && !strings->roof.empty());
    });
}

bool has_several_sources(const System& system, const Study& study) {
    return has_pv(system, study) || has_storage(system, study) || has_generator(system, study);
}

bool has_new_service_equipment(const System& system, const Study&) {
    const auto list = service_equipment(system);
    return std::any_of(list.begin(), list.end(), [&](int e) { return !system.at(e).existing; });
}

bool has_existing_equipment(const System& system, const Study&) {
    return std::any_of(system.equipment.begin(), system.equipment.end(),
                       [](const Equipment& e) { return e.existing && !e.is<Utility>(); });
}

bool has_shutdown_switch(const System& system, const Study&) {
    return !rapid_shutdown_switches(system).empty();
}

bool has_storage_disconnect(const System& system, const Study&) {
    return !storage_disconnects(system).empty();
}

bool has_utility_disconnect(const System& system, const Study&) {
    return std::any_of(system.equipment.begin(), system.equipment.end(), [](const Equipment& e) {
        const auto* disconnect = e.as<Disconnect>();
        return disconnect && disconnect->utility;
    });
}

bool has_fault_current(const System& system, const Study& study) {
    return fault_at_service(system, study).current > Amps{};
}

bool has_waivers(const System&, const Study& study) { return !study.waived.empty(); }

} // namespace

const std::vector<Condition>& conditions() {
    static const std::vector<Condition> list = {
        {"pv", "there are photovoltaic modules", has_pv},
        {"microinverters", "modules have an inverter each", has_microinverters},
        {"strings", "strings run to an inverter as direct current", has_strings},
        {"roof_pv", "modules stand on a roof", on_roof},
        {"storage", "there is an energy storage system", has_storage},
        {"storage_disconnect", "the storage has a disconnecting means", has_storage_disconnect},
        {"mid", "there is a microgrid interconnect device", has_mid},
        {"backup", "loads are supplied while the utility is absent", has_backup},
        {"storage_backup", "storage supplies loads while the utility is absent",
         has_storage_backup},
        {"generator", "there is a standby generator", has_generator},
        {"transfer_switch", "a transfer switch takes loads to the generator", has_transfer_switch},
        {"load_control", "load controllers cut loads or PV branches off", has_load_control},
        {"power_control", "a power control system guards a busbar", has_power_control},
        {"vehicle_supply", "EV supply equipment comes with this work", has_vehicle_supply},
        {"supply_side", "sources join ahead of the service disconnect", has_supply_side},
        {"sun_backup", "PV alone supplies loads while the utility is absent", has_sun_backup},
        {"standby", "loads are supplied while the utility is absent, or while the sun shines",
         has_standby},
        {"interlocked", "storage and generator inputs are interlocked", has_interlocked_inputs},
        {"dc_storage", "storage delivers direct current", has_dc_storage},
        {"several_sources", "a source other than the utility supplies the premises",
         has_several_sources},
        {"dwelling", "a one- or two-family dwelling", is_dwelling},
        {"new_service_equipment", "the service equipment is new or replaced",
         has_new_service_equipment},
        {"existing_equipment", "existing equipment stays in use", has_existing_equipment},
        {"shutdown_switch", "a marked switch initiates rapid shutdown", has_shutdown_switch},
        {"utility_disconnect", "the utility asks for a lockable disconnect",
         has_utility_disconnect},
        {"fault_current", "the available fault current is stated or calculated", has_fault_current},
        {"waivers", "a finding was waived with a reason", has_waivers},
    };
    return list;
}

const Condition* find_condition(std::string_view name) {
    for (const Condition& condition : conditions()) {
        if (condition.name == name)
            return &condition;
    }
    return nullptr;
}

bool all_hold(const std::vector<std::string>& needs, const std::vector<std::string>& unless,
              const System& system, const Study& study) {
    const auto holds = [&](const std::string& name) {
        const Condition* condition = find_condition(name);
        if (!condition)
            throw std::logic_error(fmt::format("no condition is called {}", name));
        return condition->holds(system, study);
    };
    return std::all_of(needs.begin(), needs.end(), holds) &&
           std::none_of(unless.begin(), unless.end(), holds);
}

} // namespace ohmfolio::sheets
