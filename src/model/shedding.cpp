#include "model/shedding.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace ohmfolio {

namespace {

/// "in2" for "out2": where the circuit that leaves a junction box entered it.
std::string entry_of(const std::string& exit) {
    constexpr std::string_view out = "out";
    return exit.rfind(out, 0) == 0 ? "in" + exit.substr(out.size()) : std::string();
}

/// Panels and combiners on whose breakers the contacts of `controller` act. In a junction box its
/// circuits are only spliced.
std::set<int> holders_of(const System& system, const std::vector<std::string>& by_circuit,
                         const std::string& controller) {
    std::set<int> holders;
    for (std::size_t c = 0; c < by_circuit.size(); ++c) {
        const int parent = system.parent_of(system.circuits[c]);
        if (by_circuit[c] == controller && !system.at(parent).is<JunctionBox>()) {
            holders.insert(parent);
        }
    }
    for (int i = 0; i < static_cast<int>(system.equipment.size()); ++i) {
        const auto* panel = system.at(i).as<Panel>();
        if (panel != nullptr &&
            std::any_of(panel->loads.begin(), panel->loads.end(),
                        [&](const LoadCircuit& load) { return load.shed_by == controller; })) {
            holders.insert(i);
        }
    }
    return holders;
}

} // namespace

std::vector<std::string> controllers_by_circuit(const System& system) {
    std::map<std::pair<int, std::string>, std::string> entering; // by parent and terminal
    for (const Circuit& c : system.circuits) {
        if (const auto* branch = system.at(system.child_of(c)).as<BranchArray>()) {
            entering[{system.parent_of(c), c.to}] = branch->shed_by;
        }
    }
    std::vector<std::string> controllers;
    for (const Circuit& c : system.circuits) {
        const int child = system.child_of(c);
        const auto* branch = system.at(child).as<BranchArray>();
        const auto through = entering.find({child, entry_of(c.from)});
        controllers.push_back(branch != nullptr           ? branch->shed_by
                              : through != entering.end() ? through->second
                                                          : std::string());
    }
    return controllers;
}

std::vector<ControlLink> shedding_links(const System& system) {
    std::vector<ControlLink> links;
    const std::vector<std::string> by_circuit = controllers_by_circuit(system);
    for (const LoadController& controller : system.load_controllers) {
        for (const int holder : holders_of(system, by_circuit, controller.id)) {
            if (holder == controller.mid) {
                continue; // within one enclosure
            }
            links.push_back({.from = controller.mid,
                             .to = holder,
                             .purpose = "LOAD CONTROL",
                             .controller = controller.id});
        }
    }
    return links;
}

} // namespace ohmfolio
