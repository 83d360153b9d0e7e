/// Inside the drawing room: what the drawn wires of one frame touch.
#pragma once

#include <string>
#include <vector>

#include "drawing/box_grid.h"
#include "drawing/strokes.h"

namespace ohmfolio {

/// Ends this near are one point; rounding to whole nanometres happens in several places.
inline constexpr Length joined_within{1000};

/// All outlines of some roles, their stretches found by place.
class Strokes {
  public:
    Strokes(const Frame& frame, const std::vector<Role>& roles);

    struct Found {
        std::size_t outline, stretch;
    };
    const std::vector<Outline>& outlines() const { return outlines_; }
    Stretch stretch(Found found) const { return outlines_[found.outline].stretch(found.stretch); }
    std::vector<Found> near(const Box& box) const;
    /// True when some stretch, not of outline `except`, passes within `reach` of `point`.
    bool touches(Point point, Length reach, std::size_t except = std::size_t(-1)) const;

  private:
    std::vector<Outline> outlines_;
    std::vector<Found> all_;
    BoxGrid grid_;
};

struct Ports {
    std::vector<const Port*> all;
    BoxGrid grid;

    explicit Ports(const Frame& frame);
    std::vector<std::size_t> at(Point point, Length reach) const;
};

/// Dots that make a crossing a connection.
class Junctions {
  public:
    explicit Junctions(const Frame& frame);
    bool at(Point point) const;

  private:
    std::vector<Box> dots_;
    BoxGrid grid_;
};

inline Box paper(const Frame& frame) { return box_at({}, frame.size); }

} // namespace ohmfolio
