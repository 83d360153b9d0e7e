// Roof planes: what is worked out beside each check is plane geometry, by hand.
#include "catch.h"

#include "model/roof_geometry.h"

using namespace ohmfolio;

namespace {

PlanPoint at(double x, double y) { return {Feet{x}, Feet{y}}; }

/// 40 ft along the eave, 12 ft deep in plan; its slope faces down the sheet. A slope whose cosine
/// is 0.8 (rise 9 in 12, 36.87 degrees) makes a foot of plan 1.25 ft of roof.
constexpr double three_four_five = 36.86989764584402;
RoofPlane south() {
    return {"SOUTH", three_four_five, 180, {}, {at(0, 0), at(40, 0), at(40, 12), at(0, 12)}};
}

/// A hip: 40 ft at the eave, 16 ft at the ridge.
RoofPlane hipped() {
    return {"HIP", three_four_five, 180, {}, {at(0, 0), at(40, 0), at(28, 12), at(12, 12)}};
}

std::vector<EdgeKind> kinds(const RoofPlane& plane) {
    std::vector<EdgeKind> result;
    for (const RoofEdge& edge : edges_of(plane, 0))
        result.push_back(edge.kind);
    return result;
}

void set_module(RoofPlane& plane, RoofArea area) {
    ModuleField field;
    field.modules.push_back({0, 1, area});
    plane.fields.push_back(field);
}

} // namespace

TEST_CASE("lengths up the slope are longer than in plan") {
    const RoofFrame frame = frame_of(south(), 0);
    CHECK(frame.true_length == Approx(1.25));
    // 5 ft up the slope are 4 ft in plan.
    const PlanPoint point = frame.plan({Feet{10}, Feet{5}});
    CHECK(point.x.value == Approx(10));
    CHECK(point.y.value == Approx(4));
    const RoofPoint back = frame.slope(point);
    CHECK(back.along.value == Approx(10));
    CHECK(back.up.value == Approx(5));
}

TEST_CASE("left is the left hand of who looks up the slope, whichever way it faces") {
    // Water runs to the left of the sheet: who looks up it faces right, the left hand is up.
    const RoofPlane west{"WEST", 30, 270, {}, {at(0, 0), at(10, 0), at(10, 50), at(0, 50)}};
    const RoofFrame frame = frame_of(west, 0);
    CHECK(frame.origin.x.value == Approx(0).margin(1e-9));
    CHECK(frame.origin.y.value == Approx(50));
    const PlanPoint along = frame.plan({Feet{7}, Feet{0}});
    CHECK(along.x.value == Approx(0).margin(1e-9));
    CHECK(along.y.value == Approx(43));
    // The same plane on a sheet whose north is turned: the azimuth turns with it.
    RoofPlane turned = west;
    turned.azimuth = 250;
    CHECK(frame_of(turned, 20).origin.y.value == Approx(50));
}

TEST_CASE("an edge is what it is by where it faces") {
    using enum EdgeKind;
    CHECK(kinds(south()) == std::vector{eave, rake, ridge, rake});
    CHECK(kinds(hipped()) == std::vector{eave, hip, ridge, hip});
    // The same corners the other way round.
    RoofPlane turned = south();
    std::ranges::reverse(turned.corners);
    CHECK(kinds(turned) == std::vector{ridge, rake, eave, rake});
    // A plane that widens toward the ridge runs into valleys.
    const RoofPlane wide{"WIDE", 30, 180, {}, {at(12, 0), at(28, 0), at(40, 12), at(0, 12)}};
    CHECK(kinds(wide) == std::vector{eave, valley, ridge, valley});
    CHECK(std::string(name(valley)) == "valley");
}

TEST_CASE("areas in plan do not depend on the slope") {
    CHECK(plan_area(south().corners).value == Approx(480));
    CHECK(plan_area(hipped().corners).value == Approx((40 + 16) / 2.0 * 12)); // of a trapezoid
}

TEST_CASE("the outline itself counts as inside") {
    CHECK(is_inside(hipped().corners, at(20, 6)));
    CHECK(is_inside(hipped().corners, at(12, 12)));
    CHECK(is_inside(hipped().corners, at(20, 0)));
    CHECK_FALSE(is_inside(hipped().corners, at(3, 6)));
    CHECK_FALSE(is_inside(hipped().corners, at(20, 12.1)));
}

TEST_CASE(
    "what is free from eave to ridge lies between modules, objects and the ends of the ridge") {
    RoofPlane plane = south();
    set_module(plane, {Feet{10}, Feet{2}, Feet{20}, Feet{5}});
    plane.objects.push_back({"VENT", {Feet{33}, Feet{1}, Feet{1}, Feet{1}}, {}});
    const auto strips = free_strips(plane, 0);
    REQUIRE(strips.size() == 3);
    CHECK(strips[0].width().value == Approx(10)); // 0 to 10
    CHECK(strips[1].width().value == Approx(3));  // 30 to 33
    CHECK(strips[2].width().value == Approx(6));  // 34 to 40
    // On a hip only what lies below the ridge leads to it: 12 to 28.
    const auto below_ridge = free_strips(hipped(), 0);
    REQUIRE(below_ridge.size() == 1);
    CHECK(below_ridge.front().left.value == Approx(12));
    CHECK(below_ridge.front().right.value == Approx(28));
}

TEST_CASE("a strip is free of what else lies on the plane, where that is asked for") {
    // A raceway from 10 to 20 ft along the eave, and a box without size at 30 ft.
    const auto strips = free_strips(
        south(), 0,
        {{Feet{10}, Feet{2}, Feet{10}, Feet{0}}, {Feet{30}, Feet{1}, Feet{0}, Feet{0}}});
    REQUIRE(strips.size() == 3);
    CHECK(strips[0].right.value == Approx(10));
    CHECK(strips[1].left.value == Approx(20));
    CHECK(strips[1].right.value == Approx(30));
    CHECK(strips[2].right.value == Approx(40));
}

TEST_CASE("of a line over the roof each plane has the part that lies on it") {
    // Across the plane of 40 by 12 ft in plan, from 5 ft before its left end to 5 ft beyond the
    // right.
    const auto across = parts_on(south(), at(-5, 3), at(45, 3), 0);
    REQUIRE(across.size() == 1);
    CHECK(across.front().along.value == Approx(0).margin(1e-9));
    CHECK(across.front().width.value == Approx(40));
    // Up the slope, over the ridge: 12 ft of plan are 15 ft of slope.
    const auto over = parts_on(south(), at(7, 0), at(7, 20), 0);
    REQUIRE(over.size() == 1);
    CHECK(over.front().along.value == Approx(7));
    CHECK(over.front().width.value == Approx(0).margin(1e-9));
    CHECK(over.front().top().value == Approx(15));
    CHECK(parts_on(south(), at(0, 20), at(40, 20), 0).empty());
    // Over a notch it is on the plane before and behind.
    RoofPlane notched = south();
    notched.corners = {at(0, 0),  at(40, 0), at(40, 12), at(30, 12),
                       at(30, 2), at(10, 2), at(10, 12), at(0, 12)};
    const auto pieces = parts_on(notched, at(0, 6), at(40, 6), 0);
    REQUIRE(pieces.size() == 2);
    CHECK(pieces[0].right().value == Approx(10));
    CHECK(pieces[1].along.value == Approx(30));
}

TEST_CASE("the setback from the ridge is measured on the slope, to the nearest module") {
    RoofPlane plane = south();
    CHECK_FALSE(ridge_setback(plane, 0)); // no modules
    set_module(plane, {Feet{10}, Feet{2}, Feet{20}, Feet{5}});
    set_module(plane, {Feet{10}, Feet{7}, Feet{4}, Feet{6}});
    // The slope is 15 ft long, 12 ft in plan; the upper module ends at 13 ft.
    CHECK(ridge_setback(plane, 0)->value == Approx(2));
    // Beside the ridge of the hip (12 to 28) the distance is slant: 3 ft aside, 4 ft below.
    RoofPlane slant = hipped();
    set_module(slant, {Feet{5}, Feet{1}, Feet{4}, Feet{10}});
    CHECK(ridge_setback(slant, 0)->value == Approx(5));
}

TEST_CASE("planes are adjacent when they share a stretch of an edge") {
    const RoofPlane north{"NORTH", 30, 0, {}, {at(0, 12), at(40, 12), at(40, 24), at(0, 24)}};
    const RoofPlane apart{"APART", 30, 0, {}, {at(60, 12), at(90, 12), at(90, 24), at(60, 24)}};
    const RoofPlane corner{"CORNER", 30, 0, {}, {at(40, 12), at(60, 12), at(60, 24), at(40, 24)}};
    CHECK(are_adjacent(south(), north));
    CHECK_FALSE(are_adjacent(south(), apart));
    CHECK_FALSE(are_adjacent(south(), corner)); // they meet in one point
}

TEST_CASE("the way to the edge of the roof is measured to its outside, not to a ridge within") {
    RoofPlane low = south();
    low.tilt = 0;
    RoofPlane high = low;
    for (PlanPoint& corner : high.corners)
        corner.y = corner.y + Feet{12};
    set_module(low, {Feet{10}, Feet{5}, Feet{20}, Feet{7}});
    // Up to the ridge at 12 ft: 0 ft; but that is within. To the eave 5 ft, to the rakes 10 ft.
    CHECK(distance_to_roof_edge({low, high}, 0)->value == Approx(5));
    CHECK(distance_to_roof_edge({low}, 0)->value == Approx(0).margin(1e-9));
    CHECK_FALSE(distance_to_roof_edge({south()}, 0));
}

TEST_CASE("an array reaches from its first module to its last, and covers less in plan") {
    ModuleField field;
    field.modules = {{0, 1, {Feet{3}, Feet{9}, Feet{4}, Feet{6}}},
                     {0, 2, {Feet{11}, Feet{2}, Feet{4}, Feet{6}}}};
    const RoofArea extent = extent_of(field);
    CHECK(extent.along.value == Approx(3));
    CHECK(extent.up.value == Approx(2));
    CHECK(extent.width.value == Approx(12));
    CHECK(extent.height.value == Approx(13));
    RoofPlane plane = south();
    plane.fields = {field};
    CHECK(array_area(plane, 0).value == Approx(2 * 4 * 6 * 0.8)); // of a slope 3 : 4 : 5
}
