#include "sheet/conditions.h"

#include <algorithm>
#include <stdexcept>

#include <fmt/format.h>

#include "base/text.h"
#include "sheet/places.h"

namespace ohmfolio::sheets {

namespace {

template <class Kind> bool any_of_kind(const System& system) {
    return std::any_of(system.equipment.begin(), system.equipment.end(),
                       [](const Equipment& e) { return e.is<Kind>(); });
}

bool has_pv(const System& system, const Study&) { return any_of_kind<BranchArray>(system); }
bool has_storage(const System& system, const Study&) { return any_of_kind<Battery>(system); }
bool has_mid(const System& system, const Study&) { return any_of_kind<Mid>(system); }

/// Storage behind an interconnect device keeps its loads alive when the grid is gone.
bool has_backup(const System& system, const Study& study) {
    return has_mid(system, study) && has_storage(system, study);
}

bool is_dwelling(const System& system, const Study&) {
    const std::string occupancy = upper(system.project.occupancy);
    return occupancy.find("DWELLING") != std::string::npos ||
           occupancy.find("RESIDENCE") != std::string::npos ||
           occupancy.find("R-3") != std::string::npos;
}

bool on_roof(const System& system, const Study&) {
    return std::any_of(system.equipment.begin(), system.equipment.end(), [](const Equipment& e) {
        const auto* array = e.as<BranchArray>();
        return array && !array->roof.empty();
    });
}

bool has_several_sources(const System& system, const Study& study) {
    return has_pv(system, study) || has_storage(system, study);
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

bool has_fault_current(const System& system, const Study&) {
    return system.site.fault_current.value > 0;
}

bool has_waivers(const System&, const Study& study) { return !study.waived.empty(); }

} // namespace

const std::vector<Condition>& conditions() {
    static const std::vector<Condition> list = {
        {"pv", "there are photovoltaic modules", has_pv},
        {"roof_pv", "modules stand on a roof", on_roof},
        {"storage", "there is an energy storage system", has_storage},
        {"storage_disconnect", "the storage has a disconnecting means", has_storage_disconnect},
        {"mid", "there is a microgrid interconnect device", has_mid},
        {"backup", "loads are supplied while the utility is absent", has_backup},
        {"several_sources", "a source other than the utility supplies the premises",
         has_several_sources},
        {"dwelling", "a one- or two-family dwelling", is_dwelling},
        {"new_service_equipment", "the service equipment is new or replaced",
         has_new_service_equipment},
        {"existing_equipment", "existing equipment stays in use", has_existing_equipment},
        {"shutdown_switch", "a marked switch initiates rapid shutdown", has_shutdown_switch},
        {"utility_disconnect", "the utility asks for a lockable disconnect",
         has_utility_disconnect},
        {"fault_current", "the available fault current is stated", has_fault_current},
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
