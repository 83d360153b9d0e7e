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

int System::root() const {
    const auto found = std::ranges::find_if(
        equipment, [](const Equipment& e) { return e.parent < 0 && e.is<Utility>(); });
    return found == equipment.end() ? -1 : static_cast<int>(found - equipment.begin());
}

std::vector<int> System::children(int parent) const {
    std::vector<int> result;
    for (std::size_t i = 0; i < equipment.size(); ++i) {
        if (equipment[i].parent == parent) {
            result.push_back(static_cast<int>(i));
        }
    }
    return result;
}

int System::find(std::string_view id) const {
    const auto found = std::ranges::find(equipment, id, &Equipment::id);
    return found == equipment.end() ? -1 : static_cast<int>(found - equipment.begin());
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
    const auto found = std::ranges::find(breakers, circuit, &Breaker::circuit);
    return found == breakers.end() ? nullptr : &*found;
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
