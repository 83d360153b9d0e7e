// Access to the roof in a study: which code it goes by, what fails where the array is moved, and
// what a building that is no dwelling is asked instead. The limits are held in tests/code.
#include "catch.h"
#include "example.h"

using namespace ohmfolio;
using example::Case;

namespace {

/// The example with its plans, changed.
Case changed(const std::vector<example::Change>& changes) {
    std::string description = example::repository_text(example::ashgrove);
    std::string catalogue = example::file_text("catalogue.toml");
    for (const example::Change& change : changes)
        example::apply(change, description, catalogue);
    SourceFiles sources;
    Findings findings;
    auto system = read_system_text(description, catalogue, sources, findings);
    for (const Finding& finding : findings)
        UNSCOPED_INFO(print(finding, sources, false));
    REQUIRE(system);
    return Case(std::move(*system));
}

} // namespace

TEST_CASE("the example keeps all access that the adopted residential code asks for") {
    const Case c = changed({});
    CHECK(c.finding("roof.access.ridge") == nullptr);
    CHECK(c.study.derivation("roof_access.code").result == "IRC 2021");
    // 1.5 ft, since modules cover 539 of 2361 ft2.
    CHECK(c.study.derivation("roof_access.ridge_setback").value == Approx(1.5));
    // The west slope is 13.5 ft / cos 23 = 14.666 ft; the array ends 12.346 ft up it.
    CHECK(c.study.derivation("roof_access.WEST_ROOF_ridge").comparison == "2.32 ft ≥ 1.5 ft");
    CHECK(c.study.derivation("roof_access.street").comparison == "NORTH ROOF");
}

TEST_CASE("an array moved up the slope or along it comes too near") {
    // 11 in higher, 1.40 ft are left to the ridge.
    const Case high =
        changed({{"left = \"2 ft\", up = \"1 ft\"", "left = \"2 ft\", up = \"23 in\""}});
    REQUIRE(high.finding("roof.access.ridge") != nullptr);
    CHECK(high.finding("roof.access.ridge")->severity == Severity::violation);
    // 2.5 ft further along, 2.94 ft are left to the valley, and 4.5 ft on the other side: no fault.
    const Case along =
        changed({{"left = \"2 ft\", up = \"1 ft\"", "left = \"54 in\", up = \"1 ft\""}});
    CHECK(along.finding("roof.access.pathway") == nullptr);
}

TEST_CASE("no plane is reached from the street unless the description says so") {
    const Case c = changed({{"from_street = true\n", ""}});
    REQUIRE(c.finding("roof.access.street") != nullptr);
    CHECK(c.finding("roof.access.street")->hint.find("from_street = true") != std::string::npos);
}

TEST_CASE("where no code is named, the faults of a usual one are warnings") {
    const Case c =
        changed({{"from_street = true\n", ""},
                 {"\"2021 International Residential Code, Vance County Code, chapter 15.08\",",
                  "\"2021 Plumbing Code\","},
                 {"\"2021 International Fire Code, Vance County Code, chapter 15.12\",", ""}});
    REQUIRE(c.finding("roof.access.street") != nullptr);
    CHECK(c.finding("roof.access.street")->severity == Severity::warning);
}

TEST_CASE("a building that is no dwelling keeps a way along the edges of its roof") {
    const Case hall("examples/tolliver-bend/assembly-hall.toml");
    CHECK(hall.study.derivation("roof_access.code").result == "IFC 2021");
    // 7 ft up a slope of 3 degrees: 6.99 ft in plan; 4 ft will do on a roof of 60 by 40 ft.
    CHECK(hall.study.derivation("roof_access.perimeter").comparison == "6.99 ft ≥ 4 ft");
    // Ten modules of 1.13 m and nine gaps of 3/4 in.
    CHECK(hall.study.derivation("roof_access.array").comparison == "37.64 ft ≤ 150 ft");
}
