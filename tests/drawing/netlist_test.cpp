#include "catch.h"
#include "drawing/lint.h"

using namespace ohmfolio;

namespace {

Point at(double x, double y) { return {millimetres(x), millimetres(y)}; }

Frame empty_frame() {
    Frame frame;
    frame.size = {millimetres(400), millimetres(200)};
    return frame;
}

void add_port(Frame& frame, const std::string& name, Point where) {
    frame.add(Port{where, name}, Role::none);
}

void add_wire(Frame& frame, const std::vector<Point>& points, Role role = Role::wire) {
    frame.add(polyline(points, {medium_pen}), role);
}

/// Ports a to d at the ends of a cross around (50, 50).
Frame cross() {
    Frame frame = empty_frame();
    add_port(frame, "a", at(0, 50));
    add_port(frame, "b", at(100, 50));
    add_port(frame, "c", at(50, 0));
    add_port(frame, "d", at(50, 100));
    return frame;
}

} // namespace

TEST_CASE("a wire joins the terminals at its ends") {
    Frame frame = cross();
    add_wire(frame, {at(0, 50), at(0, 80), at(100, 80), at(100, 50)});
    CHECK(read_netlist({&frame}) == Netlist{{"a", "b"}});
}

TEST_CASE("wires that cross are not joined, unless by a dot") {
    Frame frame = cross();
    add_wire(frame, {at(0, 50), at(100, 50)});
    add_wire(frame, {at(50, 0), at(50, 100)});
    CHECK(read_netlist({&frame}) == Netlist{{"a", "b"}, {"c", "d"}});
    frame.add(disc(at(50, 50), millimetres(1), black), Role::junction);
    CHECK(read_netlist({&frame}) == Netlist{{"a", "b", "c", "d"}});
}

TEST_CASE("a wire that ends on another is joined to it") {
    Frame frame = cross();
    add_wire(frame, {at(0, 50), at(100, 50)});
    add_wire(frame, {at(50, 0), at(50, 50)});
    CHECK(read_netlist({&frame}) == Netlist{{"a", "b", "c"}});
    add_wire(frame, {at(50, 50), at(50, 100)});
    CHECK(read_netlist({&frame}) == Netlist{{"a", "b", "c", "d"}});
}

TEST_CASE("a gap of more than a micrometre is a gap") {
    Frame frame = cross();
    add_wire(frame, {at(0, 50), at(49.9985, 50)});
    add_wire(frame, {at(50, 50), at(100, 50)});
    CHECK(read_netlist({&frame}).empty());
    add_wire(frame, {at(0, 50), at(49.9995, 50)});
    CHECK(read_netlist({&frame}) == Netlist{{"a", "b"}});
}

TEST_CASE("a terminal touched along a wire, or lying on another terminal, is joined") {
    Frame frame = cross();
    add_port(frame, "middle", at(30, 50));
    add_port(frame, "twin of c", at(50, 0));
    add_wire(frame, {at(0, 50), at(100, 50)});
    CHECK(read_netlist({&frame}) == Netlist{{"a", "b", "middle"}, {"c", "twin of c"}});
}

TEST_CASE("a terminal drawn on two sheets is one") {
    Frame first = cross();
    Frame second = empty_frame();
    add_wire(first, {at(0, 50), at(100, 50)});
    add_port(second, "b", at(10, 10));
    add_port(second, "e", at(20, 10));
    add_wire(second, {at(10, 10), at(20, 10)});
    CHECK(read_netlist({&first, &second}) == Netlist{{"a", "b", "e"}});
}

TEST_CASE("power and control wiring are read apart") {
    Frame frame = cross();
    add_wire(frame, {at(0, 50), at(100, 50)});
    add_wire(frame, {at(50, 0), at(50, 50)}, Role::control);
    add_wire(frame, {at(50, 0), at(50, 100)}, Role::control);
    CHECK(read_netlist({&frame}) == Netlist{{"a", "b"}});
    CHECK(read_netlist({&frame}, Role::control) == Netlist{{"c", "d"}});
}

TEST_CASE("what is drawn is compared with what was meant") {
    const Netlist meant = {{"equipment:a/x", "equipment:b/x"}, {"equipment:c/x", "equipment:d/x"}};
    CHECK(compare_netlists(meant, meant).empty());

    const auto joined = compare_netlists(
        {{"equipment:a/x", "equipment:b/x", "equipment:c/x", "equipment:d/x"}}, meant);
    REQUIRE(joined.size() == 1);
    CHECK(joined[0].rule == "lint.netlist");
    CHECK(joined[0].severity == Severity::error);
    CHECK(joined[0].subject == "equipment:a");
    CHECK(joined[0].message == "the drawn wires join the terminals equipment:a/x, equipment:c/x");

    const auto apart = compare_netlists({{"equipment:a/x", "equipment:b/x"}}, meant);
    REQUIRE(apart.size() == 1);
    CHECK(apart[0].message ==
          "the drawn wires do not join the terminals equipment:c/x, equipment:d/x");

    // A terminal the system does not know of is joined wrongly, too.
    CHECK(compare_netlists({{"equipment:a/x", "equipment:b/x", "stray"}, meant[1]}, meant).size() ==
          1);
}
