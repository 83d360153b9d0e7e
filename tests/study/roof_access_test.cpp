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

const RoofPlane& plane(const Case& c, const std::string& name) {
    for (const RoofPlane& one : c.system.site.roofs) {
        if (one.name == name)
            return one;
    }
    throw std::logic_error("no plane " + name);
}

/// The example under other codes than its own, two at most.
Case under(const std::string& first, const std::string& second = "2021 Plumbing Code") {
    return changed(
        {{"2021 International Residential Code, Vance County Code, chapter 15.08", first},
         {"2021 International Fire Code, Vance County Code, chapter 15.12", second}});
}
std::string code_of(const Case& c) { return c.study.derivation("roof_access.code").result; }

/// A roof of 400 ft by 20 ft on the hall, with one row of modules of 3 ft by 5 ft from each of
/// `lefts` on, as many as `count`.
Case hall_with_rows(const std::vector<double>& lefts, int count) {
    System system =
        example::system_with({}, Edition::nec2023, "examples/tolliver-bend/assembly-hall.toml");
    RoofPlane& roof = system.site.roofs.front();
    roof.corners = {
        {Feet{0}, Feet{0}}, {Feet{400}, Feet{0}}, {Feet{400}, Feet{20}}, {Feet{0}, Feet{20}}};
    const SetModule first = roof.fields.front().modules.front();
    roof.fields.clear();
    for (const double left : lefts) {
        ModuleField& field = roof.fields.emplace_back();
        for (int i = 0; i < count; ++i) {
            field.modules.push_back(first);
            field.modules.back().area = {Feet{left + 3.0 * i}, Feet{7}, Feet{3}, Feet{5}};
        }
    }
    return Case(std::move(system));
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
        changed({{"left = \"42 in\", up = \"1 ft\"", "left = \"42 in\", up = \"23 in\""}});
    REQUIRE(high.finding("roof.access.ridge") != nullptr);
    CHECK(high.finding("roof.access.ridge")->severity == Severity::violation);
    CHECK(high.finding("roof.access.ridge")->message ==
          "the modules of WEST ROOF are too near to its ridge: 1.4 ft < 1.5 ft");
    CHECK(high.finding("roof.access.ridge")->span == plane(high, "WEST ROOF").span);
    // 1.5 ft further along, 2.44 ft are left to the valley, and 5 ft on the other side: no fault.
    const Case along =
        changed({{"left = \"42 in\", up = \"1 ft\"", "left = \"60 in\", up = \"1 ft\""}});
    CHECK(along.finding("roof.access.pathway") == nullptr);
}

TEST_CASE("a pathway runs where no raceway lies, though another strip is wider") {
    const Case c = changed({});
    // Six modules of 1.13 m and five gaps of 3/4 in are 22.56 ft long: 3.5 ft are left of them,
    // 3.94 ft right of them, where both raceways run along the eave.
    CHECK(c.study.derivation("roof_access.WEST_ROOF_pathway").comparison == "3.5 ft ≥ 3 ft");
    CHECK(c.finding("roof.access.obstructions") == nullptr);
    CHECK(c.study.derivation("roof_access.obstructions").result == "none");
    REQUIRE(c.study.pathways.size() == 4);
    CHECK(c.study.derivation("roof_access.pathways").comparison == "4 ≥ 2");
    const RoofPathway& west = c.study.pathways[1];
    CHECK(c.system.site.roofs[west.plane].name == "WEST ROOF");
    CHECK(west.area.along == Feet{0});
    CHECK(west.area.width == Feet{3});
}

TEST_CASE("what lies in the only strip left is told where it is written, as a warning") {
    // 2.5 ft left of the array, 4.94 ft right of it: the pathway is the outer 3 ft of these, 27 to
    // 30 ft along the eave. JB-2 at 27.5 ft stands in it, at 27 ft at its edge.
    const example::Change moved{"left = \"42 in\", up = \"1 ft\"",
                                "left = \"30 in\", up = \"1 ft\""};
    const Case beside =
        changed({moved, {"JB-2 = { left = \"27.5 ft\"", "JB-2 = { left = \"27 ft\""}});
    REQUIRE(beside.finding("roof.access.obstructions") != nullptr);
    const Finding& finding = *beside.finding("roof.access.obstructions");
    CHECK(finding.message == "R1 lies in the pathway of WEST ROOF");
    CHECK(finding.severity == Severity::warning);
    CHECK(finding.span == beside.system.site.plan.routes.front().span);
    CHECK(beside.study.derivation("roof_access.obstructions").result == "R1 on WEST ROOF");
    const Case within = changed({moved});
    CHECK(within.study.derivation("roof_access.obstructions").result ==
          "R1 on WEST ROOF, R2 on WEST ROOF, JB-2 on WEST ROOF");
    // In the attic a raceway is in nobody's way.
    const Case attic = changed({moved,
                                {"\"-1.2 ft, 48.2 ft\"], way = \"on roof\"",
                                 "\"-1.2 ft, 48.2 ft\"], way = \"in attic\""}});
    CHECK(attic.study.derivation("roof_access.obstructions").result ==
          "R2 on WEST ROOF, JB-2 on WEST ROOF");
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

TEST_CASE("the adopted code is known by its letters and by its words, the year beside them") {
    CHECK(code_of(under("IRC 2018")) == "IRC 2018");
    CHECK(code_of(under("2018 IRC")) == "IRC 2018");
    CHECK(code_of(under("International Residential Code, 2024 edition")) == "IRC 2024");
    // An ordinance has a year of its own, before the code or after it.
    CHECK(code_of(under("2021 International Residential Code, Ordinance 2018-14")) == "IRC 2021");
    CHECK(code_of(under("Ordinance 2018-14 adopting the 2021 IRC")) == "IRC 2021");
    // A dwelling goes by the residential code, whichever is named first.
    CHECK(code_of(under("2021 IFC", "2018 IRC")) == "IRC 2018");
    CHECK(code_of(under("2018 IFC")) == "IFC 2018");
    CHECK(code_of(under("2009 International Residential Code")) == "IRC 2021"); // the usual one
}

TEST_CASE("arrays with less than 4 ft between them are one") {
    // 30 modules of 3 ft are 90 ft long; two such arrays 3.9 ft apart 90 + 3.9 + 90 = 183.9 ft.
    CHECK(hall_with_rows({7, 101}, 30).finding("roof.access.array") == nullptr);
    const Case near = hall_with_rows({7, 100.9}, 30);
    REQUIRE(near.finding("roof.access.array") != nullptr);
    CHECK(near.study.derivation("roof_access.array").comparison == "183.9 ft > 150 ft");
    // The third joins two that were apart: 10 modules each, 30 + 3 + 30 + 3 + 30 = 96 ft.
    CHECK(hall_with_rows({7, 73, 40}, 10).study.derivation("roof_access.array").comparison ==
          "96 ft ≤ 150 ft");
}
