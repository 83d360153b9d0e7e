#include "drawing/box_grid.h"

namespace ohmfolio {

namespace {

/// About as large as a symbol, so that few marks share a square.
constexpr Length side = inches(0.5);

int count(Length extent) { return static_cast<int>(std::max<std::int64_t>(extent / side + 1, 1)); }

} // namespace

BoxGrid::BoxGrid(const Box& area)
    : area_(area), columns_(count(area.width())), rows_(count(area.height())),
      squares_(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_)) {}

BoxGrid::Squares BoxGrid::squares(const Box& box) const {
    const auto place = [](Length from, Length origin, int squares) {
        return static_cast<int>(std::clamp<std::int64_t>((from - origin) / side, 0, squares - 1));
    };
    return {place(box.low.x, area_.low.x, columns_), place(box.low.y, area_.low.y, rows_),
            place(box.high.x, area_.low.x, columns_), place(box.high.y, area_.low.y, rows_)};
}

std::size_t BoxGrid::index(int column, int row) const {
    return static_cast<std::size_t>(row) * static_cast<std::size_t>(columns_) +
           static_cast<std::size_t>(column);
}

void BoxGrid::add(std::size_t id, const Box& box) {
    const Squares within = squares(box);
    for (int row = within.top; row <= within.bottom; ++row) {
        for (int column = within.left; column <= within.right; ++column)
            squares_[index(column, row)].push_back(id);
    }
}

std::vector<std::size_t> BoxGrid::near(const Box& box) const {
    std::vector<std::size_t> found;
    const Squares within = squares(box);
    for (int row = within.top; row <= within.bottom; ++row) {
        for (int column = within.left; column <= within.right; ++column) {
            const auto& square = squares_[index(column, row)];
            found.insert(found.end(), square.begin(), square.end());
        }
    }
    std::ranges::sort(found);
    found.erase(std::unique(found.begin(), found.end()), found.end());
    return found;
}

BoxGrid grid_of(const std::vector<Box>& boxes, const Box& area) {
    BoxGrid grid(area);
    for (std::size_t i = 0; i < boxes.size(); ++i)
        grid.add(i, boxes[i]);
    return grid;
}

} // namespace ohmfolio
