/// First step: each piece of equipment becomes a block that knows what it is drawn with and what it
/// is joined to.
#include <algorithm>
#include <set>
#include <stdexcept>

#include "diagram/plan.h"

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
        const auto* ratings = system.ratings<BatteryRatings>(e);
        const bool direct = ratings != nullptr && ratings->direct_current();
        return {Form::symbol, direct ? "battery-unit-dc" : "battery-unit"};
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
        plan.controls.push_back({known, {}, known});
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
            plan.controls.push_back({block.equipment, {}, block.equipment});
        }
    }
    for (const CurrentTransformer& ct : plan.system.transformers) {
        join_controls(plan, ct.reports_to, ct.at);
    }
    for (const ControlLink& link : plan.system.controls) {
        join_controls(plan, link.from, link.to);
    }
}

Block nested(const Plan& plan, int equipment) {
    Block block;
    block.equipment = equipment;
    block.members = {equipment};
    const Equipment& e = plan.of(block);
    block.parent = e.parent;
    const Shape shape = shape_of(plan.system, e);
    block.form = shape.form;
    block.symbol = shape.symbol;
    if (const auto* combiner = plan.system.ratings<CombinerRatings>(e)) {
        block.gateway = combiner->gateway;
    }
    if (plan.system.grounding.at == equipment) {
        for (const auto& electrode : plan.system.grounding.electrodes) {
            block.electrodes.push_back(electrode_words(electrode.value));
        }
    }
    return block;
}

/// Parents come to know their children, in the order of the text.
void link_children(Plan& plan) {
    for (std::size_t i = 0; i < plan.blocks.size(); ++i) {
        if (const int parent = plan.blocks[i].parent; parent >= 0) {
            Block& feeds = plan.block(parent);
            feeds.children.push_back(static_cast<int>(i));
            if (plan.of(feeds).is<Battery>()) {
                feeds.symbol += feeds.symbol.ends_with("-through") ? "" : "-through";
            }
        }
    }
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
        if (tap.device == Device::load) {
            out.push_back("load-arrow");
        }
        if (!tap.controller.empty()) {
            out.push_back("contactor");
        }
        if (!tap.transformers.empty()) {
            out.push_back("current-transformer");
        }
    }
    if (block.ac_bus) {
        out.push_back("inverter");
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

void nest(Plan& whole) {
    const System& system = whole.system;
    for (std::size_t e = 0; e < system.equipment.size(); ++e) {
        whole.blocks.push_back(nested(whole, static_cast<int>(e)));
    }
    whole.roots = {system.root()};
    link_children(whole);
    gather_controls(whole);
}

bool symbols_present(const Plan& whole, Findings& findings) {
    std::set<std::string> missing;
    for (const Block& block : whole.blocks) {
        for (const std::string& name : symbols_needed(block)) {
            if (whole.symbols.find(name) == nullptr) {
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

} // namespace ohmfolio::diagram
