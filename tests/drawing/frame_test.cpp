#include "drawing/frame.h"

#include <cmath>

#include "catch.h"

using namespace ohmfolio;

namespace {

// Millimetres, unlike points, are whole nanometres: sums are exact.
Point at(double x, double y) { return {millimetres(x), millimetres(y)}; }
const Stroke pen{millimetres(1)};

} // namespace

TEST_CASE("bounds take in the handles of curves") {
    Path path;
    path.segments = {{Segment::Kind::move, at(0, 0), {}, {}},
                     {Segment::Kind::curve, at(10, 0), at(-2, -5), at(12, 7)},
                     {Segment::Kind::close, {}, {}, {}}};
    CHECK(bounds(path) == Box{at(-2, -5), at(12, 7)});
    // The unused handles of straight segments, at the origin, do not count.
    CHECK(bounds(polyline({at(5, 6), at(7, 9)}, pen)) == Box{at(5, 6), at(7, 9)});
    CHECK(bounds(Path{}) == Box{});
}

TEST_CASE("a circle is as large as its radius says") {
    CHECK(bounds(circle(at(10, 20), millimetres(5), pen)) == Box{at(5, 15), at(15, 25)});
    // The middle of a quarter, by de Casteljau's halving, lies on the circle within 0.03 %.
    const Path quarter = circle({}, points(100), pen);
    const Segment& curve = quarter.segments[1];
    const auto middle = [&](Length Point::*axis) {
        const double a = (quarter.segments[0].to.*axis).in_points();
        const double b = (curve.control1.*axis).in_points();
        const double c = (curve.control2.*axis).in_points();
        return (a + 3 * b + 3 * c + (curve.to.*axis).in_points()) / 8;
    };
    CHECK(std::hypot(middle(&Point::x), middle(&Point::y)) == Approx(100).epsilon(0.0003));
}

TEST_CASE("makers stroke or fill, not both") {
    CHECK(rectangle({at(0, 0), at(1, 1)}, pen).stroked);
    CHECK_FALSE(rectangle({at(0, 0), at(1, 1)}, pen).filled);
    CHECK(filled_rectangle({at(0, 0), at(1, 1)}, white).fill == white);
    CHECK_FALSE(filled_rectangle({at(0, 0), at(1, 1)}, white).stroked);
    CHECK(disc(at(0, 0), millimetres(1), black).filled);
    CHECK_FALSE(disc(at(0, 0), millimetres(1), black).stroked);
    CHECK(polyline({}, pen).segments.empty());
}

TEST_CASE("every kind of item moves") {
    Frame inner;
    inner.add(rectangle({at(0, 0), at(2, 1)}, pen), Role::symbol, "a");
    inner.add(Text{at(1, 1), "x", {millimetres(10)}}, Role::lettering);
    inner.add(Link{{at(0, 0), at(1, 1)}, "there"}, Role::none);
    inner.add(Anchor{at(3, 3), "here"}, Role::none);
    inner.add(Port{at(4, 4), "p"}, Role::none);
    Frame outer;
    outer.add(inner, at(10, 20));
    REQUIRE(outer.marks.size() == 5);
    CHECK(bounds(std::get<Path>(outer.marks[0].item)) == Box{at(10, 20), at(12, 21)});
    CHECK(outer.marks[0].role == Role::symbol);
    CHECK(outer.marks[0].shows == "a");
    CHECK(std::get<Text>(outer.marks[1].item).at == at(11, 21));
    CHECK(std::get<Link>(outer.marks[2].item).area == Box{at(10, 20), at(11, 21)});
    CHECK(std::get<Anchor>(outer.marks[3].item).at == at(13, 23));
    CHECK(std::get<Port>(outer.marks[4].item).at == at(14, 24));
}

TEST_CASE("boxes that only touch do not overlap") {
    const Box box{at(0, 0), at(2, 2)};
    CHECK_FALSE(box.overlaps({at(2, 0), at(4, 2)}));
    CHECK(box.overlaps({at(1, 1), at(4, 2)}));
    CHECK(box.grown(millimetres(1)) == Box{at(-1, -1), at(3, 3)});
    CHECK(united(box, {at(5, -1), at(6, 1)}) == Box{at(0, -1), at(6, 2)});
}
