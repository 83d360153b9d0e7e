#include "catch.h"

#include "sheet/shelves.h"

using namespace ohmfolio;
using namespace ohmfolio::sheets;

namespace {

Size size(double width, double height) { return {inches(width), inches(height)}; }

Box box(const Shelved& place, const std::vector<Size>& pieces) {
    return box_at(place.at, pieces[place.piece]);
}

} // namespace

TEST_CASE("pieces keep apart and within the page") {
    const std::vector<Size> pieces = {size(5, 4), size(3, 2), size(4, 2.5), size(3, 3),
                                      size(6, 1), size(2, 2), size(4, 4),   size(5, 2)};
    const ShelfRoom room{size(13, 9), inches(0.25), inches(0.75)};
    const auto places = shelved(pieces, room);
    REQUIRE(places.size() == pieces.size());
    const Box page{{}, {inches(13), inches(9)}};
    for (std::size_t i = 0; i < places.size(); ++i) {
        CHECK(page.contains(box(places[i], pieces)));
        for (std::size_t j = i + 1; j < places.size(); ++j)
            if (places[i].page == places[j].page)
                CHECK_FALSE(box(places[i], pieces)
                                .grown(inches(0.12))
                                .overlaps(box(places[j], pieces).grown(inches(0.12))));
    }
}

TEST_CASE("gaps of a row are even") {
    const std::vector<Size> pieces = {size(3, 2), size(3, 2), size(3, 2)};
    const auto places = shelved(pieces, {size(10, 9), inches(0.25), inches(0.75)});
    CHECK(places[1].at.x - places[0].at.x == inches(3.5));
    CHECK(places[2].at.x - places[1].at.x == inches(3.5));
}

TEST_CASE("what does not fit goes on the next page") {
    const std::vector<Size> pieces = {size(9, 5), size(9, 5), size(9, 5)};
    const auto places = shelved(pieces, {size(10, 9), inches(0.25), inches(0.75)});
    CHECK(places[0].page == 0);
    CHECK(places[1].page == 1);
    CHECK(places[2].page == 2);
}
