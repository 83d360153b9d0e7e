#include "diagram/shedding.h"

#include <map>
#include <utility>

namespace ohmfolio::diagram {

namespace {

/// "in2" for "out2": where the circuit that leaves a junction box entered it.
std::string entry_of(const std::string& exit) {
    constexpr std::string_view out = "out";
    return exit.rfind(out, 0) == 0 ? "in" + exit.substr(out.size()) : std::string();
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

} // namespace ohmfolio::diagram
