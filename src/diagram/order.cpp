/// Second step: which child comes first, and which ones stand at the right of their parent.
///
/// What power flows to (a backed-up panel, a panel of loads alone) hangs at the right of its
/// parent, below all else there. The wire to it runs down past whatever its parent and its parent's
/// parents are joined to, and crosses nothing only when each of these comes last among its
/// siblings: so they are put last, and where two of them compete for that, the later ones in the
/// text stand at the left as sources do.
#include <algorithm>

#include "diagram/plan.h"

namespace ohmfolio::diagram {

namespace {

bool is_source(const Equipment& e) {
    return e.is<BranchArray>() || e.is<StringArray>() || e.is<Battery>() || e.is<Generator>();
}

class Order {
  public:
    explicit Order(Plan& plan)
        : plan_(plan), source_(plan.blocks.size()), hangs_(plan.blocks.size()) {
        for (const Circuit& c : plan.system.circuits) {
            if (c.use == CircuitUse::backup_feeder) {
                backed_up_.push_back(plan.system.child_of(c));
            }
        }
        std::sort(backed_up_.begin(), backed_up_.end());
    }

    void settle() {
        look(plan_.roots.front());
        arrange(plan_.roots.front(), true);
    }

  private:
    /// Which subtrees hold sources, and which hold anything that may hang.
    void look(int index) {
        const auto at = static_cast<std::size_t>(index);
        source_[at] = is_source(plan_.of(plan_.block(index)));
        for (const int child : plan_.block(index).children) {
            look(child);
            const auto c = static_cast<std::size_t>(child);
            source_[at] = source_[at] || source_[c];
            hangs_[at] = hangs_[at] || hangs_[c] || may_hang(child);
        }
    }

    bool may_hang(int index) const {
        const bool of_loads =
            plan_.of(plan_.block(index)).is<Panel>() && !source_[static_cast<std::size_t>(index)];
        return of_loads || std::binary_search(backed_up_.begin(), backed_up_.end(), index);
    }

    /// `last`: nothing stands below this block that a wire from it would have to cross.
    void arrange(int index, bool last) {
        std::vector<int>& children = plan_.block(index).children;
        const bool has_right_side = plan_.block(index).form == Form::bus;
        for (const int child : children) {
            plan_.block(child).hung = last && has_right_side && may_hang(child);
        }
        std::stable_sort(children.begin(), children.end(),
                         [this](int a, int b) { return place_of(a) < place_of(b); });
        const auto sources = std::find_if(children.begin(), children.end(),
                                          [this](int c) { return plan_.block(c).hung; });
        for (auto child = children.begin(); child != children.end(); ++child) {
            // What hangs is clear of its siblings; of the others only the lowest is.
            const bool clear = plan_.block(*child).hung || child + 1 == sources;
            arrange(*child, last && clear);
        }
    }

    /// Plain sources, then one whose own parts hang, then what hangs here.
    int place_of(int child) const {
        return plan_.block(child).hung ? 2 : hangs_[static_cast<std::size_t>(child)] ? 1 : 0;
    }

    Plan& plan_;
    std::vector<bool> source_, hangs_;
    std::vector<int> backed_up_;
};

} // namespace

void order(Plan& whole) { Order(whole).settle(); }

} // namespace ohmfolio::diagram
