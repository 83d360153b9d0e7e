#include "catch.h"

#include "sheet/column_grid.h"

using namespace ohmfolio;
using namespace ohmfolio::sheets;

namespace {

Size size(double width, double height) { return {inches(width), inches(height)}; }

Box box(const GridPlace& place, const std::vector<Size>& pieces) {
    return box_at(place.at, pieces[place.piece]);
}

} // namespace

TEST_CASE("pieces keep apart, within the page and on the columns") {
    const std::vector<Size> pieces = {size(7, 3), size(3, 2), size(4, 2.5), size(3, 3),
                                      size(4, 1), size(2, 2), size(4, 4),   size(3, 2)};
    const GridRoom room{size(12.5, 9), 3, inches(0.25)};
    const auto places = on_grid(pieces, room);
    REQUIRE(places.size() == pieces.size());
    const Box page{{}, {inches(12.5), inches(9)}};
    for (std::size_t i = 0; i < places.size(); ++i) {
        CHECK(page.contains(box(places[i], pieces)));
        // Columns of 4 in with gaps of 1/4 in.
        const bool on_column = places[i].at.x == Length{} || places[i].at.x == inches(4.25) ||
                               places[i].at.x == inches(8.5);
        CHECK(on_column);
        for (std::size_t j = i + 1; j < places.size(); ++j)
            if (places[i].page == places[j].page)
                CHECK_FALSE(box(places[i], pieces)
                                .grown(inches(0.12))
                                .overlaps(box(places[j], pieces).grown(inches(0.12))));
    }
}

TEST_CASE("gaps of a column are even") {
    const std::vector<Size> pieces = {size(3, 2), size(3, 2), size(3, 2)};
    const auto places = on_grid(pieces, {size(4, 9), 1, inches(0.25)});
    CHECK(places[1].at.y - places[0].at.y == inches(2.25));
    CHECK(places[2].at.y - places[1].at.y == inches(2.25));
}

TEST_CASE("what does not fit goes on the next page") {
    const std::vector<Size> pieces = {size(9, 5), size(9, 5), size(9, 12)};
    const auto places = on_grid(pieces, {size(10, 9), 1, inches(0.25)});
    REQUIRE(places.size() == 3);
    for (int page = 0; page < 3; ++page)
        CHECK(places[static_cast<std::size_t>(page)].page == page);
}

TEST_CASE("a piece spans the columns that it needs") {
    const GridRoom room{size(12.5, 9), 3, inches(0.25)};
    CHECK(room.span(inches(4)) == 1);
    CHECK(room.span(inches(4.1)) == 2);
    CHECK(room.span(inches(8.25)) == 2);
    CHECK(room.span(inches(20)) == 3);
}
