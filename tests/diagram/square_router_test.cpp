#include "diagram/square_router.h"

#include "catch.h"

using namespace ohmfolio;
using diagram::SquareRouter;
using diagram::Stretch;

namespace {

const Box page{{}, {inches(10), inches(10)}};

Point at(double x, double y) { return {inches(x), inches(y)}; }
Stretch from(Point p) { return {p, p}; }

} // namespace

TEST_CASE("an open way is straight") {
    const SquareRouter router(page, {}, {}, inches(0.1));
    const auto path = router.path({from(at(1, 1))}, at(5, 1));
    REQUIRE(path);
    CHECK(*path == std::vector<Point>{at(1, 1), at(5, 1)});
}

TEST_CASE("an obstacle is walked around along its edge") {
    const Box wall{at(2, 0.5), at(3, 3)};
    const SquareRouter router(page, {wall}, {}, inches(0.1));
    const auto path = router.path({from(at(1, 1))}, at(5, 1));
    REQUIRE(path);
    CHECK(*path == std::vector<Point>{at(1, 1), at(1, 0.5), at(5, 0.5), at(5, 1)});
}

TEST_CASE("a closed room has no way out") {
    const std::vector<Box> walls{{at(-1, 4), at(11, 5)}};
    const SquareRouter router(page, walls, {}, inches(0.1));
    CHECK_FALSE(router.path({from(at(1, 1))}, at(1, 9)));
}

TEST_CASE("a wire may be crossed but not followed") {
    const Stretch wire{at(0, 5), at(10, 5)};
    const SquareRouter router(page, {}, {wire}, inches(0.1));
    const auto across = router.path({from(at(1, 1))}, at(1, 9));
    REQUIRE(across);
    CHECK(*across == std::vector<Point>{at(1, 1), at(1, 9)});
    CHECK_FALSE(SquareRouter(page, {}, {wire}, inches(0.1)).path({from(at(1, 5))}, at(9, 5)) ==
                std::vector<Point>{at(1, 5), at(9, 5)});
}

TEST_CASE("a path may leave a tree anywhere along it") {
    const SquareRouter router(page, {}, {}, inches(0.1));
    const auto path = router.path({{at(1, 1), at(9, 1)}}, at(4, 3));
    REQUIRE(path);
    CHECK(*path == std::vector<Point>{at(4, 1), at(4, 3)});
}
