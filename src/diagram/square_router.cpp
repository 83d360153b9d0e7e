#include "diagram/square_router.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdlib>
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

/// True when the open segment a-b passes through the interior of the box.
bool passes(Point a, Point b, const Box& box) {
    const Box line{{std::min(a.x, b.x), std::min(a.y, b.y)},
                   {std::max(a.x, b.x), std::max(a.y, b.y)}};
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
    std::size_t state(int i, int j, int direction) const {
        return (static_cast<std::size_t>(j) * xs.size() + static_cast<std::size_t>(i)) *
                   directions +
               static_cast<std::size_t>(direction);
    }
};

std::vector<Point> without_collinear(std::vector<Point> points) {
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

} // namespace

SquareRouter::SquareRouter(Box area, std::vector<Box> obstacles, std::vector<Stretch> wires,
                           Length keep)
    : area_(area), obstacles_(std::move(obstacles)), wires_(std::move(wires)), keep_(keep) {
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
    const auto blocked = [&](const Box& box) { return passes(a, b, box); };
    if (std::any_of(obstacles_.begin(), obstacles_.end(), blocked)) {
        return false;
    }
    const bool horizontal = a.y == b.y;
    return std::none_of(wires_.begin(), wires_.end(), [&](const Stretch& wire) {
        if (wire.horizontal() != horizontal) {
            return false;
        }
        return horizontal ? Length{std::abs((wire.a.y - a.y).nm)} < keep_ &&
                                spans_meet(a.x, b.x, wire.a.x, wire.b.x)
                          : Length{std::abs((wire.a.x - a.x).nm)} < keep_ &&
                                spans_meet(a.y, b.y, wire.a.y, wire.b.y);
    });
}

int SquareRouter::crossings(Point a, Point b) const {
    const bool horizontal = a.y == b.y;
    return static_cast<int>(std::count_if(wires_.begin(), wires_.end(), [&](const Stretch& wire) {
        if (wire.horizontal() == horizontal) {
            return false;
        }
        return horizontal ? between(a.y, wire.a.y, wire.b.y) && between(wire.a.x, a.x, b.x)
                          : between(a.x, wire.a.x, wire.b.x) && between(wire.a.y, a.y, b.y);
    }));
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

    const std::size_t states = grid.xs.size() * grid.ys.size() * directions;
    std::vector<std::int64_t> cost(states, unreached);
    std::vector<std::size_t> came(states, states);
    // Cost first, then state: equal costs are taken in a fixed order.
    using Entry = std::tuple<std::int64_t, std::size_t, int, int, int>;
    std::priority_queue<Entry, std::vector<Entry>, std::greater<>> open;
    for (const Stretch& stretch : tree) {
        const auto [low_x, high_x] = std::minmax(stretch.a.x, stretch.b.x);
        const auto [low_y, high_y] = std::minmax(stretch.a.y, stretch.b.y);
        for (int j = grid.y_of(low_y); j <= grid.y_of(high_y); ++j) {
            for (int i = grid.x_of(low_x); i <= grid.x_of(high_x); ++i) {
                for (int d = 0; d < directions; ++d) {
                    cost[grid.state(i, j, d)] = 0;
                    open.emplace(0, grid.state(i, j, d), i, j, d);
                }
            }
        }
    }
    constexpr std::array<int, directions> step_x{1, 0, -1, 0}, step_y{0, 1, 0, -1};
    const int goal_i = grid.x_of(target.x), goal_j = grid.y_of(target.y);
    while (!open.empty()) {
        const auto [so_far, state, i, j, d] = open.top();
        open.pop();
        if (so_far != cost[state]) {
            continue;
        }
        if (i == goal_i && j == goal_j) {
            std::vector<Point> points;
            for (std::size_t s = state; s != states; s = came[s]) {
                const auto cell = s / directions;
                points.push_back(grid.at(static_cast<int>(cell % grid.xs.size()),
                                         static_cast<int>(cell / grid.xs.size())));
            }
            std::reverse(points.begin(), points.end());
            return without_collinear(std::move(points));
        }
        for (int turn = 0; turn < directions; ++turn) {
            const auto t = static_cast<std::size_t>(turn);
            const int ni = i + step_x[t], nj = j + step_y[t];
            const bool back = (turn + 2) % directions == d;
            if (ni < 0 || nj < 0 || ni >= grid.width() || nj >= grid.height() ||
                (back && so_far > 0)) {
                continue;
            }
            const Point a = grid.at(i, j), b = grid.at(ni, nj);
            const std::size_t next = grid.state(ni, nj, turn);
            const std::int64_t length = std::abs((b.x - a.x).nm) + std::abs((b.y - a.y).nm);
            const std::int64_t least = so_far + length + (turn == d ? 0 : bend_price);
            if (least >= cost[next] || !free(a, b)) {
                continue;
            }
            const std::int64_t price = least + crossings(a, b) * crossing_price;
            if (price < cost[next]) {
                cost[next] = price;
                came[next] = state;
                open.emplace(price, next, ni, nj, turn);
            }
        }
    }
    return std::nullopt;
}

} // namespace ohmfolio::diagram
