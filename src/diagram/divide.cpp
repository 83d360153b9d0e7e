/// Sixth step: one page where the whole fits, else as few as can be. The whole is a tree, so every
/// cut crosses the wires of one block only. The cut that is sought leaves two pieces that both fit
/// and are as equal as can be; else the largest piece that fits is taken off, until the rest fits.
/// A bus with more on it than any page holds is divided.
#include "diagram/divide.h"

#include <algorithm>
#include <deque>
#include <optional>

#include "base/text.h"

namespace ohmfolio::diagram {

namespace {

/// The distances of the style, and tighter ones for a system that is wide for its sheet. Lettering
/// never shrinks; it is broken into more lines.
std::vector<Spacing> spacings() {
    Spacing tight;
    tight.wire_room = inches(0.39);
    tight.block_gap = inches(0.08);
    Spacing tightest = tight;
    tightest.caption_overhang = inches(0.10);
    return {{}, tight, tightest};
}

/// A piece at a cut: what is taken off, and what is left.
struct Cut {
    Piece off, rest;
    int weight = 0; ///< of what is taken off
    int wires = 1;
};

class Divider {
  public:
    Divider(const Plan& whole, Findings& findings) : whole_(whole), findings_(findings) {}

    std::vector<Piece> divided() {
        std::deque<Piece> waiting = {{.root = whole_.roots.front()}};
        std::vector<Piece> done;
        while (!waiting.empty()) {
            const Piece piece = waiting.front();
            waiting.pop_front();
            const Excess excess = fitted(whole_, {piece}).excess;
            const std::optional<Cut> cut = excess.none() ? std::nullopt : best_cut(piece);
            if (cut) {
                waiting.push_front(cut->rest);
                waiting.push_back(cut->off);
                continue;
            }
            if (!excess.none()) {
                report(piece, excess);
            }
            done.push_back(piece);
        }
        return done;
    }

  private:
    void report(const Piece& piece, Excess excess) {
        const bool wide = excess.width > Length{};
        const Length over = wide ? excess.width : excess.height;
        findings_.push_back({.rule = wide ? "diagram.too_wide" : "diagram.too_high",
                             .severity = Severity::error,
                             .subject = "equipment:" + whole_.of(whole_.block(piece.root)).id,
                             .message = "the diagram of " + whole_.of(whole_.block(piece.root)).id +
                                        " is " + (wide ? "wider" : "higher") +
                                        " than the sheet by " + decimal(over.in_inches(), 1) +
                                        " in, and cannot be divided further",
                             .expected = "a larger sheet format"});
    }

    /// What a block and all below it come to on the page of the piece, by lines of lettering and
    /// taps; notes each block's in `weights`.
    int weigh(const Piece& piece, int index, std::map<int, int>& weights) const {
        const Block& block = whole_.block(index);
        int weight = 2 + static_cast<int>(block.taps.size() - block.wires.size());
        const Piece::Range range = piece.children_of(whole_, index);
        weight -= static_cast<int>(block.children.size() - (range.last - range.first));
        for (std::size_t i = range.first; i < range.last; ++i) {
            const int child = block.children[i];
            if (piece.cut.count(child) == 0) {
                weight += weigh(piece, child, weights);
            }
        }
        return weights[index] = weight;
    }

    Cut cut_at(const Piece& piece, int index, int weight) const {
        Cut cut{{.root = index}, piece, weight, static_cast<int>(whole_.block(index).wires.size())};
        cut.rest.cut.insert(index);
        hand_over(piece, index, cut);
        return cut;
    }

    /// What was cut or divided below `index` belongs to the piece taken off.
    void hand_over(const Piece& piece, int index, Cut& cut) const {
        if (cut.rest.shown.erase(index) != 0) {
            cut.off.shown[index] = piece.shown.at(index);
        }
        const Piece::Range range = piece.children_of(whole_, index);
        for (std::size_t i = range.first; i < range.last; ++i) {
            const int child = whole_.block(index).children[i];
            if (piece.cut.count(child) != 0) {
                cut.rest.cut.erase(child);
                cut.off.cut.insert(child);
            } else {
                hand_over(piece, child, cut);
            }
        }
    }

    bool fits(const Piece& piece) const { return fitted(whole_, {piece}).excess.none(); }

    std::optional<Cut> best_cut(const Piece& piece) const {
        std::map<int, int> weights;
        const int total = weigh(piece, piece.root, weights);
        std::vector<Cut> candidates = largest_that_fit(piece, weights);
        if (candidates.empty()) {
            return divided_bus(piece, weights);
        }
        const auto better = [total](const Cut& a, const Cut& b) {
            const auto rank = [total](const Cut& c) {
                return std::min(c.weight, total - c.weight) - (c.wires - 1) * wire_price;
            };
            return rank(a) > rank(b);
        };
        std::stable_sort(candidates.begin(), candidates.end(), better);
        for (const Cut& cut : candidates) {
            if (fits(cut.rest)) {
                return cut;
            }
        }
        return *std::max_element(candidates.begin(), candidates.end(),
                                 [](const Cut& a, const Cut& b) {
                                     return a.weight - (a.wires - 1) * wire_price <
                                            b.weight - (b.wires - 1) * wire_price;
                                 });
    }

    std::vector<Cut> largest_that_fit(const Piece& piece, const std::map<int, int>& weights) const {
        std::vector<std::pair<int, int>> by_weight; // negative, so that the heaviest comes first
        for (const auto& [index, weight] : weights) {
            if (index != piece.root && weight >= least_weight) {
                by_weight.emplace_back(-weight, index);
            }
        }
        std::sort(by_weight.begin(), by_weight.end());
        std::vector<Cut> found;
        for (const auto& [weight, index] : by_weight) {
            Cut cut = cut_at(piece, index, -weight);
            if (-weight <= heaviest && fits(cut.off)) {
                found.push_back(std::move(cut));
            }
            if (found.size() == most_candidates) {
                break;
            }
        }
        return found;
    }

    // ---- more on one block than a page holds ---------------------------------------------------

    std::optional<Cut> divided_bus(const Piece& piece, const std::map<int, int>& weights) const {
        const int bus = most_crowded(piece, weights, true);
        if (bus >= 0) {
            const bool begins_here = bus == piece.root || fits(with_children(piece, bus, 1));
            return begins_here ? divided_at(piece, bus) : cut_at(piece, bus, weights.at(bus));
        }
        const int box = most_crowded(piece, weights, false);
        return box >= 0 ? std::optional(without_last_child(piece, box, weights)) : std::nullopt;
    }

    /// The block with most children: a bus counts those whose match marks it bears too, others
    /// only those that can still be taken off. None where no block has two.
    int most_crowded(const Piece& piece, const std::map<int, int>& weights, bool bus) const {
        int crowded = -1;
        std::size_t most = 1;
        for (const auto& [index, weight] : weights) {
            const Block& block = whole_.block(index);
            const Piece::Range range = piece.children_of(whole_, index);
            std::size_t here = 0;
            for (std::size_t i = range.first; i < range.last; ++i) {
                here += bus || piece.cut.count(block.children[i]) == 0 ? 1 : 0;
            }
            if ((block.form == Form::bus) == bus && here > most) {
                most = here;
                crowded = index;
            }
        }
        return crowded;
    }

    Piece with_children(const Piece& piece, int index, std::size_t count) const {
        const Piece::Range range = piece.children_of(whole_, index);
        Piece first = piece;
        first.shown[index] = {range.first, range.first + count};
        return first;
    }

    Cut without_last_child(const Piece& piece, int index, const std::map<int, int>& weights) const {
        const std::vector<int>& children = whole_.block(index).children;
        const auto last = std::find_if(children.rbegin(), children.rend(),
                                       [&](int child) { return piece.cut.count(child) == 0; });
        return cut_at(piece, *last, weights.at(*last));
    }

    /// As many children as fit stay, at least one; the others go on with the bus.
    std::optional<Cut> divided_at(const Piece& piece, int index) const {
        const Piece::Range range = piece.children_of(whole_, index);
        std::size_t fitting = 1, too_many = range.last - range.first;
        while (fitting + 1 < too_many) {
            const std::size_t middle = (fitting + too_many) / 2;
            (fits(with_children(piece, index, middle)) ? fitting : too_many) = middle;
        }
        if (range.last - range.first <= fitting) {
            return std::nullopt;
        }
        Cut cut{{.root = index, .continued = true}, with_children(piece, index, fitting)};
        cut.off.shown[index] = {range.first + fitting, range.last};
        for (std::size_t i = range.first + fitting; i < range.last; ++i) {
            const int child = whole_.block(index).children[i];
            if (cut.rest.cut.erase(child) != 0) {
                cut.off.cut.insert(child);
            } else {
                hand_over(piece, child, cut);
            }
        }
        return cut;
    }

    static constexpr int least_weight = 5;
    static constexpr int heaviest = 400; ///< no page holds as much; not worth laying out
    static constexpr int wire_price = 12;
    static constexpr std::size_t most_candidates = 8;

    const Plan& whole_;
    Findings& findings_;
};

/// Small pieces share a page, in their order; the one with the utility stands alone.
std::vector<std::vector<Piece>> packed(const Plan& whole, const std::vector<Piece>& pieces) {
    std::vector<std::vector<Piece>> pages = {{pieces.front()}};
    for (std::size_t i = 1; i < pieces.size(); ++i) {
        std::vector<Piece> together = pages.back();
        together.push_back(pieces[i]);
        if (pages.size() > 1 && fitted(whole, together).excess.none()) {
            pages.back() = std::move(together);
        } else {
            pages.push_back({pieces[i]});
        }
    }
    return pages;
}

} // namespace

Fitted fitted(const Plan& whole, const std::vector<Piece>& pieces) {
    const std::vector<Spacing> choices = spacings();
    for (std::size_t i = 0;; ++i) {
        Plan page = page_of(whole, pieces, choices[i]);
        measure(page);
        rank(page);
        const Excess excess = place(page);
        if (excess.width == Length{} || i + 1 == choices.size()) {
            return {std::move(page), excess};
        }
    }
}

std::vector<Plan> divide(const Plan& whole, Findings& findings) {
    std::vector<Plan> pages;
    for (const std::vector<Piece>& pieces : packed(whole, Divider(whole, findings).divided())) {
        pages.push_back(fitted(whole, pieces).page);
    }
    return pages;
}

} // namespace ohmfolio::diagram
