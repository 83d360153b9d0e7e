#include "sheet/column_grid.h"

#include <algorithm>
#include <numeric>
#include <tuple>

namespace ohmfolio::sheets {

namespace {

/// How far each column of a page is filled.
using Page = std::vector<Length>;

/// What spans columns first, since it needs them level; then tall ones, so that the columns end
/// nearly alike.
std::vector<std::size_t> packing_order(const std::vector<Size>& pieces, const GridRoom& room) {
    std::vector<std::size_t> order(pieces.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) {
        return std::tuple(room.span(pieces[b].width), pieces[b].height) <
               std::tuple(room.span(pieces[a].width), pieces[a].height);
    });
    return order;
}

struct Spot {
    std::size_t column = 0;
    Length top;
};

/// The highest place on `page` for a piece that spans so many columns.
Spot highest(const Page& page, std::size_t span) {
    Spot best;
    for (std::size_t column = 0; column + span <= page.size(); ++column) {
        const auto first = page.begin() + static_cast<std::ptrdiff_t>(column);
        const Length top = *std::max_element(first, first + static_cast<std::ptrdiff_t>(span));
        if (column == 0 || top < best.top)
            best = {column, top};
    }
    return best;
}

} // namespace

int GridRoom::span(Length width) const {
    int count = 1;
    while (count < columns && column_width() * count + gap * (count - 1) < width)
        ++count;
    return count;
}

std::vector<GridPlace> on_grid(const std::vector<Size>& pieces, const GridRoom& room) {
    std::vector<GridPlace> places;
    std::vector<Page> pages;
    const Length pitch = room.column_width() + room.gap;
    for (const std::size_t piece : packing_order(pieces, room)) {
        const auto span = static_cast<std::size_t>(room.span(pieces[piece].width));
        std::size_t page = 0;
        Spot spot;
        for (;; ++page) {
            if (page == pages.size())
                pages.emplace_back(static_cast<std::size_t>(room.columns), Length{});
            spot = highest(pages[page], span);
            if (spot.top == Length{} || spot.top + pieces[piece].height <= room.page.height)
                break;
        }
        const Length left = pitch * static_cast<std::int64_t>(spot.column);
        places.push_back({piece, static_cast<int>(page), {left, spot.top}});
        for (std::size_t column = spot.column; column < spot.column + span; ++column)
            pages[page][column] = spot.top + pieces[piece].height + room.gap;
    }
    std::ranges::sort(places, {}, [](const GridPlace& place) {
        return std::tuple(place.page, place.at.x, place.at.y);
    });
    return places;
}

} // namespace ohmfolio::sheets
