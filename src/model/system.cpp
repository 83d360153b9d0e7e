#include "model/system.h"

#include <algorithm>

namespace ohmfolio {
namespace {

void append_subtree(const System& system, int equipment, std::vector<int>& all) {
    all.push_back(equipment);
    for (const int child : system.children(equipment)) {
        append_subtree(system, child, all);
    }
}

} // namespace

void System::relate() {
    relations = {};
    relations.children.resize(equipment.size());
    relations.circuits_from.resize(equipment.size());
    relations.circuits_into.resize(equipment.size());
    relations.run_from.assign(equipment.size(), -1);
    relations.breaker_of.assign(circuits.size(), -1);
    for (int i = 0; i < static_cast<int>(equipment.size()); ++i) {
        const Equipment& e = at(i);
        relations.equipment_by_id.emplace(e.id, i);
        if (e.parent >= 0) {
            relations.children[static_cast<std::size_t>(e.parent)].push_back(i);
        } else if (e.is<Utility>() && relations.root < 0) {
            relations.root = i;
        }
    }
    for (int i = static_cast<int>(runs.size()) - 1; i >= 0; --i) {
        const auto child = static_cast<std::size_t>(runs[static_cast<std::size_t>(i)].child);
        relations.run_from[child] = i;
    }
    for (int i = 0; i < static_cast<int>(circuits.size()); ++i) {
        const Circuit& circuit = circuits[static_cast<std::size_t>(i)];
        relations.circuits_from[static_cast<std::size_t>(child_of(circuit))].push_back(i);
        relations.circuits_into[static_cast<std::size_t>(parent_of(circuit))].push_back(i);
    }
    for (int i = static_cast<int>(breakers.size()) - 1; i >= 0; --i) {
        const int circuit = breakers[static_cast<std::size_t>(i)].circuit;
        relations.breaker_of[static_cast<std::size_t>(circuit)] = i;
    }
}

const std::vector<int>& System::children(int parent) const {
    return relations.children[static_cast<std::size_t>(parent)];
}

int System::find(std::string_view id) const {
    const auto found = relations.equipment_by_id.find(id);
    return found == relations.equipment_by_id.end() ? -1 : found->second;
}

const Record* System::record(const Equipment& e) const {
    return e.record < 0 ? nullptr : &catalogue.records[static_cast<std::size_t>(e.record)];
}

int System::lines_at(int index) const {
    const Equipment& e = at(index);
    if (const Record* r = record(e)) {
        if (const auto phases = phases_of(r->ratings)) {
            return *phases == 3 ? 3 : 2;
        }
    }
    if (e.is<Utility>()) {
        return lines_of(site.supply);
    }
    int most = 0;
    for (const Circuit& c : circuits) {
        if (!c.direct_current && (child_of(c) == index || parent_of(c) == index)) {
            most = std::max(most, c.lines);
        }
    }
    return most == 0 ? 2 : most;
}

int System::parent_of(const Circuit& c) const {
    return equipment[static_cast<std::size_t>(child_of(c))].parent;
}

namespace {

/// A feeder behind which there are loads and nothing that sends power out through it. A generator
/// does not: a transfer switch or an interconnect device keeps it from the utility.
bool feeds_loads_alone(const System& system, const Circuit& c) {
    if (c.use == CircuitUse::backup_feeder)
        return true;
    if (c.use != CircuitUse::source_feeder)
        return false;
    return std::ranges::none_of(system.subtree(system.child_of(c)), [&](int i) {
        const Equipment& e = system.at(i);
        return e.is<BranchArray>() || e.is<Inverter>() || e.is<Battery>();
    });
}

} // namespace

int System::source_end(const Circuit& c) const {
    return feeds_loads_alone(*this, c) ? parent_of(c) : child_of(c);
}

int System::load_end(const Circuit& c) const {
    return feeds_loads_alone(*this, c) ? child_of(c) : parent_of(c);
}

const Breaker* System::breaker_of(int circuit) const {
    const int found = relations.breaker_of[static_cast<std::size_t>(circuit)];
    return found < 0 ? nullptr : &breakers[static_cast<std::size_t>(found)];
}

std::vector<int> System::subtree(int top) const {
    std::vector<int> all;
    append_subtree(*this, top, all);
    return all;
}

const RoofPlane* System::roof(std::string_view name) const {
    const auto found = std::ranges::find(site.roofs, name, &RoofPlane::name);
    return found == site.roofs.end() ? nullptr : &*found;
}

int System::inverter_count(int top) const {
    int count = 0;
    for (const int i : subtree(top)) {
        if (const auto* branch = equipment[static_cast<std::size_t>(i)].as<BranchArray>()) {
            count += branch->count;
        }
    }
    return count;
}

} // namespace ohmfolio
