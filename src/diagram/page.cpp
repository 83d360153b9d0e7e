/// From pieces of the whole drawing to a page: copies of its blocks, match marks where it goes on,
/// and the part of the control wiring that it holds.
#include <algorithm>

#include "diagram/callouts.h"
#include "diagram/divide.h"

namespace ohmfolio::diagram {

namespace {

/// Both ends of what is cut bear the same word.
std::string match_of(const Plan& whole, int child) {
    return "match:" + whole.of(whole.block(child)).id;
}
std::string match_of_bus(const Plan& whole, int block, std::size_t from) {
    return "match:" + whole.of(whole.block(block)).id + "/bus" + std::to_string(from);
}

class Page {
  public:
    Page(const Plan& whole, const Spacing& spacing) : whole_(whole), page_(whole, spacing) {
        page_.notes = whole.notes;
    }

    void add(const Piece& piece) {
        piece_ = piece;
        const int root = copy(piece.root, -1);
        page_.roots.push_back(root);
        if (piece.continued) {
            continue_from_bus(root);
        } else if (piece.root != whole_.roots.front()) {
            continue_from_parent(root);
        }
    }

    Plan made() {
        add_controls();
        return std::move(page_);
    }

  private:
    int put(Block block) {
        page_.blocks.push_back(std::move(block));
        return static_cast<int>(page_.blocks.size()) - 1;
    }

    /// Copies the block and what the piece shows below it.
    int copy(int index, int parent) {
        Block block = whole_.block(index);
        block.parent = parent;
        block.children.clear();
        block.wires.clear();
        const bool fragment = index == piece_.root && piece_.continued;
        const Piece::Range range = piece_.children_of(whole_, index);
        const bool divided = range.last < whole_.block(index).children.size();
        place_.clear();
        keep_taps(block, index, range, fragment);
        const std::vector<int> places = place_;
        block.continues = fragment;
        if (fragment) {
            block.electrodes.clear();
            block.notes.clear();
            block.gateway = false;
            block.ac_bus = false;
        }
        const int copied = put(std::move(block));
        at_[index] = copied;
        for (std::size_t i = range.first; i < range.last; ++i) {
            const int child = whole_.block(index).children[i];
            const int below =
                piece_.cut.count(child) != 0 ? match_for(child, copied) : copy(child, copied);
            page_.block(copied).children.push_back(below);
            join(child, below, copied, places);
        }
        if (divided) {
            continue_bus(index, copied, range.last);
        }
        return copied;
    }

    /// Taps of children that the piece shows; supply and loads stand where the bus begins.
    void keep_taps(Block& block, int index, const Piece::Range& range, bool fragment) {
        const Block& original = whole_.block(index);
        std::vector<bool> wanted(original.taps.size(), !fragment);
        for (std::size_t i = 0; i < original.children.size(); ++i) {
            for (const int wire : whole_.block(original.children[i]).wires) {
                wanted[static_cast<std::size_t>(whole_.wire(wire).parent_tap)] =
                    i >= range.first && i < range.last;
            }
        }
        block.taps.clear();
        for (std::size_t i = 0; i < original.taps.size(); ++i) {
            place_.push_back(static_cast<int>(block.taps.size()));
            if (wanted[i]) {
                block.taps.push_back(original.taps[i]);
            }
        }
        places_[index] = place_;
    }

    void add_wire(Wire wire) {
        page_.block(wire.child).wires.push_back(static_cast<int>(page_.wires.size()));
        page_.wires.push_back(std::move(wire));
    }

    /// The wires from the copy of `child`, or the match mark for it, to its parent's copy.
    void join(int child, int below, int above, const std::vector<int>& places) {
        int match_tap = 0;
        const bool match = page_.block(below).form == Form::match;
        for (const int index : whole_.block(child).wires) {
            Wire wire = whole_.wire(index);
            wire.child = below;
            wire.parent = above;
            wire.parent_tap = places[static_cast<std::size_t>(wire.parent_tap)];
            wire.child_tap =
                match ? match_tap++ : places_[child][static_cast<std::size_t>(wire.child_tap)];
            add_wire(std::move(wire));
        }
    }

    // ---- match marks -------------------------------------------------------------------------

    Block match_block(int far, const std::string& match, const std::string& words) const {
        const Block& there = whole_.block(far);
        Block block;
        block.equipment = there.equipment;
        block.members = {there.equipment};
        block.form = Form::match;
        block.symbol = "match-mark";
        block.match = match;
        const auto callout = whole_.style.callouts.find(words);
        if (callout != whole_.style.callouts.end()) {
            const Fields fields = {{"id", whole_.of(there).id},
                                   {"title", whole_.of(there).title},
                                   {"name", there.name.empty() ? "" : there.name.front()}};
            block.name = filled(callout->second.above, fields);
        }
        return block;
    }

    static Tap plain_tap(Side side, bool toward_utility) {
        Tap tap;
        tap.side = side;
        tap.toward_utility = toward_utility;
        return tap;
    }

    /// Stands for `child` and all below it.
    int match_for(int child, int parent) {
        const Block& there = whole_.block(child);
        Block block = match_block(child, match_of(whole_, child),
                                  there.hung ? "continued_to" : "continued_from");
        block.parent = parent;
        block.hung = there.hung;
        for (std::size_t i = 0; i < there.wires.size(); ++i) {
            block.taps.push_back(plain_tap(there.hung ? Side::left : Side::right, true));
        }
        const int added = put(std::move(block));
        mark_[child] = added;
        return added;
    }

    /// Above the root stands a mark for its parent.
    void continue_from_parent(int root) {
        const Block& there = whole_.block(piece_.root);
        Block block = match_block(there.parent, match_of(whole_, piece_.root),
                                  there.hung ? "continued_from" : "continued_to");
        block.children = {root};
        const int match = put(std::move(block));
        int tap = 0;
        for (const int index : there.wires) {
            Wire wire = whole_.wire(index);
            page_.block(match).taps.push_back(
                plain_tap(there.hung ? Side::right : Side::left, false));
            wire.child_tap = places_[piece_.root][static_cast<std::size_t>(wire.child_tap)];
            wire.child = root;
            wire.parent = match;
            wire.parent_tap = tap++;
            add_wire(std::move(wire));
        }
        page_.block(root).parent = match;
        page_.roots.back() = match;
    }

    /// The bus of a block goes on: a plain tap at its foot, and a mark beside it.
    void continue_bus(int index, int copied, std::size_t from) {
        Block block = match_block(index, match_of_bus(whole_, index, from), "continued_bus");
        block.parent = copied;
        block.taps.push_back(plain_tap(Side::right, true));
        const int match = put(std::move(block));
        Wire wire;
        wire.child = match;
        wire.child_tap = 0;
        wire.parent = copied;
        wire.parent_tap = insert_tap(copied);
        add_wire(std::move(wire));
        page_.block(copied).children.push_back(match);
        bus_mark_[index] = match;
    }

    /// A tap after those of the children; what comes after it moves on by one.
    int insert_tap(int copied) {
        std::vector<Tap>& taps = page_.block(copied).taps;
        const auto at = std::find_if(taps.begin(), taps.end(), [](const Tap& tap) {
            return tap.toward_utility || tap.device == Device::load;
        });
        const int place = static_cast<int>(at - taps.begin());
        taps.insert(at, Tap{});
        for (int& moved : places_[whole_of(copied)]) {
            moved += moved >= place ? 1 : 0;
        }
        return place;
    }

    int whole_of(int copied) const {
        return std::find_if(at_.begin(), at_.end(),
                            [&](const auto& pair) { return pair.second == copied; })
            ->first;
    }

    void continue_from_bus(int root) {
        const std::size_t from = piece_.children_of(whole_, piece_.root).first;
        Block block =
            match_block(piece_.root, match_of_bus(whole_, piece_.root, from), "continued_bus");
        block.children = {root};
        block.taps.push_back(plain_tap(Side::left, false));
        const int match = put(std::move(block));
        Block& fragment = page_.block(root);
        Wire wire;
        wire.child = root;
        wire.child_tap = static_cast<int>(fragment.taps.size());
        wire.parent = match;
        wire.parent_tap = 0;
        fragment.taps.push_back(plain_tap(Side::right, true));
        fragment.parent = match;
        add_wire(std::move(wire));
        page_.roots.back() = match;
    }

    // ---- control wiring ----------------------------------------------------------------------

    void add_controls() {
        for (const auto& [index, copied] : at_) {
            for (const int member : whole_.block(index).members) {
                drawn_[member] = copied;
            }
        }
        for (const ControlNet& net : whole_.controls) {
            add_control(net);
        }
        for (Block& block : page_.blocks) {
            block.control = false;
        }
        for (const ControlNet& net : page_.controls) {
            page_.block(net.gateway).control = true;
            for (const int member : net.members) {
                page_.block(member).control = true;
            }
        }
    }

    /// The members that this page draws, and the marks behind which the others stand.
    void add_control(const ControlNet& net) {
        std::vector<int> here;
        const auto put = [&here](int block) {
            if (block >= 0 && std::find(here.begin(), here.end(), block) == here.end()) {
                here.push_back(block);
            }
        };
        std::vector<int> all = {net.gateway};
        all.insert(all.end(), net.members.begin(), net.members.end());
        for (const int member : all) {
            const auto drawn = drawn_.find(member);
            put(drawn != drawn_.end() ? drawn->second : -1);
        }
        if (here.empty()) {
            return;
        }
        const int root = root_mark(here.front());
        for (const int member : all) {
            if (drawn_.count(member) == 0) {
                put(mark_before(member, root));
            }
        }
        const auto same = [&here](const ControlNet& other) {
            return other.gateway == here.front();
        };
        if (here.size() > 1 && std::none_of(page_.controls.begin(), page_.controls.end(), same)) {
            page_.controls.push_back({here.front(), {here.begin() + 1, here.end()}, net.equipment});
        }
    }

    /// The match mark behind which the drawing of a piece of equipment stands; -1 where it is drawn
    /// by another that is like it, which has control wiring of its own. `root` is the mark toward
    /// the utility.
    int mark_before(int equipment, int root) const {
        for (int block = equipment; block >= 0; block = whole_.block(block).parent) {
            if (const auto mark = mark_.find(block); mark != mark_.end()) {
                return mark->second;
            }
            if (at_.count(block) != 0) {
                const auto mark = bus_mark_.find(block);
                return mark != bus_mark_.end() ? mark->second : root;
            }
        }
        return root;
    }

    /// Of the piece that the block stands in.
    int root_mark(int block) const {
        while (page_.block(block).parent >= 0) {
            block = page_.block(block).parent;
        }
        return page_.block(block).form == Form::match ? block : -1;
    }

    const Plan& whole_;
    Piece piece_;
    Plan page_;
    std::map<int, int> at_; ///< of each block of the whole that is copied, its copy
    std::map<int, std::vector<int>> places_; ///< of its taps, their places in the copy
    std::vector<int> place_;
    std::map<int, int> mark_;     ///< of a block that stands elsewhere, its match mark
    std::map<int, int> bus_mark_; ///< of a block whose bus goes on elsewhere
    std::map<int, int> drawn_;    ///< by equipment
};

} // namespace

Piece::Range Piece::children_of(const Plan& whole, int block) const {
    const auto found = shown.find(block);
    return found != shown.end() ? found->second : Range{0, whole.block(block).children.size()};
}

Plan page_of(const Plan& whole, const std::vector<Piece>& pieces, const Spacing& spacing) {
    Page page(whole, spacing);
    for (const Piece& piece : pieces) {
        page.add(piece);
    }
    return page.made();
}

} // namespace ohmfolio::diagram
