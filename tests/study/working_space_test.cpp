// Working space on walls, 110.26(A): what stands out from the wall, the ceiling, equipment above
// and below, and how far storage keeps from doors. The limits (30 in wide, 6 ft 6 in high, 6 in of
// projection, 3 ft from openings) are those of tests/code; here it is the wall that gives what is
// free.
#include "catch.h"
#include "example.h"

using namespace ohmfolio;
using example::Case;

namespace {

const std::string equipment_of_wall = "[wall.\"West wall outside\".equipment]";

/// The west wall with an object: UM-1 hangs 18 to 29 in from its left end, MSP 37 to 52 in.
Case with_object(const std::string& object) {
    return Case({{equipment_of_wall,
                  "[wall.\"West wall outside\".object]\n" + object + "\n\n" + equipment_of_wall}});
}

const Derivation& line(const Case& c, const std::string& id) { return c.study.derivation(id); }

} // namespace

TEST_CASE("what stands out under a panel is in its working space") {
    const Case flush =
        with_object("Box = { left = \"40 in\", width = \"8 in\", height = \"12 in\" }");
    CHECK(flush.finding("space.clear") == nullptr);
    const Case out = with_object(
        "Box = { left = \"40 in\", width = \"8 in\", height = \"12 in\", depth = \"10 in\" }");
    REQUIRE(out.finding("space.clear", "equipment:MSP") != nullptr);
    CHECK(out.finding("space.clear")->severity == Severity::violation);
    CHECK(out.finding("space.clear")->message.find("BOX stands in the working space") !=
          std::string::npos);
    // Above the space (6 ft 6 in) it is clear.
    const Case above =
        with_object("Box = { left = \"40 in\", bottom = \"79 in\", width = \"8 in\", "
                    "height = \"12 in\", depth = \"10 in\" }");
    CHECK(above.finding("space.clear") == nullptr);
    CHECK(line(above, "MSP.clear_BOX").verdict == Verdict::pass);
}

TEST_CASE("what stands out beside a panel takes from the width that is free") {
    // Between the left end of the wall and 45 in: UM-1 has 45 in, which is enough.
    const Case wide = with_object(
        "Meter = { left = \"53 in\", width = \"2 in\", height = \"40 in\", depth = \"9 in\" }");
    CHECK(wide.finding("space.width", "equipment:UM-1") == nullptr);
    // From 0 to 29.9 in: an inch tenth less than 30 in.
    const Case narrow = with_object(
        "Meter = { left = \"29.9 in\", width = \"2 in\", height = \"40 in\", depth = \"9 in\" }");
    REQUIRE(narrow.finding("space.width", "equipment:UM-1") != nullptr);
    const Case enough = with_object(
        "Meter = { left = \"30 in\", width = \"2 in\", height = \"40 in\", depth = \"9 in\" }");
    CHECK(enough.finding("space.width", "equipment:UM-1") == nullptr);
}

TEST_CASE("a ceiling lower than 6 ft 6 in is told") {
    const auto ceiling = [](const char* height) {
        return Case({{"ceiling = \"8 ft\"", "ceiling = \"" + std::string(height) + "\""}});
    };
    CHECK(ceiling("78 in").finding("space.height") == nullptr);
    REQUIRE(ceiling("77 in").finding("space.height", "equipment:BLP") != nullptr);
}

TEST_CASE("equipment above or below stands out no more than 6 in further") {
    // SW-1 is 5 in deep; over it hangs a unit whose record says otherwise.
    const auto under = [](const char* depth) {
        return Case({{"ES-1 = { left = \"147 in\", bottom = \"18 in\" }",
                      "ES-1 = { left = \"80 in\", bottom = \"2 in\" }"},
                     {"ES-2 = { right_of = \"ES-1\", gap = \"3 ft\", bottom = \"18 in\" }",
                      "ES-2 = { left = \"200 in\", bottom = \"18 in\" }"},
                     {"depth = \"13 in\"", "depth = \"" + std::string(depth) + "\""}});
    };
    CHECK(under("11 in").finding("space.other") == nullptr);
    REQUIRE(under("11.1 in").finding("space.other", "equipment:SW-1") != nullptr);
}

TEST_CASE("storage on an outer wall keeps 3 ft from a door that enters the dwelling") {
    // ES-2 ends 147 + 42 + 36 + 42 = 267 in along a wall of 276 in; ES-1 begins at 147 in.
    const auto door = [](const char* left, bool enters) {
        return with_object("Door = { left = \"" + std::string(left) +
                           "\", width = \"10 in\", height = \"20 in\"" +
                           (enters ? ", opens_dwelling = true }" : " }"));
    };
    CHECK(door("101 in", true).finding("storage.siting.opening") == nullptr); // ends 36 in before
    REQUIRE(door("102 in", true).finding("storage.siting.opening") != nullptr);
    CHECK(door("102 in", false).finding("storage.siting.opening") == nullptr);
}
