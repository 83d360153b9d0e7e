#include "revision/alignment.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <map>

namespace ohmfolio::revision {

namespace {

/// Neighbours that must have moved together to be taken for the same.
constexpr std::size_t moved_together = 3;
/// Gaps larger than this are left to the pairing of what has moved: the table of the exact pairing
/// would not go into the memory of a small machine.
constexpr std::size_t largest_table = 4'000'000;

/// A part of both lists.
struct Gap {
    std::size_t older_from, older_to, newer_from, newer_to;
    bool empty() const { return older_from == older_to || newer_from == newer_to; }
};

struct Pair {
    std::size_t older, newer;
};

class Pairing {
  public:
    Pairing(const std::vector<int>& older, const std::vector<int>& newer)
        : older_(older), newer_(newer), partner_(newer.size(), -1), taken_(older.size(), false) {}

    std::vector<int> pair_all(const std::vector<bool>& may_move) {
        pair_gap({0, older_.size(), 0, newer_.size()});
        pair_moved(may_move);
        return std::move(partner_);
    }

  private:
    void join(std::size_t older, std::size_t newer) {
        partner_[newer] = static_cast<int>(older);
        taken_[older] = true;
    }

    /// Equal ends first, then what occurs but once in both and keeps its order; the gaps between
    /// are worked out exactly.
    void pair_gap(Gap gap) {
        trim(gap);
        if (gap.empty())
            return;
        const std::vector<Pair> fixed = in_order(singular(gap));
        if (fixed.empty()) {
            pair_exactly(gap);
            return;
        }
        Gap rest{gap.older_from, 0, gap.newer_from, 0};
        for (const Pair& pair : fixed) {
            join(pair.older, pair.newer);
            rest.older_to = pair.older;
            rest.newer_to = pair.newer;
            pair_gap(rest);
            rest.older_from = pair.older + 1;
            rest.newer_from = pair.newer + 1;
        }
        rest.older_to = gap.older_to;
        rest.newer_to = gap.newer_to;
        pair_gap(rest);
    }

    void trim(Gap& gap) {
        while (!gap.empty() && older_[gap.older_from] == newer_[gap.newer_from])
            join(gap.older_from++, gap.newer_from++);
        while (!gap.empty() && older_[gap.older_to - 1] == newer_[gap.newer_to - 1])
            join(--gap.older_to, --gap.newer_to);
    }

    /// What occurs but once in both, in the order of the older list.
    std::vector<Pair> singular(const Gap& gap) const {
        struct Count {
            std::size_t older = 0, newer = 0, at = 0;
        };
        std::map<int, Count> counts;
        for (std::size_t i = gap.newer_from; i < gap.newer_to; ++i) {
            Count& count = counts[newer_[i]];
            ++count.newer;
            count.at = i;
        }
        for (std::size_t i = gap.older_from; i < gap.older_to; ++i)
            ++counts[older_[i]].older;
        std::vector<Pair> pairs;
        for (std::size_t i = gap.older_from; i < gap.older_to; ++i) {
            const Count& count = counts[older_[i]];
            if (count.older == 1 && count.newer == 1)
                pairs.push_back({i, count.at});
        }
        return pairs;
    }

    /// The most of them that stand in the same order in both lists.
    static std::vector<Pair> in_order(const std::vector<Pair>& pairs) {
        std::vector<std::size_t> ends;                 // ends[n]: last of the best chain of n + 1
        std::vector<std::size_t> before(pairs.size()); // in its chain; itself: none
        for (std::size_t i = 0; i < pairs.size(); ++i) {
            const auto at = std::ranges::lower_bound(
                ends, pairs[i].newer, {}, [&](std::size_t end) { return pairs[end].newer; });
            before[i] = at == ends.begin() ? i : *(at - 1);
            if (at == ends.end())
                ends.push_back(i);
            else
                *at = i;
        }
        std::vector<Pair> chain;
        if (ends.empty())
            return chain;
        for (std::size_t i = ends.back();; i = before[i]) {
            chain.push_back(pairs[i]);
            if (before[i] == i)
                break;
        }
        std::ranges::reverse(chain);
        return chain;
    }

    /// The longest common sequence, by its table.
    void pair_exactly(const Gap& gap) {
        const std::size_t rows = gap.older_to - gap.older_from;
        const std::size_t columns = gap.newer_to - gap.newer_from;
        if ((rows + 1) * (columns + 1) > largest_table)
            return;
        std::vector<std::uint32_t> table((rows + 1) * (columns + 1), 0);
        const auto at = [&](std::size_t row, std::size_t column) -> std::uint32_t& {
            return table[row * (columns + 1) + column];
        };
        const auto equal = [&](std::size_t row, std::size_t column) {
            return older_[gap.older_from + row] == newer_[gap.newer_from + column];
        };
        for (std::size_t row = rows; row-- > 0;) {
            for (std::size_t column = columns; column-- > 0;)
                at(row, column) = equal(row, column)
                                      ? at(row + 1, column + 1) + 1
                                      : std::max(at(row + 1, column), at(row, column + 1));
        }
        std::size_t row = 0, column = 0;
        while (row < rows && column < columns) {
            if (equal(row, column))
                join(gap.older_from + row++, gap.newer_from + column++);
            else if (at(row + 1, column) >= at(row, column + 1))
                ++row;
            else
                ++column;
        }
    }

    void pair_moved(const std::vector<bool>& may_move) {
        std::map<int, std::vector<std::size_t>> left;
        for (std::size_t i = 0; i < older_.size(); ++i) {
            if (!taken_[i])
                left[older_[i]].push_back(i);
        }
        for (std::size_t i = 0; i < newer_.size(); ++i) {
            if (partner_[i] >= 0)
                continue;
            const auto found = left.find(newer_[i]);
            if (found == left.end())
                continue;
            for (const std::size_t candidate : found->second) {
                if (taken_[candidate])
                    continue;
                const std::size_t run = run_of(candidate, i);
                if (!may_move[i] && run < moved_together)
                    continue;
                for (std::size_t k = 0; k < run; ++k)
                    join(candidate + k, i + k);
                break;
            }
        }
    }

    /// How many neighbours from there on are equal and have no partner yet.
    std::size_t run_of(std::size_t older, std::size_t newer) const {
        std::size_t run = 0;
        while (older + run < older_.size() && newer + run < newer_.size() && !taken_[older + run] &&
               partner_[newer + run] < 0 && older_[older + run] == newer_[newer + run])
            ++run;
        return run;
    }

    const std::vector<int>& older_;
    const std::vector<int>& newer_;
    std::vector<int> partner_;
    std::vector<bool> taken_;
};

} // namespace

std::vector<int> partners(const std::vector<int>& older, const std::vector<int>& newer,
                          const std::vector<bool>& may_move) {
    return Pairing(older, newer).pair_all(may_move);
}

} // namespace ohmfolio::revision
