/// Rows: every circuit gets a height of its own, and enclosures stretch to meet them, so that wires
/// run straight.
#include <algorithm>
#include <map>

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
    if (!tap.controller.empty()) {
        up = std::max(up, symbol_of(plan, "contactor").port("load")->at.y);
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
        for (Block& block : plan_.blocks) {
            for (Tap& tap : block.taps) {
                tap.y = {};
            }
        }
        Length top{};
        for (const int root : plan_.roots) {
            lowest_.clear();
            stack_below(root);
            settle(root, {});
            hang_below(root);
            top = move_under(root, top);
        }
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
    /// Stacks the source children of a block over one another, sets its taps to their heights and
    /// its line to theirs, and measures the whole. Heights are relative to the block's line.
    void stack_below(int index) {
        Block& block = plan_.block(index);
        Length cursor{};
        bool first = true;
        std::vector<std::pair<int, Length>> lines; // child, its line
        Length last_tap{};
        for (const int child : block.children) {
            stack_below(child);
            if (plan_.block(child).hung) {
                continue;
            }
            Length line = first ? first_line(block, child)
                                : std::max(cursor + row_gap_ + reach_of(child).up,
                                           last_tap + plan_.spacing.tap_pitch);
            for (const int wire : plan_.block(child).wires) {
                const Length y = line + plan_.child_tap(plan_.wire(wire)).y;
                plan_.parent_tap(plan_.wire(wire)).y = y;
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
        reach_of(index) = whole;
    }

    /// The first child stands on its parent's line; below a block that hangs it starts lower, clear
    /// of the enclosure that the block hangs from and of what is written under that.
    Length first_line(const Block& block, int child) const {
        if (!block.hung || block.parent < 0) {
            return {};
        }
        const Block& above = plan_.block(block.parent);
        return plan_.spacing.lead * 2 + row_gap_ + reach_of(child).up +
               text_height(above.below.size(), plan_.style.note, plan_.spacing) +
               electrodes_height(plan_, above);
    }

    /// A combiner collects equals, so its line leaves from their middle; elsewhere the first child
    /// is the main one and the line runs straight through.
    Length line_among_taps(const Block& block, Length last_tap) const {
        return plan_.of(block).is<Combiner>() ? last_tap / 2 : Length{};
    }

    /// Circuits that pass through a box of splices leave at the height at which they enter; those
    /// of a match mark stand one under another.
    void set_parent_taps(Block& block) const {
        if (block.form == Form::match) {
            Length y{};
            for (const int wire : block.wires) {
                const Reach reach = tap_reach(plan_, plan_.parent_tap(plan_.wire(wire)));
                y += y == Length{} && wire == block.wires.front() ? Length{} : reach.up;
                plan_.child_tap(plan_.wire(wire)).y = y;
                y += std::max(reach.down, plan_.spacing.tap_pitch / 2);
            }
        }
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
            if (tap.device == Device::load) {
                if (!tap.controller.empty()) { // its coil reaches higher than a breaker
                    y += plan_.spacing.coil_room;
                }
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
            if (!tap.transformer.empty() && block.form == Form::bus) {
                down =
                    std::max(down, tap.y + symbol_of(plan_, "current-transformer").size.height / 2 +
                                       text_height(1, plan_.style.note, s) + s.lead * 2);
            }
        }
        if (block.ac_bus) {
            const Length half = symbol_of(plan_, "inverter").size.height / 2 + s.lead;
            up = std::max(up, half);
            down = std::max(down, half);
        }
        if (block.form == Form::boxed && has_transformer(block)) {
            down = std::max(down, symbol_of(plan_, "current-transformer").size.height / 2 +
                                      text_height(1, plan_.style.note, s) + s.lead);
        }
        if (block.form == Form::match) {
            up = symbol_of(plan_, block.symbol).size.height / 2;
            down = up;
            for (const Tap& tap : block.taps) {
                down = std::max(down, tap.y + up);
            }
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
            down = std::max(down, lowest_left_tap(block) + s.tap_pitch +
                                      symbol_of(plan_, "neutral-bond").size.height);
        }
        block.body_up = up;
        block.body_down = down;
        block.up = up + name_height(plan_, block);
        block.down = down + text_height(block.below.size(), plan_.style.note, s) +
                     electrodes_height(plan_, block);
    }

    /// The bond of neutral and ground stands in the lower left corner, under all taps there.
    static Length lowest_left_tap(const Block& block) {
        Length lowest{};
        for (const Tap& tap : block.taps) {
            lowest = tap.side == Side::left ? std::max(lowest, tap.y) : lowest;
        }
        return lowest;
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
            if (tap.terminals.empty()) {
                continue;
            }
            if (const SymbolPort* port = symbol.port(tap.terminals.front().name)) {
                return port->at.y;
            }
        }
        return symbol.size.height / 2;
    }

    /// From heights relative to the parent to heights on the page.
    void settle(int index, Length line) {
        Block& block = plan_.block(index);
        block.line = line;
        note_lowest(block);
        for (const int child : block.children) {
            if (!plan_.block(child).hung) {
                settle(child, line + plan_.block(child).line);
            }
        }
    }

    void note_lowest(const Block& block) {
        const Length bottom = block.line + block.down;
        const auto [found, first] = lowest_.try_emplace(block.column, bottom);
        found->second = std::max(found->second, bottom);
    }

    /// What hangs at the right of a block stands below all that already stands there.
    void hang_below(int index) {
        for (const int child : plan_.block(index).children) {
            if (plan_.block(child).hung) {
                hang(index, child);
            }
            hang_below(child);
        }
    }

    void hang(int parent, int child) {
        Block& block = plan_.block(parent);
        if (block.form == Form::match) {
            settle(child, block.line); // nothing else stands there
            return;
        }
        Length floor = block.line + lowest_right_tap(block) + plan_.spacing.tap_pitch;
        for (const int wire : plan_.block(child).wires) {
            floor += tap_reach(plan_, plan_.parent_tap(plan_.wire(wire))).up / 2;
        }
        for (const auto& [column, bottom] : lowest_) {
            if (column < block.column) {
                floor = std::max(floor, bottom + row_gap_ + reach_of(child).up);
            }
        }
        settle(child, std::max(floor, clear_of_columns(child)));
        for (const int wire : plan_.block(child).wires) {
            plan_.parent_tap(plan_.wire(wire)).y =
                plan_.block(child).line + plan_.child_tap(plan_.wire(wire)).y - block.line;
        }
        measure(block);
        note_lowest(block);
    }

    /// The least line at which nothing below `index` touches what stands in its columns.
    Length clear_of_columns(int index, Length line = {}) const {
        Length least{};
        for (const int child : plan_.block(index).children) {
            const Block& block = plan_.block(child);
            if (block.hung) {
                continue;
            }
            const Length relative = line + block.line;
            const auto bottom = lowest_.find(block.column);
            if (bottom != lowest_.end()) {
                least = std::max(least, bottom->second + row_gap_ + block.up - relative);
            }
            least = std::max(least, clear_of_columns(child, relative));
        }
        return least;
    }

    Length lowest_right_tap(const Block& block) const {
        Length lowest{};
        for (const Tap& tap : block.taps) {
            if (tap.side == Side::right) {
                lowest = std::max(lowest, tap.y);
            }
        }
        return lowest;
    }

    /// Moves a tree so that its top is at `top`; where the next one starts.
    Length move_under(int root, Length top) {
        std::vector<int> tree = {root};
        Length highest = plan_.block(root).line - plan_.block(root).up;
        Length bottom = highest;
        for (std::size_t i = 0; i < tree.size(); ++i) {
            const Block& block = plan_.block(tree[i]);
            tree.insert(tree.end(), block.children.begin(), block.children.end());
            highest = std::min(highest, block.line - block.up);
            bottom = std::max(bottom, block.line + block.down);
        }
        for (const int index : tree) {
            plan_.block(index).line += top - highest;
        }
        return top + bottom - highest + row_gap_ * 2;
    }

    Reach& reach_of(int index) { return reach_[static_cast<std::size_t>(index)]; }
    const Reach& reach_of(int index) const { return reach_[static_cast<std::size_t>(index)]; }

    Plan& plan_;
    Length row_gap_;
    std::vector<Reach> reach_;
    std::map<int, Length> lowest_; ///< by column, of what has its height
};

} // namespace

Reach stack_rows(Plan& plan, Length row_gap) {
    Rows rows(plan, row_gap);
    rows.stack();
    return rows.extent();
}

} // namespace ohmfolio::diagram
