/// Which terminals the wires must join, from the system alone: the drawing is checked against it.
#include <algorithm>
#include <map>

#include "diagram/callouts.h"
#include "diagram/diagram.h"
#include "model/shedding.h"

namespace ohmfolio {

namespace {

/// Names that are joined; each set has one representative.
class Joined {
  public:
    void join(const std::string& a, const std::string& b) { parent_[find(a)] = find(b); }

    Netlist sets() {
        std::map<std::string, std::vector<std::string>> by_root;
        for (const auto& [name, parent] : parent_) {
            by_root[find(name)].push_back(name);
        }
        Netlist out;
        for (auto& [root, names] : by_root) {
            out.push_back(std::move(names)); // a map's keys come sorted
        }
        std::sort(out.begin(), out.end());
        return out;
    }

  private:
    std::string find(const std::string& name) {
        auto at = parent_.try_emplace(name, name).first;
        while (at->second != at->first) {
            at = parent_.find(at->second);
        }
        return at->first;
    }

    std::map<std::string, std::string> parent_;
};

std::string terminal(const System& system, int equipment, const std::string& port) {
    return "equipment:" + system.at(equipment).id + "/" + port;
}

bool has_bus(const Equipment& e) {
    return e.is<Combiner>() || e.is<Mid>() || e.is<Panel>() || e.is<Inverter>() ||
           e.is<TransferSwitch>() || e.is<SupplyConnection>();
}

/// An inverter with a backup output has a bus on either side of its converter.
bool has_ac_bus(const System& system, int index) {
    const auto& into = system.relations.circuits_into[static_cast<std::size_t>(index)];
    return system.at(index).is<Inverter>() && std::any_of(into.begin(), into.end(), [&](int c) {
               return system.circuits[static_cast<std::size_t>(c)].use == CircuitUse::backup_feeder;
           });
}

/// The parent's end of a circuit: through a breaker there, if it has one, to the bus.
void join_to_parent(const System& system, const Circuit& circuit, const Breaker* breaker, bool shed,
                    Joined& joined) {
    const int index = system.parent_of(circuit);
    const bool backup = circuit.use == CircuitUse::backup_feeder;
    const std::string bus =
        (backup && has_ac_bus(system, index) ? "ac-bus:" : "bus:") + system.at(index).id + "/upper";
    if (!has_bus(system.at(index))) {
        return;
    }
    if (breaker != nullptr && breaker->at == index) {
        const std::string device = "breaker:" + breaker->tag;
        const std::string contactor = "contactor:" + device;
        if (shed) {
            joined.join(contactor + "/line", device + "/load");
        }
        joined.join(terminal(system, index, circuit.to), (shed ? contactor : device) + "/load");
        joined.join(device + "/line", bus);
    } else if (system.at(index).is<TransferSwitch>() && circuit.use != CircuitUse::backup_feeder) {
        const std::string contact = "standby:" + system.at(index).id;
        joined.join(terminal(system, index, circuit.to), contact + "/load");
        joined.join(contact + "/line", bus);
    } else if (system.at(index).is<Inverter>() && diagram::tracker_input(circuit.to) > 0) {
        const std::string edge = terminal(system, index, circuit.to);
        joined.join(edge, "tracker:" + edge + "/load");
        joined.join("tracker:" + edge + "/line", bus);
    } else {
        joined.join(terminal(system, index, circuit.to), bus);
    }
}

std::vector<const Breaker*> breakers_by_circuit(const System& system) {
    std::vector<const Breaker*> out(system.circuits.size());
    for (const Breaker& breaker : system.breakers) {
        out[static_cast<std::size_t>(breaker.circuit)] = &breaker;
    }
    return out;
}

/// The supply of a bus: through the main breaker or the MID's contact where there is one.
void join_supply(const System& system, int index, const Circuit& circuit, Joined& joined) {
    const Equipment& e = system.at(index);
    const std::string bus = "bus:" + e.id + "/upper";
    if (has_ac_bus(system, index)) {
        const std::string ac = "ac-bus:" + e.id;
        joined.join("converter:" + e.id + "/load", bus);
        joined.join("converter:" + e.id + "/line", ac + "/upper");
        joined.join(ac + "/upper", ac + "/lower");
        joined.join("contact:" + e.id + "/load", ac + "/upper");
        joined.join(terminal(system, index, circuit.from), "contact:" + e.id + "/line");
        return;
    }
    const auto* panel = e.as<Panel>();
    const std::string device = panel != nullptr && panel->main         ? "main:" + e.id
                               : e.is<Mid>() || e.is<TransferSwitch>() ? "contact:" + e.id
                               : e.is<Inverter>()                      ? "converter:" + e.id
                                                                       : std::string();
    const std::string edge = terminal(system, index, circuit.from);
    if (device.empty()) {
        joined.join(edge, bus);
    } else {
        joined.join(edge, device + "/line");
        joined.join(device + "/load", bus);
    }
}

void join_inside(const System& system, int index, Joined& joined) {
    const Equipment& e = system.at(index);
    const std::string bus = "bus:" + e.id + "/upper";
    if (has_bus(e)) {
        joined.join(bus, "bus:" + e.id + "/lower");
    }
    if (const auto* ratings = system.ratings<CombinerRatings>(e); ratings && ratings->gateway) {
        joined.join("gateway:" + e.id + "/supply", bus);
    }
    if (const auto* panel = e.as<Panel>()) {
        for (const LoadCircuit& load : panel->loads) {
            const std::string device = "load:" + e.id + "/" + load.name;
            joined.join(device + "/line", bus);
            if (!load.shed_by.empty()) {
                joined.join(device + "/load", "contactor:" + device + "/line");
            }
        }
    }
    if (e.is<Disconnect>()) {
        joined.join(terminal(system, index, "load"), "switch:" + e.id + "/load");
        joined.join(terminal(system, index, "line"), "switch:" + e.id + "/line");
    }
    if (system.grounding.at == index) {
        for (std::size_t i = 0; i < system.grounding.electrodes.size(); ++i) {
            joined.join(terminal(system, index, "ground"), "electrode:" + std::to_string(i + 1));
        }
    }
}

} // namespace

Netlist intended_netlist(const System& system) {
    Joined joined;
    for (std::size_t e = 0; e < system.equipment.size(); ++e) {
        join_inside(system, static_cast<int>(e), joined);
    }
    const std::vector<const Breaker*> breakers = breakers_by_circuit(system);
    const std::vector<std::string> controllers = controllers_by_circuit(system);
    for (std::size_t c = 0; c < system.circuits.size(); ++c) {
        const Circuit& circuit = system.circuits[c];
        join_to_parent(system, circuit, breakers[c], !controllers[c].empty(), joined);
        const int child = system.child_of(circuit);
        const Equipment& e = system.at(child);
        joined.join(terminal(system, child, circuit.from),
                    terminal(system, system.parent_of(circuit), circuit.to));
        if (has_bus(e)) {
            join_supply(system, child, circuit, joined);
        }
        if (e.is<JunctionBox>() && circuit.from.rfind("out", 0) == 0) {
            joined.join(terminal(system, child, "in" + circuit.from.substr(3)),
                        terminal(system, child, circuit.from));
        }
    }
    return joined.sets();
}

} // namespace ohmfolio
