/// The taps of a block: one for each circuit that comes from a child, one for each that goes to the
/// parent, one for each load of a panel.
#include "base/drafting_case.h"
#include "base/text.h"
#include "diagram/blocks.h"
#include "diagram/callouts.h"

namespace ohmfolio::diagram {

namespace {

/// A feeder to backed-up loads leaves its parent away from the utility.
bool leaves_to_the_right(const Circuit& circuit) {
    return circuit.use == CircuitUse::backup_feeder;
}

std::string transformer_on(const System& system, int equipment, const std::string& port) {
    for (const CurrentTransformer& ct : system.transformers) {
        if (ct.at == equipment && ct.port == port) {
            return ct.tag;
        }
    }
    return {};
}

/// The tap of `equipment` where a circuit to one of its children ends.
Tap child_tap(const Plan& plan, int circuit) {
    const Circuit& c = plan.system.circuits[static_cast<std::size_t>(circuit)];
    Tap tap;
    tap.terminal = c.to;
    tap.side = leaves_to_the_right(c) ? Side::right : Side::left;
    const Breaker* breaker = plan.system.breaker_of(circuit);
    if (breaker != nullptr && breaker->at == plan.system.parent_of(c)) {
        const auto index = static_cast<int>(breaker - plan.system.breakers.data());
        tap.symbol = "circuit-breaker";
        tap.device = "breaker:" + breaker->tag;
        tap.label = breaker_label(plan.system, plan.study, index);
    }
    return tap;
}

/// The tap of `equipment` where its own circuit to its parent begins.
Tap parent_tap(const Plan& plan, int equipment, const Circuit& c) {
    const Equipment& e = plan.system.at(equipment);
    Tap tap;
    tap.terminal = c.from;
    tap.side = leaves_to_the_right(c) ? Side::left : Side::right;
    tap.toward_utility = true;
    tap.transformer = transformer_on(plan.system, equipment, c.from);
    const auto* panel = e.as<Panel>();
    if (panel != nullptr && panel->main) {
        tap.symbol = "circuit-breaker";
        tap.device = "main:" + e.id;
        tap.label = "MAIN " + trimmed(panel->main->value.value, 0) + " A 2P";
    } else if (e.is<Mid>() || e.is<TransferSwitch>()) {
        tap.symbol = "transfer-contact";
        tap.device = "contact:" + e.id;
    } else if (e.is<Inverter>()) {
        tap.symbol = "inverter";
        tap.device = "converter:" + e.id;
    }
    return tap;
}

Tap load_tap(const Equipment& panel, const LoadCircuit& load) {
    Tap tap;
    tap.side = Side::right;
    tap.symbol = "circuit-breaker";
    tap.device = "load:" + panel.id + "/" + load.name;
    tap.load = drafting_case(trimmed(load.breaker.value.value, 0) + " A " +
                             std::to_string(load.poles) + "P " + load.name);
    return tap;
}

/// Circuits that end at `equipment`, child by child in the order of the text.
std::vector<int> circuits_from_children(const System& system, int equipment) {
    std::vector<int> out;
    for (const int child : system.children(equipment)) {
        for (std::size_t c = 0; c < system.circuits.size(); ++c) {
            if (system.child_of(system.circuits[c]) == child) {
                out.push_back(static_cast<int>(c));
            }
        }
    }
    return out;
}

} // namespace

void add_taps(const Plan& plan, Block& block) {
    const Equipment& e = plan.of(block);
    for (const int circuit : circuits_from_children(plan.system, block.equipment)) {
        block.taps.push_back(child_tap(plan, circuit));
    }
    for (const Circuit& c : plan.system.circuits) {
        if (plan.system.child_of(c) == block.equipment) {
            block.taps.push_back(parent_tap(plan, block.equipment, c));
        }
    }
    if (const auto* panel = e.as<Panel>()) {
        for (const LoadCircuit& load : panel->loads) {
            block.taps.push_back(load_tap(e, load));
        }
    }
}

} // namespace ohmfolio::diagram
