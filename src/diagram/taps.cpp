/// Third step: the taps of every block, and the wires between them. A block has a tap for each
/// circuit that comes from a child, child by child, then one for each that goes to the parent, then
/// one for each load of a panel.
#include <algorithm>

#include "base/text.h"
#include "diagram/callouts.h"
#include "diagram/plan.h"
#include "model/shedding.h"

namespace ohmfolio::diagram {

namespace {

std::vector<std::string> transformers_on(const System& system, int equipment,
                                         const std::string& port) {
    std::vector<std::string> tags;
    for (const CurrentTransformer& ct : system.transformers) {
        if (ct.at == equipment && ct.port == port) {
            tags.push_back(ct.tag);
        }
    }
    return tags;
}

class Connection {
  public:
    explicit Connection(Plan& plan)
        : plan_(plan), circuits_(plan.blocks.size()), breakers_(plan.system.circuits.size(), -1),
          controllers_(controllers_by_circuit(plan.system)) {
        for (std::size_t c = 0; c < plan.system.circuits.size(); ++c) {
            const int child = plan.system.child_of(plan.system.circuits[c]);
            circuits_[static_cast<std::size_t>(child)].push_back(static_cast<int>(c));
        }
        for (std::size_t b = 0; b < plan.system.breakers.size(); ++b) {
            const int circuit = plan.system.breakers[b].circuit;
            breakers_[static_cast<std::size_t>(circuit)] = static_cast<int>(b);
        }
    }

    void connect() {
        for (Block& block : plan_.blocks) {
            for (const int child : block.children) {
                block.ac_bus = block.ac_bus ||
                               (plan_.of(block).is<Inverter>() && backs_up(block.equipment, child));
                join(block, child);
            }
            for (const int circuit : circuits_of(block.equipment)) {
                block.taps.push_back(parent_tap(block, plan_.circuit(circuit)));
            }
            add_loads(block);
        }
    }

  private:
    const std::vector<int>& circuits_of(int equipment) const {
        return circuits_[static_cast<std::size_t>(equipment)];
    }

    bool backs_up(int parent, int child) const {
        const std::vector<int>& circuits = circuits_of(child);
        return std::any_of(circuits.begin(), circuits.end(), [&](int c) {
            return plan_.circuit(c).use == CircuitUse::backup_feeder &&
                   plan_.system.parent_of(plan_.circuit(c)) == parent;
        });
    }

    void join(Block& parent, int child) {
        Block& block = plan_.block(child);
        int own = 0; // the child's taps to its parent come after those of its children
        for (const int grandchild : block.children) {
            own += static_cast<int>(circuits_of(grandchild).size());
        }
        for (const int circuit : circuits_of(child)) {
            Wire wire;
            wire.circuits = {circuit};
            wire.child = child;
            wire.parent = parent.equipment;
            wire.child_tap = own++;
            wire.parent_tap = static_cast<int>(parent.taps.size());
            parent.taps.push_back(child_tap(parent, block, circuit));
            block.wires.push_back(static_cast<int>(plan_.wires.size()));
            plan_.wires.push_back(std::move(wire));
        }
    }

    /// The tap of `parent` where a circuit to one of its children ends.
    Tap child_tap(const Block& parent, const Block& child, int circuit) const {
        Tap tap;
        tap.terminals = {{parent.equipment, plan_.circuit(circuit).to}};
        tap.side = child.hung ? Side::right : Side::left;
        const int breaker = breakers_[static_cast<std::size_t>(circuit)];
        if (breaker >= 0 &&
            plan_.system.breakers[static_cast<std::size_t>(breaker)].at == parent.equipment) {
            tap.device = Device::breaker;
            tap.symbol = "circuit-breaker";
            tap.breakers = {breaker};
            tap.controller = controllers_[static_cast<std::size_t>(circuit)];
        } else if (plan_.of(parent).is<TransferSwitch>() &&
                   plan_.circuit(circuit).use != CircuitUse::backup_feeder) {
            tap.device = Device::standby;
            tap.symbol = "transfer-contact";
        } else if (plan_.of(parent).is<Inverter>() && tracker_input(tap.terminals.front().name)) {
            tap.device = Device::tracker;
            tap.symbol = "tracker";
        }
        return tap;
    }

    /// The tap of a block where its own circuit to its parent begins.
    Tap parent_tap(const Block& block, const Circuit& c) const {
        const Equipment& e = plan_.of(block);
        Tap tap;
        tap.terminals = {{block.equipment, c.from}};
        tap.side = block.hung ? Side::left : Side::right;
        tap.toward_utility = true;
        tap.transformers = transformers_on(plan_.system, block.equipment, c.from);
        const auto* panel = e.as<Panel>();
        if (panel != nullptr && panel->main) {
            tap.symbol = "circuit-breaker";
            tap.device = Device::main;
            tap.label = "MAIN " + trimmed(panel->main->value.value, 0) + " A " +
                        std::to_string(plan_.system.lines_at(block.equipment)) + "P";
        } else if (e.is<Mid>() || e.is<TransferSwitch>() || block.ac_bus) {
            tap.symbol = "transfer-contact";
            tap.device = Device::contact;
        } else if (e.is<Inverter>()) {
            tap.symbol = "inverter";
            tap.device = Device::converter;
        }
        return tap;
    }

    void add_loads(Block& block) const {
        const auto* panel = plan_.of(block).as<Panel>();
        for (std::size_t i = 0; panel != nullptr && i < panel->loads.size(); ++i) {
            Tap tap;
            tap.side = Side::right;
            tap.device = Device::load;
            tap.symbol = "circuit-breaker";
            tap.loads = {static_cast<int>(i)};
            tap.controller = panel->loads[i].shed_by;
            block.taps.push_back(std::move(tap));
        }
    }

    Plan& plan_;
    std::vector<std::vector<int>> circuits_; ///< by child, in the order of the text
    std::vector<int> breakers_;              ///< by circuit
    std::vector<std::string> controllers_;   ///< by circuit
};

} // namespace

void connect(Plan& whole) { Connection(whole).connect(); }

} // namespace ohmfolio::diagram
