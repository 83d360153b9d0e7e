#include "catch.h"

#include <cmath>
#include <numbers>

#include "symbol/outline.h"

using namespace ohmfolio;

namespace {

double in_mm(Length length) { return static_cast<double>(length.nm) / 1e6; }

/// The point of a cubic curve at `t` from 0 to 1.
Place along(Point from, const Segment& curve, double t) {
    const double a = std::pow(1 - t, 3);
    const double b = 3 * t * std::pow(1 - t, 2);
    const double c = 3 * t * t * (1 - t);
    const double d = t * t * t;
    return {a * in_mm(from.x) + b * in_mm(curve.control1.x) + c * in_mm(curve.control2.x) +
                d * in_mm(curve.to.x),
            a * in_mm(from.y) + b * in_mm(curve.control1.y) + c * in_mm(curve.control2.y) +
                d * in_mm(curve.to.y)};
}

std::vector<Segment> segments_of(std::string_view data) {
    const auto read = path_segments(data);
    REQUIRE(std::holds_alternative<std::vector<Segment>>(read));
    return std::get<std::vector<Segment>>(read);
}

PathFault fault_of(std::string_view data) {
    const auto read = path_segments(data);
    REQUIRE(std::holds_alternative<PathFault>(read));
    return std::get<PathFault>(read);
}

/// Greatest distance of the curves from the circle, sampled along each.
double farthest_from_circle(Point start, const std::vector<Segment>& segments, Place centre,
                            double radius) {
    double farthest = 0.0;
    Point from = start;
    for (const Segment& segment : segments) {
        if (segment.kind == Segment::Kind::curve)
            for (int i = 0; i <= 16; ++i) {
                const Place p = along(from, segment, i / 16.0);
                const double off = std::hypot(p.x - centre.x, p.y - centre.y) - radius;
                farthest = std::max(farthest, std::abs(off));
            }
        from = segment.to;
    }
    return farthest;
}

} // namespace

TEST_CASE("an arc stays on its circle and goes the way its flags say") {
    // A half circle of 5 mm from (0, 0) to (10, 0). By SVG 1.1, 8.3.8, sweep 1 runs clockwise on
    // paper, which from left to right is over the top (y < 0).
    const bool clockwise = GENERATE(true, false);
    const auto curves = arc_segments({{0, 0}, 5, 5, 0, false, clockwise, {10, 0}});
    REQUIRE(curves.size() == 2);
    CHECK(farthest_from_circle({}, curves, {5, 0}, 5) < 0.01);
    CHECK(curves[0].to.x == millimetres(5));
    CHECK(std::abs(in_mm(curves[0].to.y) - (clockwise ? -5.0 : 5.0)) < 1e-5);
    CHECK(curves[1].to == Point{millimetres(10), {}});
}

TEST_CASE("small and large arcs choose the two circles through the same points") {
    // Chord 6, radius 5: the centre is 4 mm off the chord, by the 3-4-5 triangle.
    const bool large = GENERATE(true, false);
    const bool clockwise = GENERATE(true, false);
    const auto curves = arc_segments({{0, 0}, 5, 5, 0, large, clockwise, {6, 0}});
    const double centre_y = large == clockwise ? -4.0 : 4.0;
    CHECK(farthest_from_circle({}, curves, {3, centre_y}, 5) < 0.01);
    CHECK(curves.size() == (large ? 4U : 1U));
}

TEST_CASE("a turned ellipse is as its equation says") {
    // Half axes 4 and 2, the long one turned by 30 degrees, between the ends of the long axis.
    const double angle = std::numbers::pi / 6;
    const Place from{-4 * std::cos(angle), -4 * std::sin(angle)};
    const auto curves = arc_segments({from, 4, 2, 30, false, true, {-from.x, -from.y}});
    Point last = paper_point(from);
    for (const Segment& curve : curves) {
        for (int i = 0; i <= 16; ++i) {
            const Place p = along(last, curve, i / 16.0);
            const double u = p.x * std::cos(angle) + p.y * std::sin(angle);
            const double v = -p.x * std::sin(angle) + p.y * std::cos(angle);
            CHECK(std::abs(u * u / 16 + v * v / 4 - 1.0) < 0.002);
        }
        last = curve.to;
    }
}

TEST_CASE("arcs at the limits follow SVG") {
    // SVG 1.1, F.6.2: equal ends draw nothing, no radius is a line, a short radius grows.
    CHECK(arc_segments({{1, 1}, 5, 5, 0, false, true, {1, 1}}).empty());
    const auto straight = arc_segments({{0, 0}, 0, 5, 0, false, true, {4, 0}});
    REQUIRE(straight.size() == 1);
    CHECK(straight[0].kind == Segment::Kind::line);
    const auto grown = arc_segments({{0, 0}, 1, 1, 0, false, true, {10, 0}});
    CHECK(farthest_from_circle({}, grown, {5, 0}, 5) < 0.01);
}

TEST_CASE("a circle is closed, in four quarters, round") {
    const auto segments = circle_segments({7.5, 7}, 6.5);
    REQUIRE(segments.size() == 6);
    CHECK(segments.front().kind == Segment::Kind::move);
    CHECK(segments.back().kind == Segment::Kind::close);
    CHECK(segments[4].to == segments[0].to);
    CHECK(farthest_from_circle(segments[0].to, segments, {7.5, 7}, 6.5) < 0.01);
}

TEST_CASE("path commands are understood in both forms") {
    const auto absolute = segments_of("M1,2 L3,2 H5 V6 C5 7 4 8 3 8 A2 2 0 0 1 1 6 Z");
    const auto relative = segments_of("m1 2l2 0h2v4c0,1-1,2-2,2a2,2 0 01-2-2z");
    REQUIRE(absolute.size() == relative.size());
    for (std::size_t i = 0; i < absolute.size(); ++i) {
        CHECK(absolute[i].kind == relative[i].kind);
        CHECK(absolute[i].to == relative[i].to);
        CHECK(absolute[i].control1 == relative[i].control1);
        CHECK(absolute[i].control2 == relative[i].control2);
    }
    // SVG 1.1, 8.3.2: pairs after the first of a move are lines; after Z the path begins anew at
    // the start of the one just closed.
    const auto implied = segments_of("m1 1 2 0 0 2z l.5.5");
    REQUIRE(implied.size() == 5);
    CHECK(implied[1].kind == Segment::Kind::line);
    CHECK(implied[2].to == Point{millimetres(3), millimetres(3)});
    CHECK(implied[4].to == Point{millimetres(1.5), millimetres(1.5)});
}

TEST_CASE("faulty path data is told with the place in it") {
    CHECK(fault_of("L3,2").message == "path data begins with M");
    CHECK(fault_of("M1,2 Q3,2 4,4").message == "path command \"Q\" is not known");
    CHECK(fault_of("M1,2 Q3,2 4,4").offset == 6);
    CHECK(fault_of("M1,2 L3").message == "a number is missing or not a length below 1000 mm");
    CHECK(fault_of("M1,2 L3").offset == 7);
    CHECK(fault_of("M1,2 L3,1e7").offset == 7);
    CHECK(fault_of("M1,2 A1 1 0 2 0 3 3").message ==
          "an arc needs rx ry angle, two flags 0 or 1, and its end");
    CHECK(fault_of("M1,2 ; L3,3").message == "a path command is missing");
    CHECK(fault_of("").message == "the path draws nothing");
    CHECK(fault_of("M1,2").message == "the path draws nothing");
}

TEST_CASE("points come in pairs") {
    CHECK(point_list("0,0 1,2 3 4")->size() == 3);
    CHECK_FALSE(point_list("0,0 1"));
    CHECK_FALSE(point_list("0,0 a,b"));
}
