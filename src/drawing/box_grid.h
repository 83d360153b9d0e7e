/// Finds what lies near a place without looking at everything.
#pragma once

#include <cstddef>
#include <vector>

#include "drawing/geometry.h"

namespace ohmfolio {

/// Boxes by the squares of paper they touch.
class BoxGrid {
  public:
    /// `area` need not hold all boxes; what lies outside is kept in the squares of the edge.
    explicit BoxGrid(const Box& area);

    void add(std::size_t id, const Box& box);
    /// The ids of all boxes that may touch `box`, each once, in order.
    std::vector<std::size_t> near(const Box& box) const;
    /// True when `holds` does for one of them; it may be asked for the same id more than once.
    template <class F> bool any_near(const Box& box, F holds) const {
        const Squares within = squares(box);
        for (int row = within.top; row <= within.bottom; ++row) {
            for (int column = within.left; column <= within.right; ++column) {
                for (const std::size_t id : squares_[index(column, row)]) {
                    if (holds(id))
                        return true;
                }
            }
        }
        return false;
    }

  private:
    struct Squares {
        int left, top, right, bottom;
    };
    Squares squares(const Box& box) const;
    std::size_t index(int column, int row) const;

    Box area_;
    int columns_, rows_;
    std::vector<std::vector<std::size_t>> squares_;
};

/// Each box under its place in `boxes`.
BoxGrid grid_of(const std::vector<Box>& boxes, const Box& area);

} // namespace ohmfolio
