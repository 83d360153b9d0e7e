#include "input/topology.h"

#include <algorithm>
#include <fmt/format.h>

namespace ohmfolio {
namespace {

int branches_of(const System& system, int equipment) {
    return static_cast<int>(std::ranges::count_if(
        system.children(equipment), [&](int i) { return system.at(i).is<BranchArray>(); }));
}

/// Inputs of `parent` that `child` competes for: of a MID, those for PV or those for storage; of an
/// inverter, those for storage.
bool same_inputs(const System& system, int parent, int one, int other) {
    if (system.at(parent).is<Inverter>()) {
        return !system.at(other).is<StringArray>() && !system.at(other).is<Panel>();
    }
    if (!system.at(parent).is<Mid>()) {
        return true;
    }
    return !has_loads(system.at(other)) && !behind(system, other).generator &&
           behind(system, one).storage == behind(system, other).storage;
}

/// What lies on the direct-current side of an inverter is part of it: PV where it has strings, else
/// storage.
void look_behind_inverter(const System& system, int inverter, Behind& result);

void look_behind(const System& system, int equipment, Behind& result) {
    const Equipment& e = system.at(equipment);
    if (e.is<Inverter>()) {
        look_behind_inverter(system, equipment, result);
        return;
    }
    result.pv |= e.is<BranchArray>() || e.is<StringArray>();
    result.storage |= e.is<Battery>();
    result.generator |= e.is<Generator>();
    result.loads |= has_loads(e);
    for (const int child : system.children(equipment)) {
        look_behind(system, child, result);
    }
}

void look_behind_inverter(const System& system, int inverter, Behind& result) {
    Behind direct;
    for (const int child : system.children(inverter)) {
        look_behind(system, child, system.at(child).is<Panel>() ? result : direct);
    }
    result.pv |= direct.pv || !direct.storage;
    result.storage |= direct.storage && !direct.pv;
}

/// "pv1", and "pv1.2" for the second array on that input.
std::string string_terminal(const System& system, int child) {
    const auto& array = std::get<StringArray>(system.at(child).detail);
    int number = 1;
    for (const int sibling : system.children(system.at(child).parent)) {
        if (sibling == child) {
            break;
        }
        const auto* other = system.at(sibling).as<StringArray>();
        if (other != nullptr && other->input.value == array.input.value) {
            ++number;
        }
    }
    return number == 1 ? fmt::format("pv{}", array.input.value)
                       : fmt::format("pv{}.{}", array.input.value, number);
}

} // namespace

bool has_loads(const Equipment& e) {
    const auto* panel = e.as<Panel>();
    return panel != nullptr && !panel->collects;
}

Behind behind(const System& system, int equipment) {
    Behind result;
    look_behind(system, equipment, result);
    return result;
}

bool carries_direct_current(const System& system, int child) {
    const Equipment& e = system.at(child);
    if (e.is<StringArray>()) {
        return true;
    }
    if (const auto* battery = system.ratings<BatteryRatings>(e)) {
        return battery->direct_current();
    }
    const auto feeders = system.children(child);
    return e.is<Disconnect>() && !feeders.empty() &&
           carries_direct_current(system, feeders.front());
}

int circuit_count(const System& system, int child) {
    return system.at(child).is<JunctionBox>() ? branches_of(system, child) : 1;
}

std::string outgoing_terminal(const System& system, int child, int n) {
    const Equipment& e = system.at(child);
    if (e.is<JunctionBox>()) {
        return fmt::format("out{}", n + 1);
    }
    if (e.is<Mid>()) {
        return "grid";
    }
    if (e.is<Panel>()) {
        return "main";
    }
    const bool passes_on =
        e.is<Disconnect>() || e.is<Meter>() || e.is<TransferSwitch>() || e.is<SupplyConnection>();
    return passes_on ? "line" : "out";
}

int first_input(const System& system, int child) {
    const int parent = system.at(child).parent;
    int number = 1;
    for (const int sibling : system.children(parent)) {
        if (sibling == child) {
            break;
        }
        number += same_inputs(system, parent, child, sibling) ? circuit_count(system, sibling) : 0;
    }
    return number;
}

std::string incoming_terminal(const System& system, int child, int n) {
    const Equipment& parent = system.at(system.at(child).parent);
    if (parent.is<Disconnect>() || parent.is<Meter>()) {
        return "load";
    }
    if (parent.is<Battery>()) {
        return "in";
    }
    if (parent.is<Utility>()) {
        return "service";
    }
    if (system.at(child).is<StringArray>()) {
        return string_terminal(system, child);
    }
    if (!parent.is<Mid>() && !parent.is<TransferSwitch>() && !parent.is<Inverter>()) {
        return fmt::format("in{}", first_input(system, child) + n);
    }
    if (has_loads(system.at(child))) {
        return "backup";
    }
    if (parent.is<Inverter>()) {
        return fmt::format("battery{}", first_input(system, child));
    }
    if (behind(system, child).generator) {
        return "generator";
    }
    return fmt::format("{}{}", behind(system, child).storage ? "storage" : "pv",
                       first_input(system, child));
}

bool device_at_parent(const System& system, int child) {
    const int index = system.at(child).parent;
    if (index < 0) {
        return false;
    }
    const Equipment& parent = system.at(index);
    const auto* panel = system.at(child).as<Panel>();
    if (panel != nullptr && panel->through_lugs) {
        return false;
    }
    const auto* disconnect = system.ratings<DisconnectRatings>(parent);
    return parent.is<Combiner>() || parent.is<Mid>() || parent.is<Panel>() ||
           (parent.is<Inverter>() && panel != nullptr) ||
           (disconnect != nullptr && disconnect->fused);
}

int service_meter(const System& system) {
    const auto meters = system.children(system.root());
    return meters.empty() ? -1 : meters.front();
}

bool is_service_equipment(const System& system, int equipment) {
    const int meter = service_meter(system);
    if (meter < 0) {
        return false;
    }
    const int parent = system.at(equipment).parent;
    return parent == meter || (parent >= 0 && system.at(parent).is<SupplyConnection>() &&
                               system.at(parent).parent == meter);
}

} // namespace ohmfolio
