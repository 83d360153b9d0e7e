/// Finds square paths among obstacles: used for control wiring, which goes around everything.
#pragma once

#include <optional>
#include <vector>

#include "drawing/box_grid.h"
#include "drawing/geometry.h"

namespace ohmfolio::diagram {

/// A straight stretch of power wire: control wiring may cross it squarely, at a price, but never
/// run along it.
struct Stretch {
    Point a, b;
    bool horizontal() const { return a.y == b.y; }
};

class SquareRouter {
  public:
    /// `obstacles` are not entered; `keep` is the distance kept from wires run along.
    SquareRouter(Box area, std::vector<Box> obstacles, std::vector<Stretch> wires, Length keep);

    /// The cheapest square path from any point of `tree` to `target`: short, few bends, few
    /// crossings. The first point lies on the tree. Nothing when there is none.
    std::optional<std::vector<Point>> path(const std::vector<Stretch>& tree, Point target) const;

  private:
    bool free(Point a, Point b) const;
    bool runs_along(Point a, Point b, const Stretch& wire) const;
    int crossings(Point a, Point b) const;

    Box area_;
    std::vector<Box> obstacles_;
    std::vector<Stretch> wires_;
    Length keep_;
    BoxGrid near_obstacles_, near_wires_; ///< wires with the distance kept from them
    std::vector<Length> xs_, ys_;         ///< grid lines given by the obstacles
};

} // namespace ohmfolio::diagram
