// NEC 690.12(C): the initiation device starts rapid shutdown. That a switch between the utility and
// an inverter which goes on by itself starts nothing: forums.mikeholt.com post 1840410 (an
// initiator of its own is needed where storage backs up).
#include "catch.h"

#include "example.h"

using namespace ohmfolio;
using namespace ohmfolio::example;

namespace {

const std::string rule = "shutdown.initiator.effect";
const std::string larch_bend = "examples/tolliver-bend/larch-bend.toml";
const std::string highmeadow = "examples/tolliver-bend/highmeadow.toml";

const std::string marked = R"(use = ["utility", "rapid shutdown"], shutdown_contact = true)";
const Change without_contact{marked, R"(use = ["utility", "rapid shutdown"])"};
const Change not_marked{marked, R"(use = ["utility"])"};
const Change storage_marked{R"(use = ["storage"], feeds = "INV-1")",
                            R"(use = ["storage", "rapid shutdown"], feeds = "INV-1")"};

} // namespace

TEST_CASE(
    "a switch ahead of an inverter that carries on islanded ends no rapid shutdown by itself") {
    const Case house(larch_bend, {without_contact});
    const Finding* finding = house.finding(rule);
    REQUIRE(finding != nullptr);
    CHECK(finding->severity == Severity::warning);
    CHECK(finding->subject == "equipment:ST-1");
    CHECK(Case(larch_bend).finding(rule) == nullptr);
}

TEST_CASE("inverters that form a grid by the sun alone are told to shut down") {
    // By 690.12 the conductors must come down; what forms a grid does not stop with the grid.
    const std::string skylark_hill = "examples/tolliver-bend/skylark-hill.toml";
    CHECK(Case(skylark_hill).finding(rule) == nullptr);
    CHECK(Case(skylark_hill, {without_contact}).finding(rule, "equipment:PV-1") != nullptr);
}

TEST_CASE("a switch that no array stands behind starts nothing") {
    CHECK(Case(larch_bend, {not_marked, storage_marked}).finding(rule) != nullptr);
}

TEST_CASE("a switch between the array and the device that parts off the island is enough") {
    // SW-1 stands on the photovoltaic side of MID-1.
    CHECK(Case(highmeadow).finding(rule) == nullptr);
}
