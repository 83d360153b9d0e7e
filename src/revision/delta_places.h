/// Inside the revision room: room for the deltas beside their clouds.
#pragma once

#include <optional>
#include <vector>

#include "drawing/box_grid.h"
#include "drawing/measure.h"
#include "drawing/sheet.h"

namespace ohmfolio::revision {

struct DeltaPlace {
    Box box;
    /// From the delta to its cloud where it stands away from it; else both ends are one.
    Point leader_from, leader_to;
};

/// Deltas are put one after the other; each takes its place from the next.
class DeltaPlaces {
  public:
    /// `clouds` are the boxes with the bulges of their arcs.
    DeltaPlaces(const Sheet& sheet, const std::vector<Box>& clouds, const TextMeasure& measure);

    /// The nearest free room beside `cloud`; over a rule of a table or a wire only where there is
    /// none else. Nothing when even that is not to be had.
    std::optional<DeltaPlace> place(const Box& cloud, Size delta);

  private:
    /// How much of the drawing a delta there would cover; nothing where it must not stand.
    std::optional<int> covers(const Box& box) const;
    std::optional<DeltaPlace> best_at(const Box& cloud, Size delta, Length away) const;
    bool leader_is_free(Point from, Point to) const;
    void take(const Box& box);
    void take_leader(Point from, Point to);

    std::vector<Box> lettering_, lines_;
    std::vector<Box> taken_; ///< by clouds and deltas
    BoxGrid lettering_grid_, lines_grid_, taken_grid_;
    Box within_;
};

} // namespace ohmfolio::revision
