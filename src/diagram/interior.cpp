#include "diagram/interior.h"

#include <algorithm>
#include <type_traits>

namespace ohmfolio::diagram {

namespace {

Point mirrored(Point p, const Symbol& symbol) { return {symbol.size.width - p.x, p.y}; }

Item mirrored(Item item, const Symbol& symbol) {
    if (auto* path = std::get_if<Path>(&item)) {
        for (Segment& s : path->segments) {
            s.to = mirrored(s.to, symbol);
            s.control1 = mirrored(s.control1, symbol);
            s.control2 = mirrored(s.control2, symbol);
        }
    } else if (auto* text = std::get_if<Text>(&item)) {
        text->at = mirrored(text->at, symbol);
        text->align = text->align == Align::left    ? Align::right
                      : text->align == Align::right ? Align::left
                                                    : Align::centre;
    }
    return item;
}

/// Draws the inside of one bus block.
class Interior {
  public:
    Interior(const Plan& plan, const Block& block, Frame& frame)
        : plan_(plan), block_(block), frame_(frame), id_(plan.of(block).id),
          shows_("equipment:" + id_), bus_x_(block.body.low.x + block.left_zone),
          right_bus_x_(bus_x_ + converter_room(plan, block)) {}

    void draw() {
        frame_.add(rectangle(block_.body, enclosure_stroke(plan_.of(block_))), Role::enclosure,
                   shows_);
        for (const Tap& tap : block_.taps) {
            if (tap.device == Device::load) {
                draw_load(tap);
            } else if (tap.side == Side::left) {
                draw_left(tap);
            } else {
                draw_right(tap);
            }
        }
        draw_gateway();
        if (block_.ac_bus) {
            draw_converter();
        }
        draw_bus();
    }

  private:
    Length y_of(const Tap& tap) const { return block_.line + tap.y; }

    void reach_bus(Length y) {
        bus_top_ = any_ ? std::min(bus_top_, y) : y;
        bus_bottom_ = any_ ? std::max(bus_bottom_, y) : y;
        any_ = true;
    }

    void wire(Point from, Point to, const std::string& shows) {
        add_wire(frame_, {from, to}, medium_pen, shows);
    }

    void terminal(const Tap& tap) { add_terminal(plan_, block_, tap, frame_); }

    /// What the marks of a tap's device show.
    std::string device_of(const Tap& tap) const { return device_names(plan_, block_, tap).front(); }

    /// Places the tap's symbol with its left end at `left`; returns the x of its right end.
    Length device(const Tap& tap, Length left) {
        const Symbol& symbol = symbol_of(plan_, tap.symbol);
        // The line terminal faces the utility: the edge for a supply, the bus for all else.
        const bool line_at_left = tap.toward_utility == (tap.side == Side::left);
        const SymbolPort& load = *symbol.port("load");
        const SymbolPort& line = *symbol.port("line");
        const Point low{left, y_of(tap) - load.at.y};
        const std::string shows = device_of(tap);
        add_symbol(frame_, symbol, low, line_at_left, shows);
        for (const SymbolPort* p : {&load, &line}) {
            const Point at = line_at_left ? mirrored(p->at, symbol) : p->at;
            add_port(frame_, low + at, device_names(plan_, block_, tap), "/" + p->name, shows);
        }
        const Length right = left + symbol.size.width;
        if (!tap.label.empty()) {
            const Point at = label_place(tap, left + symbol.size.width / 2, low.y);
            const Text label{at, tap.label, plan_.style.note, Align::centre};
            frame_.add(label, Role::lettering, shows);
            link_to_schedule(tap, text_box(label, plan_.measure));
        }
        return right;
    }

    /// Devices that have a row of their own in the schedule are those with a tag.
    void link_to_schedule(const Tap& tap, const Box& area) {
        for (const int breaker : tap.breakers) {
            const std::string& tag = plan_.system.breakers[static_cast<std::size_t>(breaker)].tag;
            frame_.add(Anchor{area.low, "diagram:" + tag}, Role::none, device_of(tap));
            if (breaker == tap.breakers.front()) {
                frame_.add(Link{area, "schedule:" + tag}, Role::none, device_of(tap));
            }
        }
    }

    /// Over the breaker; over both where a contactor stands before it.
    Point label_place(const Tap& tap, Length centre, Length top) const {
        if (tap.controller.empty()) {
            return {centre, top - plan_.spacing.text_gap};
        }
        const Symbol& symbol = symbol_of(plan_, "contactor");
        return {centre - symbol.size.width / 2,
                y_of(tap) - symbol.port("load")->at.y - plan_.spacing.text_gap};
    }

    /// The contactor of a load controller with its left end at `left`, its line terminal toward the
    /// breaker; returns the x of its right end.
    Length contactor(const Tap& tap, Length left, bool line_at_left) {
        const Symbol& symbol = symbol_of(plan_, "contactor");
        const Point low{left, y_of(tap) - symbol.port("load")->at.y};
        const std::string shows = device_of(tap);
        add_symbol(frame_, symbol, low, line_at_left, shows);
        std::vector<std::string> names = device_names(plan_, block_, tap);
        for (std::string& name : names) {
            name = "contactor:" + name;
        }
        for (const char* port : {"load", "line"}) {
            const Point at = symbol.port(port)->at;
            add_port(frame_, low + (line_at_left ? mirrored(at, symbol) : at), names,
                     std::string("/") + port, shows);
        }
        return left + symbol.size.width;
    }

    void draw_left(const Tap& tap) {
        const Point edge{block_.body.low.x, y_of(tap)};
        const Point bus{bus_x_, edge.y};
        terminal(tap);
        reach_bus(edge.y);
        if (tap.symbol.empty()) {
            wire(edge, bus, shows_);
            return;
        }
        const Length left = (edge.x + bus.x) / 2 - device_width(plan_, tap) / 2;
        const Length breaker = tap.controller.empty() ? left : contactor(tap, left, false);
        const Length right = device(tap, breaker);
        wire(edge, {left, edge.y}, shows_);
        wire({right, edge.y}, bus, shows_);
    }

    void draw_right(const Tap& tap) {
        const Point edge{block_.body.high.x, y_of(tap)};
        const Point bus{right_bus_x_, edge.y};
        terminal(tap);
        if (block_.ac_bus) {
            ac_low_ = std::max(ac_low_, edge.y);
        } else {
            reach_bus(edge.y);
        }
        Length free_end = edge.x;
        if (!tap.transformer.empty()) {
            draw_transformer(plan_, block_, tap, frame_);
            free_end = transformer_x(plan_, block_) -
                       symbol_of(plan_, "current-transformer").size.width / 2;
        }
        if (tap.symbol.empty()) {
            wire(bus, edge, shows_);
            return;
        }
        const Length left = (bus.x + free_end) / 2 - device_width(plan_, tap) / 2;
        const Length right = device(tap, left);
        wire(bus, {left, edge.y}, shows_);
        wire({right, edge.y}, edge, shows_);
    }

    void draw_load(const Tap& tap) {
        const Point bus{bus_x_, y_of(tap)};
        reach_bus(bus.y);
        const Length left = bus.x + plan_.spacing.lead;
        wire(bus, {left, bus.y}, shows_);
        Length right = device(tap, left);
        if (!tap.controller.empty()) {
            right = contactor(tap, right, true);
        }
        const Symbol& arrow = symbol_of(plan_, "load-arrow");
        const Point low{right, bus.y - arrow.port("load")->at.y};
        add_symbol(frame_, arrow, low, false, device_of(tap));
        const Length cap = plan_.measure.cap_height(plan_.style.note);
        frame_.add(Text{{right + arrow.size.width + plan_.spacing.text_gap, bus.y + cap / 2},
                        tap.load,
                        plan_.style.note},
                   Role::lettering, device_of(tap));
    }

    void draw_gateway() {
        if (!block_.gateway) {
            return;
        }
        const Symbol& gateway = symbol_of(plan_, "gateway");
        const std::string shows = "gateway:" + id_;
        const Point low = gateway_low(plan_, block_);
        add_symbol(frame_, gateway, low, false, shows);
        const Point sense = low + gateway.port("sense")->at;
        frame_.add(
            polyline({sense, {sense.x, sense.y + plan_.spacing.gateway_drop}}, control_stroke),
            Role::control, shows);
        const Point supply = low + gateway.port("supply")->at;
        add_port(frame_, supply, member_names(plan_, block_, "gateway"), "/supply", shows);
        reach_bus(supply.y);
        wire({bus_x_, supply.y}, supply, shows_);
        frame_.add(polyline({low + gateway.port("control")->at, control_at(plan_, block_)},
                            control_stroke),
                   Role::control, shows);
    }

    /// Between the two buses, on the block's line; with the bus at its right.
    void draw_converter() {
        const Symbol& symbol = symbol_of(plan_, "inverter");
        const Length left = bus_x_ + plan_.spacing.lead;
        const Point low{left, block_.line - symbol.port("load")->at.y};
        const std::vector<std::string> names = member_names(plan_, block_, "converter");
        add_symbol(frame_, symbol, low, false, names.front());
        for (const char* port : {"load", "line"}) {
            add_port(frame_, low + symbol.port(port)->at, names, std::string("/") + port,
                     names.front());
        }
        reach_bus(block_.line);
        wire({bus_x_, block_.line}, {left, block_.line}, shows_);
        wire({left + symbol.size.width, block_.line}, {right_bus_x_, block_.line}, shows_);
        const Length over = plan_.spacing.bus_overhang;
        const Point top{right_bus_x_, block_.line - over};
        const Point bottom{right_bus_x_, std::max(ac_low_, block_.line) + over};
        const std::vector<std::string> bus = member_names(plan_, block_, "ac-bus");
        add_port(frame_, top, bus, "/upper", shows_);
        add_port(frame_, bottom, bus, "/lower", shows_);
        add_wire(frame_, {top, bottom}, bus_pen, "bus:" + id_);
    }

    void draw_bus() {
        const Point top{bus_x_, bus_top_ - plan_.spacing.bus_overhang};
        const Point bottom{bus_x_, bus_bottom_ + plan_.spacing.bus_overhang};
        const std::vector<std::string> names = member_names(plan_, block_, "bus");
        add_port(frame_, top, names, "/upper", shows_);
        add_port(frame_, bottom, names, "/lower", shows_);
        add_wire(frame_, {top, bottom}, bus_pen, "bus:" + id_);
    }

    const Plan& plan_;
    const Block& block_;
    Frame& frame_;
    std::string id_, shows_;
    Length bus_x_;
    Length right_bus_x_; ///< the same, unless an alternating-current bus stands there
    Length ac_low_{};
    Length bus_top_{}, bus_bottom_{};
    bool any_ = false;
};

} // namespace

constexpr Stroke control_stroke{thin_pen, LineType::short_dashed};

Point gateway_low(const Plan& plan, const Block& block) {
    const Symbol& ring = symbol_of(plan, "current-transformer");
    const Point sense{transformer_x(plan, block),
                      block.line - ring.port("centre")->at.y - plan.spacing.gateway_drop};
    return sense - symbol_of(plan, "gateway").port("sense")->at;
}

Stroke enclosure_stroke(const Equipment& equipment) {
    return equipment.existing ? Stroke{thin_pen, LineType::dash_dot} : Stroke{medium_pen};
}

void add_wire(Frame& frame, const std::vector<Point>& points, Length pen,
              const std::string& shows) {
    frame.add(polyline(points, {pen}), Role::wire, shows);
}

void add_symbol(Frame& frame, const Symbol& symbol, Point low, bool mirror,
                const std::string& shows, Role role) {
    for (const Mark& mark : symbol.art.marks) {
        Item item = mirror ? mirrored(mark.item, symbol) : mark.item;
        frame.add(moved(std::move(item), low), mark.role == Role::symbol ? role : mark.role, shows);
    }
}

void add_port(Frame& frame, Point at, std::vector<std::string> names, const std::string& terminal,
              const std::string& shows) {
    for (std::string& name : names) {
        name += terminal;
    }
    frame.add(Port{at, port_of_all(names)}, Role::none, shows);
}

void add_terminal(const Plan& plan, const Block& block, const Tap& tap, Frame& frame) {
    if (!tap.terminals.empty()) {
        add_port(frame, terminal_at(plan, block, tap), terminal_names(plan, tap), "",
                 "equipment:" + plan.of(block).id);
    }
}

std::vector<std::string> member_names(const Plan& plan, const Block& block, std::string_view kind) {
    std::vector<std::string> names;
    for (const int member : block.members) {
        names.push_back(std::string(kind) + ":" + plan.system.at(member).id);
    }
    return names;
}

std::vector<std::string> terminal_names(const Plan& plan, const Tap& tap) {
    std::vector<std::string> names;
    for (const Terminal& terminal : tap.terminals) {
        names.push_back("equipment:" + plan.system.at(terminal.equipment).id + "/" + terminal.name);
    }
    return names;
}

namespace {

std::vector<std::string> load_names(const Plan& plan, const Block& block, const Tap& tap) {
    std::vector<std::string> names;
    for (const int member : block.members) {
        const Equipment& e = plan.system.at(member);
        for (const int load : tap.loads) {
            names.push_back("load:" + e.id + "/" +
                            e.as<Panel>()->loads[static_cast<std::size_t>(load)].name);
        }
    }
    return names;
}

} // namespace

std::vector<std::string> device_names(const Plan& plan, const Block& block, const Tap& tap) {
    std::vector<std::string> names;
    switch (tap.device) {
    case Device::none:
        break;
    case Device::breaker:
        for (const int breaker : tap.breakers) {
            names.push_back("breaker:" +
                            plan.system.breakers[static_cast<std::size_t>(breaker)].tag);
        }
        break;
    case Device::main:
        return member_names(plan, block, "main");
    case Device::contact:
        return member_names(plan, block, "contact");
    case Device::standby:
        return member_names(plan, block, "standby");
    case Device::tracker:
        names = terminal_names(plan, tap);
        for (std::string& name : names) {
            name = "tracker:" + name;
        }
        break;
    case Device::converter:
        return member_names(plan, block, "converter");
    case Device::load:
        return load_names(plan, block, tap);
    }
    return names;
}

Length converter_room(const Plan& plan, const Block& block) {
    return block.ac_bus ? symbol_of(plan, "inverter").size.width + plan.spacing.lead * 2 : Length{};
}

Length device_width(const Plan& plan, const Tap& tap) {
    const Length device = tap.symbol.empty() ? Length{} : symbol_of(plan, tap.symbol).size.width;
    return device + (tap.controller.empty() ? Length{} : symbol_of(plan, "contactor").size.width);
}

bool has_transformer(const Block& block) {
    return std::any_of(block.taps.begin(), block.taps.end(),
                       [](const Tap& tap) { return !tap.transformer.empty(); });
}

void draw_transformer(const Plan& plan, const Block& block, const Tap& tap, Frame& frame) {
    const Symbol& symbol = symbol_of(plan, "current-transformer");
    const Point centre{transformer_x(plan, block), block.line + tap.y};
    const Point low = centre - symbol.port("centre")->at;
    const std::string shows = "transformer:" + tap.transformers.front();
    add_symbol(frame, symbol, low, false, shows, Role::overlay);
    const Point secondary = low + symbol.port("secondary")->at;
    frame.add(Port{secondary, shows + "/secondary"}, Role::none, shows);
    const Length width = plan.measure.width(tap.transformer, plan.style.note);
    const Length half = symbol.size.width / 2 + inches(0.03);
    const Length x = std::min(centre.x + half, block.body.high.x - inches(0.04) - width);
    const bool below = x < centre.x + symbol.size.width / 2;
    const Length y = below ? low.y + symbol.size.height + plan.spacing.text_gap +
                                 plan.measure.cap_height(plan.style.note)
                           : low.y + symbol.size.height;
    frame.add(
        Text{{below ? std::min(centre.x - width / 2, x) : x, y}, tap.transformer, plan.style.note},
        Role::lettering, shows);
    if (!block.gateway) {
        const Point top{secondary.x, block.body.low.y};
        frame.add(polyline({secondary, top}, control_stroke), Role::control, shows);
    }
}

void draw_bus_block(const Plan& plan, const Block& block, Frame& frame) {
    Interior(plan, block, frame).draw();
}

Length transformer_offset(const Plan& plan, const Block& block) {
    if (block.gateway) {
        return plan.spacing.body_pad + symbol_of(plan, "gateway").size.width / 2;
    }
    return plan.spacing.lead * 2 + symbol_of(plan, "current-transformer").size.width / 2;
}

Length transformer_x(const Plan& plan, const Block& block) {
    return block.body.high.x - transformer_offset(plan, block);
}

} // namespace ohmfolio::diagram
