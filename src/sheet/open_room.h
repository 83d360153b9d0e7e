/// Where lettering may still go in a view: keeps account of what is taken, and finds the nearest
/// place that is free.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "drawing/box_grid.h"
#include "drawing/frame.h"
#include "drawing/measure.h"

namespace ohmfolio::sheets {

class OpenRoom {
  public:
    explicit OpenRoom(Length clear);

    void take(const Box& box);
    void take_line(Point from, Point to);
    /// All lines and lettering of a frame from its mark number `first` on.
    void take_marks(const Frame& frame, std::size_t first, const TextMeasure& measure);
    void take_outline(const std::vector<Point>& corners);

    /// Nothing taken comes nearer than the clear distance.
    bool is_free(const Box& box) const;
    /// The line runs through nothing that is taken as a box.
    bool is_free_line(Point from, Point to) const;
    /// The box of `size` nearest to `middle`, no more than `reach` away, that is free and allowed.
    std::optional<Box> nearest(Size size, Point middle, Length reach,
                               const std::function<bool(const Box&)>& is_allowed) const;

  private:
    struct Line {
        Point from, to;
    };
    Length clear_;
    std::vector<Box> boxes_;
    std::vector<Line> lines_;
    BoxGrid near_boxes_, near_lines_; ///< an array may have thousands of modules
};

/// True when the line runs through the box or touches it.
bool crosses(Point from, Point to, const Box& box);

} // namespace ohmfolio::sheets
