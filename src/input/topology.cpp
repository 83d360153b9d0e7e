#include "input/topology.h"

#include <algorithm>
#include <fmt/format.h>

namespace ohmfolio {
namespace {

const Equipment& at(const System& system, int index) {
    return system.equipment[static_cast<std::size_t>(index)];
}

int branches_of(const System& system, int equipment) {
    return static_cast<int>(std::ranges::count_if(
        system.children(equipment), [&](int i) { return at(system, i).is<BranchArray>(); }));
}

/// Inputs of `parent` that `child` competes for: of a MID, those for PV or those for storage.
bool same_inputs(const System& system, int parent, int one, int other) {
    if (!at(system, parent).is<Mid>()) {
        return true;
    }
    return !at(system, other).is<Panel>() &&
           behind(system, one).storage == behind(system, other).storage;
}

} // namespace

Behind behind(const System& system, int equipment) {
    Behind result;
    for (const int i : system.subtree(equipment)) {
        result.pv |= at(system, i).is<BranchArray>();
        result.storage |= at(system, i).is<Battery>();
        result.loads |= at(system, i).is<Panel>();
    }
    return result;
}

int circuit_count(const System& system, int child) {
    return at(system, child).is<JunctionBox>() ? branches_of(system, child) : 1;
}

std::string outgoing_terminal(const System& system, int child, int n) {
    const Equipment& e = at(system, child);
    if (e.is<JunctionBox>()) {
        return fmt::format("out{}", n + 1);
    }
    if (e.is<Mid>()) {
        return "grid";
    }
    if (e.is<Panel>()) {
        return "main";
    }
    return e.is<Disconnect>() || e.is<Meter>() ? "line" : "out";
}

int first_input(const System& system, int child) {
    const int parent = at(system, child).parent;
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
    const Equipment& parent = at(system, at(system, child).parent);
    if (parent.is<Disconnect>() || parent.is<Meter>()) {
        return "load";
    }
    if (parent.is<Battery>()) {
        return "in";
    }
    if (parent.is<Utility>()) {
        return "service";
    }
    if (!parent.is<Mid>()) {
        return fmt::format("in{}", first_input(system, child) + n);
    }
    if (at(system, child).is<Panel>()) {
        return "backup";
    }
    return fmt::format("{}{}", behind(system, child).storage ? "storage" : "pv",
                       first_input(system, child));
}

bool device_at_parent(const System& system, int child) {
    const int index = at(system, child).parent;
    if (index < 0) {
        return false;
    }
    const Equipment& parent = at(system, index);
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
    return meter >= 0 && at(system, equipment).parent == meter;
}

} // namespace ohmfolio
