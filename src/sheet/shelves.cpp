#include "sheet/shelves.h"

#include <algorithm>
#include <numeric>

namespace ohmfolio::sheets {

namespace {

struct Shelf {
    std::vector<std::size_t> pieces;
    Length width, height; ///< without gaps
};

std::vector<std::size_t> tallest_first(const std::vector<Size>& pieces) {
    std::vector<std::size_t> order(pieces.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return pieces[a].height > pieces[b].height;
    });
    return order;
}

Length needed(const Shelf& shelf, const Size& piece, const ShelfRoom& room) {
    return shelf.width + static_cast<std::int64_t>(shelf.pieces.size()) * room.gap + piece.width;
}

/// Each piece goes on the first shelf that still has room for it.
std::vector<Shelf> shelves_of(const std::vector<Size>& pieces, const ShelfRoom& room) {
    std::vector<Shelf> shelves;
    for (const std::size_t piece : tallest_first(pieces)) {
        const auto fitting = std::find_if(shelves.begin(), shelves.end(), [&](const Shelf& shelf) {
            return needed(shelf, pieces[piece], room) <= room.page.width;
        });
        Shelf& shelf = fitting == shelves.end() ? shelves.emplace_back() : *fitting;
        shelf.pieces.push_back(piece);
        shelf.width += pieces[piece].width;
        shelf.height = std::max(shelf.height, pieces[piece].height);
    }
    return shelves;
}

/// The gap that spreads what is left of `whole` among `count` pieces, within bounds.
Length even_gap(Length whole, Length used, std::size_t count, const ShelfRoom& room) {
    if (count < 2)
        return room.gap;
    const Length even = (whole - used) / static_cast<std::int64_t>(count - 1);
    return std::clamp(even, room.gap, std::max(room.gap, room.widest_gap));
}

using Shelves = std::vector<Shelf>;

std::vector<Shelves> pages_of(const Shelves& shelves, const ShelfRoom& room) {
    std::vector<Shelves> pages;
    Length used{};
    for (const Shelf& shelf : shelves) {
        const Length gap = pages.empty() || pages.back().empty() ? Length{} : room.gap;
        if (pages.empty() || used + gap + shelf.height > room.page.height) {
            pages.emplace_back();
            used = {};
        } else {
            used += gap;
        }
        used += shelf.height;
        pages.back().push_back(shelf);
    }
    return pages;
}

Length height_of(const Shelves& shelves) {
    Length sum{};
    for (const Shelf& shelf : shelves)
        sum += shelf.height;
    return sum;
}

} // namespace

std::vector<Shelved> shelved(const std::vector<Size>& pieces, const ShelfRoom& room) {
    std::vector<Shelved> places;
    const auto pages = pages_of(shelves_of(pieces, room), room);
    for (std::size_t page = 0; page < pages.size(); ++page) {
        const Shelves& shelves = pages[page];
        const Length row_gap = even_gap(room.page.height, height_of(shelves), shelves.size(), room);
        Length y{};
        for (const Shelf& shelf : shelves) {
            const Length gap = even_gap(room.page.width, shelf.width, shelf.pieces.size(), room);
            Length x{};
            for (const std::size_t piece : shelf.pieces) {
                places.push_back({piece, static_cast<int>(page), {x, y}});
                x += pieces[piece].width + gap;
            }
            y += shelf.height + row_gap;
        }
    }
    return places;
}

} // namespace ohmfolio::sheets
