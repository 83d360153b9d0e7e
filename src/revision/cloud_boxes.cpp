#include "revision/cloud_boxes.h"

#include <algorithm>
#include <cstddef>

#include "drawing/box_grid.h"

namespace ohmfolio::revision {

namespace {

/// Half of the room between lines and between cells belongs to each.
constexpr Length own_room = points(4);
/// Between letters and the arcs around them: more below, where commas and brackets hang, and beside
/// them, where there is room more often.
constexpr Length clear_above = points(1);
constexpr Length clear_below = points(1.6);
constexpr Length clear_beside = points(2);
/// Lettering that is within a cloud by chance stands at least this far from its line.
constexpr Length inner = points(0.5);
/// Lettering in the way is first avoided: the arcs may stand further out, up to this.
constexpr Length furthest = points(9);
constexpr Length step = points(0.75);

/// What goes into one cloud, and what its arcs stand on once that is known.
struct Cluster {
    Box contents, outline;
    double filled; ///< area of what changed, with the room that belongs to it
};

Box grown(const Box& box, Size by) {
    return {{box.low.x - by.width, box.low.y - by.height},
            {box.high.x + by.width, box.high.y + by.height}};
}

double area(const Box& box) { return box.width().in_points() * box.height().in_points(); }

/// Whether the boxes stand beside one another in a row, as the cells of a table do; paragraphs in
/// columns do not.
bool in_a_row(const Box& a, const Box& b) {
    const Length tallest_row = points(40), widest_cell = inches(2.2);
    if (std::max(a.height(), b.height()) > tallest_row ||
        std::min(a.width(), b.width()) > widest_cell)
        return false;
    const Length common = std::min(a.high.y, b.high.y) - std::max(a.low.y, b.low.y);
    return scaled(common, 1.4) >= std::max(a.height(), b.height());
}

/// How much larger than its parts a cloud may be: within a row more, since nothing else of the row
/// is told by it; where it would take in what stands around, little.
constexpr double waste_in_a_row = 2.2;
constexpr double waste = 1.35;

/// Close, and filled by what changed.
bool belong_together(const Cluster& a, const Cluster& b, Size near) {
    const bool row = in_a_row(a.outline, b.outline);
    const Length sideways = row ? near.width : near.height;
    const Box reach = grown(a.outline, {sideways, near.height});
    const double most = row ? waste_in_a_row : waste;
    return reach.overlaps(b.outline) &&
           area(united(a.outline, b.outline)) <= most * (a.filled + b.filled);
}

template <class Joins>
bool join_once(std::vector<Cluster>& clusters, Size near, const Box& paper, Joins joins) {
    BoxGrid grid(paper);
    std::vector<Cluster> kept;
    bool joined = false;
    for (const Cluster& cluster : clusters) {
        const auto close = grid.near(grown(cluster.outline, near));
        const auto found =
            std::ranges::find_if(close, [&](std::size_t id) { return joins(kept[id], cluster); });
        if (found == close.end()) {
            grid.add(kept.size(), cluster.outline);
            kept.push_back(cluster);
            continue;
        }
        Cluster& other = kept[*found];
        other.contents = united(other.contents, cluster.contents);
        other.outline = united(other.outline, cluster.outline);
        other.filled += cluster.filled;
        grid.add(*found, other.outline);
        joined = true;
    }
    clusters = std::move(kept);
    return joined;
}

/// Puts together what joins, until nothing does any more. True when something was.
template <class Joins>
bool join(std::vector<Cluster>& clusters, Size near, const Box& paper, Joins joins) {
    bool any = false;
    while (join_once(clusters, near, paper, joins))
        any = true;
    return any;
}

/// What did not change, on which no cloud is to be put without need.
class Unchanged {
  public:
    Unchanged(const std::vector<Box>& lettering, const BoxGrid& grid,
              const std::vector<Box>& changed)
        : lettering_(lettering), grid_(grid), changed_(lettering.size()) {
        for (const Box& box : changed) {
            for (const std::size_t id : grid.near(box)) {
                if (box.contains(lettering[id].centre()))
                    changed_[id] = true;
            }
        }
    }

    /// Whether one cloud around both would take in what neither holds: what did not change, or part
    /// of what would then have to join them.
    bool lies_between(const Cluster& a, const Cluster& b) const {
        const Box both = united(a.contents, b.contents);
        return grid_.any_near(both, [&](std::size_t id) {
            const Box& other = lettering_[id];
            const bool may_join = changed_[id] && both.contains(other);
            return !may_join && other.overlaps(both) && !other.overlaps(a.contents) &&
                   !other.overlaps(b.contents);
        });
    }

  private:
    const std::vector<Box>& lettering_;
    const BoxGrid& grid_;
    std::vector<bool> changed_; ///< parallel to the lettering
};

Box clipped(const Box& box, const Box& within) {
    return {{std::max(box.low.x, within.low.x), std::max(box.low.y, within.low.y)},
            {std::min(box.high.x, within.high.x), std::min(box.high.y, within.high.y)}};
}

/// Finds for one box where its arcs run clear of lettering.
class Outlining {
  public:
    Outlining(const CloudRoom& room, const BoxGrid& grid) : room_(room), grid_(grid) {}

    /// Grows over lettering that the arcs cannot avoid.
    Box around(Box contents) const {
        while (true) {
            Box box = padded(contents);
            if (widened(box))
                return box;
            const Box grown = over_obstacles(contents);
            if (grown == contents) // the border is in the way: nothing can be done
                return clipped(box, inside());
            contents = grown;
        }
    }

  private:
    Box inside() const { return room_.border.grown(-room_.bulge); }
    static bool holds(const Box& box, const Box& text) { return box.grown(-inner).contains(text); }
    Box ring(const Box& box) const { return box.grown(room_.bulge); }
    static Box padded(const Box& contents) {
        return {{contents.low.x - clear_beside, contents.low.y - clear_above},
                {contents.high.x + clear_beside, contents.high.y + clear_below}};
    }

    bool in_the_way(std::size_t id, const Box& box) const {
        const Box& text = room_.lettering[id];
        return text.overlaps(ring(box)) && !holds(box, text);
    }

    bool is_clear(const Box& box) const {
        return !grid_.any_near(ring(box), [&](std::size_t id) { return in_the_way(id, box); });
    }

    /// A side of the box, and the strip that its arcs take. Both corners are named, since g++ 12
    /// copies what `(a ? b : c).*member` is to change.
    struct Side {
        Length Point::*axis;
        Point Box::*corner;
        Point Box::*opposite;
        int outward;
    };
    static constexpr Side sides[] = {{&Point::y, &Box::low, &Box::high, -1},
                                     {&Point::x, &Box::high, &Box::low, 1},
                                     {&Point::y, &Box::high, &Box::low, 1},
                                     {&Point::x, &Box::low, &Box::high, -1}};

    static Length& edge(Box& box, const Side& side) { return box.*side.corner.*side.axis; }

    Box strip(const Box& box, const Side& side) const {
        Box strip = ring(box);
        // From the edge outward; the corners belong to both sides.
        const Length edge_of_box = box.*side.corner.*side.axis;
        strip.*side.opposite.*side.axis = edge_of_box - inner * side.outward;
        return strip;
    }

    bool strip_is_clear(const Box& box, const Side& side) const {
        const Box strip = this->strip(box, side);
        return !grid_.any_near(strip, [&](std::size_t id) {
            return room_.lettering[id].overlaps(strip) && !holds(box, room_.lettering[id]);
        });
    }

    /// Moves each side outward until its arcs are clear; false when one finds no place.
    bool widened(Box& box) const {
        for (const Side& side : sides) {
            const Length start = edge(box, side);
            for (Length out{}; !strip_is_clear(box, side); out += step) {
                if (out > furthest || !inside().contains(box))
                    return false;
                edge(box, side) = start + out * side.outward;
            }
        }
        return is_clear(box);
    }

    /// Together with the lettering that its arcs would run through where they stand closest.
    Box over_obstacles(const Box& contents) const {
        const Box box = padded(contents);
        Box grown = contents;
        for (const std::size_t id : grid_.near(ring(box))) {
            if (in_the_way(id, box))
                grown = united(grown, room_.lettering[id]);
        }
        // What is in the way only further out, beyond the reach of the widening.
        if (grown == contents) {
            const Box wide = box.grown(furthest + room_.bulge);
            for (const std::size_t id : grid_.near(wide)) {
                if (room_.lettering[id].overlaps(wide))
                    grown = united(grown, room_.lettering[id]);
            }
        }
        return grown;
    }

    const CloudRoom& room_;
    const BoxGrid& grid_;
};

} // namespace

std::vector<Box> cloud_boxes(const std::vector<Box>& changed, const CloudRoom& room) {
    const BoxGrid grid = grid_of(room.lettering, room.border);
    const Outlining outlining(room, grid);
    const Unchanged unchanged(room.lettering, grid, changed);
    std::vector<Cluster> clusters;
    for (const Box& box : changed)
        clusters.push_back({box, box, area(box.grown(own_room))});
    join(clusters, room.near, room.border, [&](const Cluster& a, const Cluster& b) {
        return belong_together(a, b, room.near) && !unchanged.lies_between(a, b);
    });
    const Length touching = room.bulge * 2;
    do {
        for (Cluster& cluster : clusters)
            cluster.outline = outlining.around(cluster.contents);
        // Arcs that would touch become those of one cloud, unless that would hold more.
    } while (
        join(clusters, {touching, touching}, room.border, [&](const Cluster& a, const Cluster& b) {
            return a.outline.overlaps(b.outline) ||
                   (a.outline.grown(touching).overlaps(b.outline) && !unchanged.lies_between(a, b));
        }));
    std::vector<Box> boxes;
    for (const Cluster& cluster : clusters)
        boxes.push_back(cluster.outline);
    return boxes;
}

} // namespace ohmfolio::revision
