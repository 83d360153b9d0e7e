/// First step: each piece of equipment becomes a block that knows what is inside, what is written
/// beside it, and how much room that takes.
#include <algorithm>
#include <set>
#include <stdexcept>

#include "base/drafting_case.h"
#include "base/text.h"
#include "diagram/callouts.h"
#include "diagram/interior.h"

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
    const Equipment& e = plan.system.equipment[static_cast<std::size_t>(equipment)];
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
    } else if (e.is<Mid>()) {
        tap.symbol = "transfer-contact";
        tap.device = "contact:" + e.id;
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

void add_taps(Plan& plan, Block& block) {
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

struct Shape {
    Form form;
    std::string symbol;
};

Shape shape_of(const System& system, const Equipment& e) {
    if (e.is<BranchArray>()) {
        return {Form::symbol, "module-microinverter"};
    }
    if (e.is<JunctionBox>()) {
        return {Form::splices, "splice"};
    }
    if (e.is<Disconnect>()) {
        const auto* ratings = system.ratings<DisconnectRatings>(e);
        return {Form::boxed, ratings != nullptr && ratings->fused ? "fused-switch" : "switch-open"};
    }
    if (e.is<Battery>()) {
        return {Form::symbol, "battery-unit"};
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
        return "CONCRETE-ENCASED";
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

// ---- room ------------------------------------------------------------------------------------

Length widest(const std::vector<std::string>& lines, const TextStyle& style,
              const TextMeasure& measure) {
    Length width{};
    for (const std::string& line : lines) {
        width = std::max(width, measure.width(line, style));
    }
    return width;
}

/// Room from the bus to the edge of the enclosure that this tap asks for.
Length zone_of(const Plan& plan, const Tap& tap) {
    const Spacing& s = plan.spacing;
    Length width = s.lead * 2 + s.body_pad;
    const Length symbol = tap.symbol.empty() ? Length{} : symbol_of(plan, tap.symbol).size.width;
    if (!tap.load.empty()) {
        return width + symbol + symbol_of(plan, "load-arrow").size.width + s.text_gap +
               plan.measure.width(tap.load, plan.style.note);
    }
    width += std::max(symbol, plan.measure.width(tap.label, plan.style.note));
    if (!tap.transformer.empty()) {
        width += symbol_of(plan, "current-transformer").size.width + s.lead * 2;
    }
    return width;
}

void measure_bus(const Plan& plan, Block& block) {
    const Spacing& s = plan.spacing;
    block.left_zone = block.right_zone = s.body_pad + s.lead * 2;
    for (const Tap& tap : block.taps) {
        Length& zone = tap.side == Side::left ? block.left_zone : block.right_zone;
        zone = std::max(zone, zone_of(plan, tap));
    }
    if (block.gateway) {
        const Length gateway = symbol_of(plan, "gateway").size.width;
        block.right_zone = std::max(block.right_zone, gateway + s.body_pad * 3 + s.lead);
    }
    block.body_width = block.left_zone + block.right_zone;
}

void measure_body(const Plan& plan, Block& block) {
    const Spacing& s = plan.spacing;
    switch (block.form) {
    case Form::symbol:
        block.body_width = symbol_of(plan, block.symbol).size.width;
        break;
    case Form::boxed:
        block.body_width = symbol_of(plan, block.symbol).size.width + s.body_pad * 2;
        break;
    case Form::splices:
        block.body_width = inches(0.36);
        break;
    case Form::bus:
        measure_bus(plan, block);
        break;
    }
}

/// The first line is broken at `first`, the others at `width`.
std::vector<std::string> wrapped_all(const std::vector<std::string>& lines, const TextStyle& style,
                                     Length first, Length width, const TextMeasure& measure) {
    std::vector<std::string> out;
    for (const std::string& line : lines) {
        for (std::string& piece : wrapped(line, style, out.empty() ? first : width, measure)) {
            out.push_back(std::move(piece));
        }
    }
    return out;
}

/// Lettering is as wide as the body of a bus block, and as the house allows beside a small symbol.
/// Where control wiring leaves through the upper edge, lettering above keeps clear of it.
void measure_lettering(const Plan& plan, Block& block) {
    const Spacing& s = plan.spacing;
    const bool wide = block.form == Form::bus;
    const Length limit = wide                        ? block.body_width
                         : block.form == Form::boxed ? block.body_width + inches(0.25)
                                                     : s.widest_caption;
    const Length control = wide && block.control ? s.control_clear * 3 : Length{};
    const Length notes = notes_width(block, s);
    const Length electrodes = block.electrodes.empty() ? Length{} : electrode_indent(s);
    // Beside a small symbol the notes may stand out; over an enclosure they keep within its width.
    const Length name = wide ? limit - control - notes : limit;
    block.above = wrapped_all(block.above, plan.style.name, name, limit - control, plan.measure);
    block.below = wrapped_all(block.below, plan.style.note, limit - electrodes, limit - electrodes,
                              plan.measure);
    block.width = std::max(
        {block.body_width,
         notes + widest({block.above.begin(), block.above.begin() + (block.above.empty() ? 0 : 1)},
                        plan.style.name, plan.measure),
         widest(block.above, plan.style.name, plan.measure),
         widest(block.below, plan.style.note, plan.measure)});
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
        measure_body(plan, block);
        measure_lettering(plan, block);
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
