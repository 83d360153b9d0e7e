#include "input/topology.h"

#include <algorithm>
#include <fmt/format.h>

namespace ohmfolio {
namespace {

int branches_of(const System& system, int equipment) {
    return static_cast<int>(std::ranges::count_if(
        system.children(equipment), [&](int i) { return system.at(i).is<BranchArray>(); }));
}

/// Inputs of `parent` that `child` competes for: of a MID, those for PV or those for storage.
bool same_inputs(const System& system, int parent, int one, int other) {
    if (!system.at(parent).is<Mid>()) {
        return true;
    }
    return !system.at(other).is<Panel>() && !behind(system, other).generator &&
           behind(system, one).storage == behind(system, other).storage;
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

Behind behind(const System& system, int equipment) {
    Behind result;
    for (const int i : system.subtree(equipment)) {
        result.pv |= system.at(i).is<BranchArray>() || system.at(i).is<Inverter>();
        result.storage |= system.at(i).is<Battery>();
        result.generator |= system.at(i).is<Generator>();
        result.loads |= system.at(i).is<Panel>();
    }
    return result;
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
    if (!parent.is<Mid>() && !parent.is<TransferSwitch>()) {
        return fmt::format("in{}", first_input(system, child) + n);
    }
    if (system.at(child).is<Panel>()) {
        return "backup";
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
