/// Rows: every circuit gets a height of its own, and enclosures stretch to meet them, so that wires
/// run straight.
#include <algorithm>

#include "diagram/interior.h"
#include "diagram/rows.h"

namespace ohmfolio::diagram {

namespace {

Length text_height(std::size_t lines, const TextStyle& style, const Spacing& s) {
    return lines == 0 ? Length{}
                      : s.text_gap + static_cast<std::int64_t>(lines) * line_pitch(style);
}

/// Room that a tap takes above and below its wire, inside the enclosure.
Reach tap_reach(const Plan& plan, const Tap& tap) {
    Length up = plan.spacing.lead, down = plan.spacing.lead;
    if (!tap.symbol.empty()) {
        const Symbol& symbol = symbol_of(plan, tap.symbol);
        const SymbolPort* port = symbol.port("load");
        const Length above = port != nullptr ? port->at.y : symbol.size.height / 2;
        up = std::max(up, above);
        down = std::max(down, symbol.size.height - above);
    }
    if (!tap.label.empty()) {
        up += text_height(1, plan.style.note, plan.spacing);
    }
    return {up, down};
}

/// Height of the grounding electrodes below a body: drop, symbol, and their names.
Length electrodes_height(const Plan& plan, const Block& block) {
    if (block.electrodes.empty()) {
        return {};
    }
    return inches(0.42) + symbol_of(plan, "ground").size.height +
           text_height(2, plan.style.note, plan.spacing);
}

class Rows {
  public:
    Rows(Plan& plan, Length row_gap) : plan_(plan), row_gap_(row_gap) {}

    void stack() {
        reach_.assign(plan_.blocks.size(), {});
        stack_below(plan_.system.root());
        settle(plan_.system.root(), {});
        hang_backed_up(plan_.system.root());
    }

    Reach extent() const {
        Length top{}, bottom{};
        for (const Block& b : plan_.blocks) {
            top = std::min(top, b.line - b.up);
            bottom = std::max(bottom, b.line + b.down);
        }
        return {-top, bottom};
    }

  private:
    std::vector<const Wire*> wires_between(int child, int parent) const {
        std::vector<const Wire*> out;
        for (const Wire& wire : plan_.wires) {
            if (wire.child == child && wire.parent == parent) {
                out.push_back(&wire);
            }
        }
        return out;
    }

    const Circuit& circuit(const Wire& wire) const {
        return plan_.system.circuits[static_cast<std::size_t>(wire.circuit)];
    }

    /// Stacks the source children of `equipment` over one another, sets its taps to their heights
    /// and its line to theirs, and measures the whole. Heights are relative to the line of
    /// `equipment`.
    void stack_below(int equipment) {
        Block& block = plan_.block(equipment);
        Length cursor{};
        bool first = true;
        std::vector<std::pair<int, Length>> lines; // child, its line
        Length last_tap{};
        for (const int child : plan_.system.children(equipment)) {
            stack_below(child);
            if (is_backed_up(plan_, child)) {
                continue;
            }
            Length line{};
            if (!first) {
                line = std::max(cursor + row_gap_ + reach_of(child).up,
                                last_tap + plan_.spacing.tap_pitch);
            }
            for (const Wire* wire : wires_between(child, equipment)) {
                const Length y = line + plan_.block(child).tap(circuit(*wire).from)->y;
                block.tap(circuit(*wire).to)->y = y;
                last_tap = y;
            }
            lines.emplace_back(child, line);
            cursor = line + reach_of(child).down;
            first = false;
        }
        const Length middle = line_among_taps(block, last_tap);
        for (Tap& tap : block.taps) {
            tap.y -= tap.side == Side::left && !tap.toward_utility ? middle : Length{};
        }
        set_parent_taps(block);
        set_loads(block);
        measure(block);
        Reach whole{block.up, block.down};
        for (auto& [child, line] : lines) {
            plan_.block(child).line = line - middle; // relative, until settled
            whole.up = std::max(whole.up, reach_of(child).up - (line - middle));
            whole.down = std::max(whole.down, reach_of(child).down + (line - middle));
        }
        reach_of(equipment) = whole;
    }

    /// A combiner collects equals, so its line leaves from their middle; elsewhere the first child
    /// is the main one and the line runs straight through.
    Length line_among_taps(const Block& block, Length last_tap) const {
        return plan_.of(block).is<Combiner>() ? last_tap / 2 : Length{};
    }

    /// Circuits that pass through a box of splices leave at the height at which they enter.
    void set_parent_taps(Block& block) const {
        if (block.form != Form::splices) {
            return;
        }
        std::vector<Length> heights;
        for (const Tap& tap : block.taps) {
            if (!tap.toward_utility) {
                heights.push_back(tap.y);
            }
        }
        std::size_t next = 0;
        for (Tap& tap : block.taps) {
            if (tap.toward_utility && next < heights.size()) {
                tap.y = heights[next++];
            }
        }
    }

    void set_loads(Block& block) const {
        const Tap* feed = nullptr;
        for (const Tap& tap : block.taps) {
            feed = tap.toward_utility ? &tap : feed;
        }
        Length y{};
        if (feed != nullptr && feed->side == Side::right) {
            // Under the supply, and under the name of a transformer on it.
            y = plan_.spacing.tap_pitch +
                (feed->transformer.empty() ? Length{} : line_pitch(plan_.style.note));
        }
        for (Tap& tap : block.taps) {
            if (!tap.load.empty()) {
                tap.y = y;
                y += plan_.spacing.load_pitch;
            }
        }
    }

    /// How far body and lettering reach from the line.
    void measure(Block& block) const {
        const Spacing& s = plan_.spacing;
        Length up{}, down{};
        if (block.form == Form::symbol || block.form == Form::boxed) {
            const Symbol& symbol = symbol_of(plan_, block.symbol);
            const Length line = line_in_symbol(block, symbol);
            const Length pad = block.form == Form::boxed ? s.body_pad : Length{};
            up = line + pad;
            down = symbol.size.height - line + pad;
        }
        for (const Tap& tap : block.taps) {
            const Reach reach = tap_reach(plan_, tap);
            up = std::max(up, reach.up - tap.y + pad_over_taps(block));
            down = std::max(down, reach.down + tap.y + pad_over_taps(block));
        }
        if (block.gateway) {
            up = std::max(up, symbol_of(plan_, "gateway").size.height + s.body_pad +
                                  s.gateway_drop + s.lead * 2);
        }
        if (!block.electrodes.empty()) {
            down = std::max(down, symbol_of(plan_, "neutral-bond").size.height + s.tap_pitch);
        }
        block.body_up = up;
        block.body_down = down;
        block.up = up + name_height(plan_, block);
        block.down = down + text_height(block.below.size(), plan_.style.note, s) +
                     electrodes_height(plan_, block);
    }

    /// A box of splices stands out past its wires, so that its name is clear of their tags.
    Length pad_over_taps(const Block& block) const {
        switch (block.form) {
        case Form::bus:
            return plan_.spacing.lead;
        case Form::splices:
            return plan_.spacing.lead * 2;
        default:
            return {};
        }
    }

    static Length line_in_symbol(const Block& block, const Symbol& symbol) {
        for (const Tap& tap : block.taps) {
            if (const SymbolPort* port = symbol.port(tap.terminal)) {
                return port->at.y;
            }
        }
        return symbol.size.height / 2;
    }

    /// From heights relative to the parent to heights on the sheet.
    void settle(int equipment, Length line) {
        plan_.block(equipment).line = line;
        for (const int child : plan_.system.children(equipment)) {
            if (!is_backed_up(plan_, child)) {
                settle(child, line + plan_.block(child).line);
            }
        }
    }

    /// What a block backs up hangs at its right, below all that already stands there.
    void hang_backed_up(int equipment) {
        for (const int child : plan_.system.children(equipment)) {
            if (is_backed_up(plan_, child)) {
                hang(equipment, child);
            }
            hang_backed_up(child);
        }
    }

    void hang(int parent, int child) {
        Block& block = plan_.block(parent);
        Length floor = block.line + lowest_right_tap(block) + plan_.spacing.tap_pitch;
        for (const Block& other : plan_.blocks) {
            if (other.column < block.column && settled(other.equipment)) {
                floor = std::max(floor, other.line + other.down + row_gap_ + reach_of(child).up);
            }
        }
        settle(child, floor);
        for (const Wire* wire : wires_between(child, parent)) {
            block.tap(circuit(*wire).to)->y =
                floor + plan_.block(child).tap(circuit(*wire).from)->y - block.line;
        }
        measure(block);
        hung_.push_back(child);
    }

    Length lowest_right_tap(const Block& block) const {
        Length lowest{};
        for (const Tap& tap : block.taps) {
            if (tap.side == Side::right && (tap.toward_utility || !tap.load.empty())) {
                lowest = std::max(lowest, tap.y);
            }
        }
        return lowest;
    }

    /// Whether a block has its height: it is not backed up, nor below anything backed up that is
    /// still to be hung.
    bool settled(int equipment) const {
        for (int e = equipment; e != plan_.system.root() && e >= 0; e = plan_.system.at(e).parent) {
            if (is_backed_up(plan_, e) && std::find(hung_.begin(), hung_.end(), e) == hung_.end()) {
                return false;
            }
        }
        return true;
    }

    Reach& reach_of(int equipment) { return reach_[static_cast<std::size_t>(equipment)]; }

    Plan& plan_;
    Length row_gap_;
    std::vector<Reach> reach_;
    std::vector<int> hung_;
};

} // namespace

Reach stack_rows(Plan& plan, Length row_gap) {
    Rows rows(plan, row_gap);
    rows.stack();
    return rows.extent();
}

} // namespace ohmfolio::diagram
