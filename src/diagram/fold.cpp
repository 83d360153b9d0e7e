/// Fourth step: what is alike is drawn once for all. Blocks below one parent are alike when
/// everything drawn for them and below them is, save ids and tags; their circuits are alike when
/// the conductors, the raceway and the overcurrent device are.
#include <algorithm>
#include <map>

#include "base/text.h"
#include "diagram/callouts.h"
#include "diagram/plan.h"

namespace ohmfolio::diagram {

namespace {

constexpr char end_of_part = '\x1e';

/// Collects parts of a description; two things are alike when their descriptions are.
class Description {
  public:
    Description& add(std::string_view part) {
        text_ += part;
        text_ += end_of_part;
        return *this;
    }
    Description& add(std::int64_t number) { return add(std::to_string(number)); }
    const std::string& text() const { return text_; }

  private:
    std::string text_;
};

std::size_t least_group(Folding folding) { return folding == Folding::many ? 3 : 2; }

class Folder {
  public:
    Folder(Plan& plan, Folding folding) : plan_(plan), folding_(folding) {}

    void fold() {
        fold_below(plan_.roots.front());
        for (Block& block : plan_.blocks) {
            if (folding_ == Folding::loads_too) {
                fold_loads(block);
            }
        }
        for (std::size_t i = 0; i < plan_.blocks.size(); ++i) {
            drop_merged_taps(static_cast<int>(i));
        }
    }

  private:
    // ---- what is alike -----------------------------------------------------------------------

    /// A number for everything that is drawn for the block and below it.
    int likeness(int index) {
        const Block& block = plan_.block(index);
        Description d;
        d.add(static_cast<std::int64_t>(block.form)).add(block.symbol);
        describe_words(block, d);
        d.add(block.gateway).add(block.control).add(block.hung);
        d.add(static_cast<std::int64_t>(block.electrodes.size()));
        for (const Tap& tap : block.taps) {
            describe_tap(block, tap, d);
        }
        for (const int wire : block.wires) {
            describe_wire(plan_.wire(wire), d);
        }
        for (const int child : block.children) {
            d.add(static_cast<std::int64_t>(plan_.block(child).members.size()));
            d.add(likeness_[child]);
        }
        return numbers_.try_emplace(d.text(), static_cast<int>(numbers_.size())).first->second;
    }

    void describe_words(const Block& block, Description& d) const {
        const Equipment& e = plan_.of(block);
        const std::string kind = kind_of(e);
        d.add(kind).add(e.existing);
        Fields fields = fields_of(plan_.system, plan_.study, e);
        fields["id"].clear();
        for (const auto& [name, value] : fields) {
            if (name != "location") {
                d.add(name).add(value);
            }
        }
        if (const auto* disconnect = e.as<Disconnect>()) {
            d.add(disconnect->rapid_shutdown).add(disconnect->utility);
            d.add(disconnect->storage).add(disconnect->service);
            d.add(disconnect->shutdown_contact);
        }
    }

    void describe_tap(const Block& block, const Tap& tap, Description& d) const {
        d.add(static_cast<std::int64_t>(tap.side)).add(tap.symbol).add(tap.controller);
        d.add(tap.merged);
        d.add(static_cast<std::int64_t>(tap.transformers.size()));
        for (const int breaker : tap.breakers) {
            d.add(breaker_rating(plan_.system, plan_.study, breaker));
        }
        for (const int load : tap.loads) {
            d.add(load_rating(*plan_.of(block).as<Panel>(), load));
            d.add(load_name(plan_.of(block), load));
        }
    }

    void describe_wire(const Wire& wire, Description& d) const {
        for (const int circuit : wire.circuits) {
            describe_circuit(circuit, d);
        }
        const Block& parent = plan_.block(wire.parent);
        describe_tap(parent, plan_.parent_tap(wire), d);
    }

    void describe_circuit(int index, Description& d) const {
        const Circuit& c = plan_.circuit(index);
        const auto at = static_cast<std::size_t>(index);
        const auto run = static_cast<std::size_t>(c.run);
        const CircuitStudy& found = plan_.study.circuits[at];
        d.add(static_cast<std::int64_t>(c.use)).add(static_cast<std::int64_t>(c.material));
        d.add(static_cast<std::int64_t>(c.insulation)).add(c.sets).add(c.by_utility);
        d.add(name(found.size)).add(found.phase_conductors).add(found.neutral);
        d.add(name(found.equipment_ground)).add(found.has_equipment_ground);
        d.add(static_cast<std::int64_t>(plan_.system.runs[run].raceway));
        d.add(plan_.study.runs[run].sized ? name(plan_.study.runs[run].trade_size) : std::string());
    }

    // ---- drawing it once ---------------------------------------------------------------------

    void fold_below(int index) {
        for (const int child : std::vector<int>(plan_.block(index).children)) {
            fold_below(child);
        }
        std::map<int, std::vector<int>> groups;
        for (const int child : plan_.block(index).children) {
            groups[likeness_[child] = likeness(child)].push_back(child);
        }
        for (const auto& [number, alike] : groups) {
            if (alike.size() >= least_group(folding_) && may_merge(alike)) {
                for (std::size_t i = 1; i < alike.size(); ++i) {
                    merge_child(index, alike.front(), alike[i]);
                }
            }
        }
    }

    /// Circuits through a box of splices are alike only when they are so on both sides of it.
    bool may_merge(const std::vector<int>& alike) const {
        if (plan_.block(plan_.block(alike.front()).parent).form != Form::splices) {
            return true;
        }
        std::string first;
        for (const int child : alike) {
            if (plan_.block(child).wires.size() != 1) {
                return false;
            }
            Description d;
            describe_wire(plan_.wire(onward(child)), d);
            if (child == alike.front()) {
                first = d.text();
            } else if (d.text() != first) {
                return false;
            }
        }
        return true;
    }

    /// The wire on which the circuit of a child leaves the box of splices that it enters.
    int onward(int child) const {
        const Wire& entering = plan_.wire(plan_.block(child).wires.front());
        const Block& box = plan_.block(entering.parent);
        std::size_t place = 0; // among the wires that are drawn
        for (int tap = 0; tap < entering.parent_tap; ++tap) {
            const Tap& before = box.taps[static_cast<std::size_t>(tap)];
            place += !before.toward_utility && !before.merged ? 1 : 0;
        }
        return box.wires[place];
    }

    void merge_child(int parent, int kept, int other) {
        Block& above = plan_.block(parent);
        if (above.form == Form::splices) {
            const int into = onward(kept), from = onward(other);
            plan_.child_tap(plan_.wire(from)).merged = true;
            merge_wire(into, from);
            merge_taps(plan_.child_tap(plan_.wire(into)), plan_.child_tap(plan_.wire(from)));
            above.wires.erase(std::find(above.wires.begin(), above.wires.end(), from));
        }
        const std::vector<int> wires = plan_.block(kept).wires;
        const std::vector<int> others = plan_.block(other).wires;
        for (std::size_t i = 0; i < wires.size(); ++i) {
            merge_wire(wires[i], others[i]);
        }
        merge_block(kept, other);
        above.children.erase(std::find(above.children.begin(), above.children.end(), other));
    }

    /// Two wires between alike ends: the parent's tap of the second goes.
    void merge_wire(int kept, int other) {
        Wire& into = plan_.wire(kept);
        Wire& from = plan_.wire(other);
        into.circuits.insert(into.circuits.end(), from.circuits.begin(), from.circuits.end());
        merge_taps(plan_.parent_tap(into), plan_.parent_tap(from));
        plan_.parent_tap(from).merged = true;
    }

    void merge_taps(Tap& into, const Tap& from) {
        into.terminals.insert(into.terminals.end(), from.terminals.begin(), from.terminals.end());
        into.breakers.insert(into.breakers.end(), from.breakers.begin(), from.breakers.end());
        into.transformers.insert(into.transformers.end(), from.transformers.begin(),
                                 from.transformers.end());
    }

    /// Everything in and below `other` is also shown by `kept`; both are alike part by part.
    void merge_block(int kept, int other) {
        Block& into = plan_.block(kept);
        const Block& from = plan_.block(other);
        into.members.insert(into.members.end(), from.members.begin(), from.members.end());
        for (std::size_t i = 0; i < into.taps.size(); ++i) {
            merge_taps(into.taps[i], from.taps[i]);
        }
        for (std::size_t i = 0; i < into.children.size(); ++i) {
            const Block& child = plan_.block(into.children[i]);
            const Block& twin = plan_.block(from.children[i]);
            for (std::size_t w = 0; w < child.wires.size(); ++w) {
                Wire& wire = plan_.wire(child.wires[w]);
                const Wire& same = plan_.wire(twin.wires[w]);
                wire.circuits.insert(wire.circuits.end(), same.circuits.begin(),
                                     same.circuits.end());
            }
            merge_block(into.children[i], from.children[i]);
        }
    }

    /// Loads with equal breakers share a tap.
    void fold_loads(Block& block) {
        std::map<std::string, Tap*> known;
        for (Tap& tap : block.taps) {
            if (tap.device != Device::load) {
                continue;
            }
            const Equipment& holder = plan_.of(block);
            const int load = tap.loads.front();
            const std::string status = is_added(holder, load) ? "new" : "";
            const auto [found, first] =
                known.try_emplace(load_rating(*holder.as<Panel>(), load) + end_of_part +
                                      tap.controller + end_of_part + status,
                                  &tap);
            if (!first) {
                found->second->loads.push_back(tap.loads.front());
                tap.merged = true;
            }
        }
    }

    /// Taps drawn by others go, and wires learn the new places of those that stay.
    void drop_merged_taps(int index) {
        Block& block = plan_.block(index);
        std::vector<int> place(block.taps.size());
        std::vector<Tap> left;
        for (std::size_t i = 0; i < block.taps.size(); ++i) {
            place[i] = static_cast<int>(left.size());
            if (!block.taps[i].merged) {
                left.push_back(std::move(block.taps[i]));
            }
        }
        block.taps = std::move(left);
        for (const int wire : block.wires) {
            int& tap = plan_.wire(wire).child_tap;
            tap = place[static_cast<std::size_t>(tap)];
        }
        for (const int child : block.children) {
            for (const int wire : plan_.block(child).wires) {
                int& tap = plan_.wire(wire).parent_tap;
                tap = place[static_cast<std::size_t>(tap)];
            }
        }
    }

    Plan& plan_;
    Folding folding_;
    std::map<std::string, int> numbers_; ///< by description
    std::map<int, int> likeness_;        ///< by block
};

} // namespace

void fold(Plan& whole, Folding folding) {
    if (folding != Folding::none) {
        Folder(whole, folding).fold();
    }
}

} // namespace ohmfolio::diagram
