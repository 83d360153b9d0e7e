#include "diagram/square_router.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdlib>
#include <functional>
#include <limits>
#include <queue>
#include <tuple>

namespace ohmfolio::diagram {

namespace {

constexpr std::int64_t inch = 25'400'000;
constexpr std::int64_t bend_price = inch * 3 / 4;
constexpr std::int64_t crossing_price = inch * 3 / 2;
constexpr std::int64_t unreached = std::numeric_limits<std::int64_t>::max();
constexpr int directions = 4; // right, down, left, up

void sort_unique(std::vector<Length>& values) {
    std::sort(values.begin(), values.end());
    values.erase(std::unique(values.begin(), values.end()), values.end());
}

Box around(Point a, Point b) {
    return {{std::min(a.x, b.x), std::min(a.y, b.y)}, {std::max(a.x, b.x), std::max(a.y, b.y)}};
}

/// True when the open segment passes through the interior of the box.
bool passes(const Box& line, const Box& box) {
    return line.low.x < box.high.x && line.high.x > box.low.x && line.low.y < box.high.y &&
           line.high.y > box.low.y;
}

bool spans_meet(Length a, Length b, Length c, Length d) {
    return std::max(std::min(a, b), std::min(c, d)) < std::min(std::max(a, b), std::max(c, d));
}

bool between(Length v, Length a, Length b) { return v > std::min(a, b) && v < std::max(a, b); }

/// The grid of one search: obstacle lines, and the lines of the points to be joined.
struct Grid {
    std::vector<Length> xs, ys;

    int x_of(Length x) const {
        return static_cast<int>(std::lower_bound(xs.begin(), xs.end(), x) - xs.begin());
    }
    int y_of(Length y) const {
        return static_cast<int>(std::lower_bound(ys.begin(), ys.end(), y) - ys.begin());
    }
    Point at(int i, int j) const {
        return {xs[static_cast<std::size_t>(i)], ys[static_cast<std::size_t>(j)]};
    }
    int width() const { return static_cast<int>(xs.size()); }
    int height() const { return static_cast<int>(ys.size()); }
};

std::vector<Point> without_collinear(const std::vector<Point>& points) {
    std::vector<Point> out;
    for (const Point& p : points) {
        while (out.size() >= 2) {
            const Point a = out[out.size() - 2], b = out.back();
            const bool straight = (a.x == b.x && b.x == p.x) || (a.y == b.y && b.y == p.y);
            if (!straight) {
                break;
            }
            out.pop_back();
        }
        out.push_back(p);
    }
    return out;
}

/// The best-first search of one path, toward the target first. A state is a grid point and the
/// direction in which it was reached.
template <class Price> class Search {
  public:
    /// `price` is the price of a straight step beyond its length; nothing: the step is not free.
    Search(const Grid& grid, Point target, Price price)
        : grid_(grid), target_(target), price_(std::move(price)), rows_(grid.ys.size()) {}

    void start_along(const Stretch& stretch) {
        const auto [low_x, high_x] = std::minmax(stretch.a.x, stretch.b.x);
        const auto [low_y, high_y] = std::minmax(stretch.a.y, stretch.b.y);
        const bool point = stretch.a == stretch.b;
        for (int j = grid_.y_of(low_y); j <= grid_.y_of(high_y); ++j) {
            for (int i = grid_.x_of(low_x); i <= grid_.x_of(high_x); ++i) {
                for (int d = 0; d < directions; ++d) {
                    // To go on where the stretch ends is better than to turn off along it.
                    const bool along = (d % 2 == 0) == stretch.horizontal();
                    reach({i, j, d}, point || along ? 0 : bend_price, nowhere);
                }
            }
        }
    }

    std::optional<std::vector<Point>> path() {
        const int goal_i = grid_.x_of(target_.x), goal_j = grid_.y_of(target_.y);
        while (!open_.empty()) {
            const auto [estimate, cost, step] = open_.top();
            open_.pop();
            if (cost != state(step).cost) {
                continue; // reached more cheaply since
            }
            if (step.i == goal_i && step.j == goal_j) {
                return traced(step);
            }
            for (int direction = 0; direction < directions; ++direction) {
                advance(step, cost, direction);
            }
        }
        return std::nullopt;
    }

  private:
    struct Step {
        int i, j, direction;
        friend auto operator<=>(const Step&, const Step&) = default;
    };
    struct State {
        std::int64_t cost = unreached;
        Step from = nowhere;
    };
    static constexpr Step nowhere{-1, -1, -1};

    /// Rows are made when the search first comes to them; most paths stay far from most rows.
    State& state(const Step& step) {
        auto& row = rows_[static_cast<std::size_t>(step.j)];
        if (row.empty()) {
            row.resize(grid_.xs.size() * directions);
        }
        return row[static_cast<std::size_t>(step.i) * directions +
                   static_cast<std::size_t>(step.direction)];
    }

    /// No path from here costs less.
    std::int64_t at_least(const Step& step) const {
        const Point at = grid_.at(step.i, step.j);
        return std::abs((target_.x - at.x).nm) + std::abs((target_.y - at.y).nm);
    }

    void reach(const Step& step, std::int64_t cost, const Step& from) {
        State& reached = state(step);
        if (cost < reached.cost) {
            reached = {cost, from};
            open_.emplace(cost + at_least(step), cost, step);
        }
    }

    void advance(const Step& from, std::int64_t cost, int direction) {
        constexpr std::array<int, directions> step_x{1, 0, -1, 0}, step_y{0, 1, 0, -1};
        const auto d = static_cast<std::size_t>(direction);
        const Step to{from.i + step_x[d], from.j + step_y[d], direction};
        const bool inside = to.i >= 0 && to.j >= 0 && to.i < grid_.width() && to.j < grid_.height();
        const bool turns_back = (direction + 2) % directions == from.direction;
        if (!inside || (turns_back && cost > 0)) {
            return;
        }
        const Point a = grid_.at(from.i, from.j), b = grid_.at(to.i, to.j);
        const std::int64_t length = std::abs((b.x - a.x).nm) + std::abs((b.y - a.y).nm);
        const std::int64_t bend = direction == from.direction ? 0 : bend_price;
        const std::int64_t least = cost + length + bend;
        if (least >= state(to).cost) {
            return; // before asking what is in the way, which is the slow part
        }
        if (const auto price = price_(a, b)) {
            reach(to, least + *price, from);
        }
    }

    std::vector<Point> traced(Step step) {
        std::vector<Point> points;
        for (; step != nowhere; step = state(step).from) {
            points.push_back(grid_.at(step.i, step.j));
        }
        std::reverse(points.begin(), points.end());
        return without_collinear(points);
    }

    const Grid& grid_;
    Point target_;
    Price price_;
    std::vector<std::vector<State>> rows_;
    // Estimate first, then the rest: equals are taken in a fixed order.
    using Entry = std::tuple<std::int64_t, std::int64_t, Step>;
    std::priority_queue<Entry, std::vector<Entry>, std::greater<>> open_;
};

} // namespace

SquareRouter::SquareRouter(Box area, std::vector<Box> obstacles, std::vector<Stretch> wires,
                           Length keep)
    : area_(area), obstacles_(std::move(obstacles)), wires_(std::move(wires)), keep_(keep),
      near_obstacles_(grid_of(obstacles_, area_)), near_wires_(area_) {
    for (std::size_t i = 0; i < wires_.size(); ++i) {
        near_wires_.add(i, around(wires_[i].a, wires_[i].b).grown(keep_));
    }
    const auto line_x = [this](Length x) {
        if (x >= area_.low.x && x <= area_.high.x) {
            xs_.push_back(x);
        }
    };
    const auto line_y = [this](Length y) {
        if (y >= area_.low.y && y <= area_.high.y) {
            ys_.push_back(y);
        }
    };
    for (const Box& box : obstacles_) {
        line_x(box.low.x);
        line_x(box.high.x);
        line_y(box.low.y);
        line_y(box.high.y);
    }
    for (const Stretch& wire : wires_) {
        line_y(wire.a.y - keep_);
        line_y(wire.a.y + keep_);
    }
}

bool SquareRouter::free(Point a, Point b) const {
    const Box line = around(a, b);
    return !near_obstacles_.any_near(line, [&](std::size_t i) {
        return passes(line, obstacles_[i]);
    }) && !near_wires_.any_near(line, [&](std::size_t i) { return runs_along(a, b, wires_[i]); });
}

/// Nearer to the wire than is kept, and side by side with it.
bool SquareRouter::runs_along(Point a, Point b, const Stretch& wire) const {
    const bool horizontal = a.y == b.y;
    if (wire.horizontal() != horizontal) {
        return false;
    }
    return horizontal ? Length{std::abs((wire.a.y - a.y).nm)} < keep_ &&
                            spans_meet(a.x, b.x, wire.a.x, wire.b.x)
                      : Length{std::abs((wire.a.x - a.x).nm)} < keep_ &&
                            spans_meet(a.y, b.y, wire.a.y, wire.b.y);
}

int SquareRouter::crossings(Point a, Point b) const {
    const bool horizontal = a.y == b.y;
    const auto crosses = [&](std::size_t i) {
        const Stretch& wire = wires_[i];
        if (wire.horizontal() == horizontal) {
            return false;
        }
        return horizontal ? between(a.y, wire.a.y, wire.b.y) && between(wire.a.x, a.x, b.x)
                          : between(a.x, wire.a.x, wire.b.x) && between(wire.a.y, a.y, b.y);
    };
    return static_cast<int>(std::ranges::count_if(near_wires_.near(around(a, b)), crosses));
}

std::optional<std::vector<Point>> SquareRouter::path(const std::vector<Stretch>& tree,
                                                     Point target) const {
    Grid grid{xs_, ys_};
    for (const Stretch& stretch : tree) {
        for (const Point p : {stretch.a, stretch.b}) {
            grid.xs.push_back(p.x);
            grid.ys.push_back(p.y);
        }
    }
    grid.xs.push_back(target.x);
    grid.ys.push_back(target.y);
    sort_unique(grid.xs);
    sort_unique(grid.ys);

    Search search(grid, target, [this](Point a, Point b) -> std::optional<std::int64_t> {
        return free(a, b) ? std::optional(crossings(a, b) * crossing_price) : std::nullopt;
    });
    for (const Stretch& stretch : tree) {
        search.start_along(stretch);
    }
    return search.path();
}

} // namespace ohmfolio::diagram
