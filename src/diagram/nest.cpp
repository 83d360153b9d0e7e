/// First step: each piece of equipment becomes a block that knows what is inside, what is written
/// beside it, and how much room that takes.
#include <algorithm>
#include <set>
#include <stdexcept>

#include "base/drafting_case.h"
#include "base/text.h"
#include "diagram/blocks.h"
#include "diagram/callouts.h"

namespace ohmfolio::diagram {

namespace {

struct Shape {
    Form form;
    std::string symbol;
};

Shape shape_of(const System& system, const Equipment& e) {
    if (e.is<BranchArray>()) {
        return {Form::symbol, "module-microinverter"};
    }
    if (e.is<StringArray>()) {
        return {Form::symbol, "pv-array"};
    }
    if (e.is<Generator>()) {
        return {Form::symbol, "generator"};
    }
    if (e.is<JunctionBox>()) {
        return {Form::splices, "splice"};
    }
    if (e.is<Disconnect>()) {
        const auto* ratings = system.ratings<DisconnectRatings>(e);
        return {Form::boxed, ratings != nullptr && ratings->fused ? "fused-switch" : "switch-open"};
    }
    if (e.is<Battery>()) {
        const bool feeds_through = !system.children(system.find(e.id)).empty();
        return {Form::symbol, feeds_through ? "battery-unit-through" : "battery-unit"};
    }
    if (e.is<Meter>()) {
        return {Form::symbol, "meter"};
    }
    if (e.is<Utility>()) {
        return {Form::symbol, "utility"};
    }
    return {Form::bus, {}};
}

std::string electrode_words(Electrode kind) {
    switch (kind) {
    case Electrode::ground_rod:
        return "GROUND ROD";
    case Electrode::two_ground_rods:
        return "TWO GROUND RODS";
    case Electrode::concrete_encased:
        return "CONCRETE-ENCASED ELECTRODE";
    case Electrode::water_pipe:
        return "WATER PIPE";
    case Electrode::ground_ring:
        return "GROUND RING";
    }
    return {};
}

/// Adds the keyed note `key` to the block when the drafting style words one.
void add_note(Plan& plan, Block& block, const std::string& key, const Fields& fields) {
    const auto found = plan.style.notes.find(key);
    if (found == plan.style.notes.end()) {
        return;
    }
    const std::vector<std::string> lines = filled({found->second}, fields);
    if (lines.empty()) {
        return;
    }
    const auto known = std::find(plan.notes.begin(), plan.notes.end(), lines.front());
    if (known == plan.notes.end()) {
        plan.notes.push_back(lines.front());
        block.notes.push_back(static_cast<int>(plan.notes.size()));
    } else {
        block.notes.push_back(static_cast<int>(known - plan.notes.begin()) + 1);
    }
}

void add_notes(Plan& plan, Block& block, const Fields& fields) {
    const Equipment& e = plan.of(block);
    if (const auto* disconnect = e.as<Disconnect>()) {
        if (disconnect->rapid_shutdown) {
            add_note(plan, block, "rapid_shutdown", fields);
        }
        if (disconnect->utility) {
            add_note(plan, block, "utility_disconnect", fields);
        }
        if (disconnect->storage) {
            add_note(plan, block, "storage_disconnect", fields);
        }
    }
    if (e.is<Mid>()) {
        add_note(plan, block, "mid", fields);
    }
    if (fields.count("connection_rule") != 0 && e.is<Panel>()) {
        add_note(plan, block, "point_of_connection", fields);
    }
    if (plan.system.grounding.at == block.equipment) {
        add_note(plan, block, "bonding", fields);
    }
}

bool symbols_present(const Plan& plan, Findings& findings) {
    std::set<std::string> missing;
    for (const Block& block : plan.blocks) {
        for (const std::string& name : symbols_needed(block)) {
            if (plan.symbols.find(name) == nullptr) {
                missing.insert(name);
            }
        }
    }
    for (const std::string& name : missing) {
        findings.push_back(
            {.rule = "diagram.symbol_missing",
             .severity = Severity::error,
             .message = "the diagram needs the symbol \"" + name + "\"",
             .expected = "a file " + name + ".svg in the symbol folder",
             .hint = "restore it from the folder symbols/ that came with the program"});
    }
    return missing.empty();
}

ControlNet* net_with(Plan& plan, int equipment) {
    for (ControlNet& net : plan.controls) {
        if (net.gateway == equipment ||
            std::find(net.members.begin(), net.members.end(), equipment) != net.members.end()) {
            return &net;
        }
    }
    return nullptr;
}

/// Puts two pieces of equipment on the same control wiring.
void join_controls(Plan& plan, int from, int to) {
    if (from < 0 || to < 0 || from == to) {
        return;
    }
    const bool reversed = net_with(plan, from) == nullptr && net_with(plan, to) != nullptr;
    const int known = reversed ? to : from, joining = reversed ? from : to;
    if (net_with(plan, known) == nullptr) {
        plan.controls.push_back({known, {}});
    }
    if (net_with(plan, joining) == nullptr) {
        net_with(plan, known)->members.push_back(joining);
    }
    plan.block(from).control = plan.block(to).control = true;
}

/// Gateways come first, so that whatever talks to one, or to something that does, is on its wiring.
void gather_controls(Plan& plan) {
    for (const Block& block : plan.blocks) {
        if (block.gateway) {
            plan.controls.push_back({block.equipment, {}});
        }
    }
    for (const CurrentTransformer& ct : plan.system.transformers) {
        join_controls(plan, ct.reports_to, ct.at);
    }
    for (const ControlLink& link : plan.system.controls) {
        join_controls(plan, link.from, link.to);
    }
}

Block nested(Plan& plan, int equipment) {
    Block block;
    block.equipment = equipment;
    const Equipment& e = plan.of(block);
    const Shape shape = shape_of(plan.system, e);
    block.form = shape.form;
    block.symbol = shape.symbol;
    add_taps(plan, block);
    if (const auto* combiner = plan.system.ratings<CombinerRatings>(e)) {
        block.gateway = combiner->gateway;
    }
    if (plan.system.grounding.at == equipment) {
        for (const auto& electrode : plan.system.grounding.electrodes) {
            block.electrodes.push_back(electrode_words(electrode.value));
        }
    }
    const Fields fields = fields_of(plan.system, plan.study, e);
    const auto callout = plan.style.callouts.find(kind_of(e));
    if (callout != plan.style.callouts.end()) {
        block.above = filled(callout->second.above, fields);
        block.below = filled(callout->second.below, fields);
    }
    add_notes(plan, block, fields);
    return block;
}

} // namespace

const Symbol& symbol_of(const Plan& plan, std::string_view name) {
    const Symbol* symbol = plan.symbols.find(name);
    if (symbol == nullptr) {
        throw std::logic_error("symbol not checked by nest: " + std::string(name));
    }
    return *symbol;
}

std::vector<std::string> symbols_needed(const Block& block) {
    std::vector<std::string> out;
    if (!block.symbol.empty()) {
        out.push_back(block.symbol);
    }
    for (const Tap& tap : block.taps) {
        if (!tap.symbol.empty()) {
            out.push_back(tap.symbol);
        }
        if (!tap.load.empty()) {
            out.push_back("load-arrow");
        }
        if (!tap.transformer.empty()) {
            out.push_back("current-transformer");
        }
    }
    if (block.gateway) {
        out.push_back("gateway");
    }
    if (!block.electrodes.empty()) {
        out.push_back("ground");
        out.push_back("neutral-bond");
    }
    return out;
}

const Tap* Block::tap(std::string_view terminal) const {
    const auto found = std::find_if(taps.begin(), taps.end(),
                                    [&](const Tap& t) { return t.terminal == terminal; });
    return found == taps.end() ? nullptr : &*found;
}

Tap* Block::tap(std::string_view terminal) {
    return const_cast<Tap*>(static_cast<const Block*>(this)->tap(terminal));
}

void nest(Plan& plan, Findings& findings) {
    for (std::size_t e = 0; e < plan.system.equipment.size(); ++e) {
        plan.blocks.push_back({});
        plan.blocks.back().equipment = static_cast<int>(e);
        plan.blocks.back() = nested(plan, static_cast<int>(e));
    }
    if (!symbols_present(plan, findings)) {
        plan.blocks.clear();
        return;
    }
    gather_controls(plan);
    for (Block& block : plan.blocks) {
        measure_block(plan, block);
    }
    for (std::size_t c = 0; c < plan.system.circuits.size(); ++c) {
        const Circuit& circuit = plan.system.circuits[c];
        plan.wires.push_back({static_cast<int>(c),
                              plan.system.child_of(circuit),
                              plan.system.parent_of(circuit),
                              {}});
    }
}

} // namespace ohmfolio::diagram
