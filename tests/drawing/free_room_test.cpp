#include "drawing/free_room.h"

#include "catch.h"

using namespace ohmfolio;

namespace {

Frame page_with(std::vector<Box> boxes) {
    Frame frame;
    frame.size = {inches(10), inches(6)};
    for (const Box& box : boxes) {
        frame.add(rectangle(box, {medium_pen}), Role::enclosure);
    }
    return frame;
}

const Size block{inches(3), inches(2)};
const Length clear = inches(0.1);

} // namespace

TEST_CASE("a block goes to the upper right corner of an empty page") {
    const auto place = free_room(page_with({}), block, clear, *fixed_measure());
    REQUIRE(place);
    CHECK(*place == Point{inches(7), {}});
}

TEST_CASE("a block stays clear of what stands in its corner") {
    const Box corner{{inches(8), {}}, {inches(10), inches(1)}};
    const auto place = free_room(page_with({corner}), block, clear, *fixed_measure());
    REQUIRE(place);
    // Below the box it moves 1.1 in, left of it 2.1 in: below is nearer.
    CHECK(*place == Point{inches(7), inches(1.1)});
}

TEST_CASE("there is no room on a full page") {
    const Box middle{{inches(2), inches(1)}, {inches(8), inches(5)}};
    CHECK_FALSE(free_room(page_with({middle}), block, clear, *fixed_measure()));
}

TEST_CASE("the inside of a bent wire is free") {
    Frame frame = page_with({});
    const Length far = inches(9.5);
    frame.add(polyline({{inches(1), inches(5.5)}, {far, inches(5.5)}, {far, {}}}, {medium_pen}),
              Role::wire);
    const auto place = free_room(frame, block, clear, *fixed_measure());
    REQUIRE(place);
    CHECK(*place == Point{inches(6.4), {}});
}
