// Walls seen from the front: to scale, at a standard scale, with the working space of 110.26.
#include "catch.h"

#include "fixture.h"

using namespace ohmfolio;
using namespace ohmfolio::sheets;
using example::Case;

namespace {

/// The outline that shows one piece of equipment on the first elevation.
Box outline_of(const Frame& page, const std::string& id) {
    for (const Mark& mark : page.marks) {
        const auto* path = std::get_if<Path>(&mark.item);
        if (path && mark.role == Role::enclosure && mark.shows == "equipment:" + id)
            return bounds(*path);
    }
    FAIL("not drawn: " << id);
    return {};
}

} // namespace

TEST_CASE("scales are inches to the foot or ratios") {
    // 3/4 inch to the foot is 0.75 / 12; common architectural scales, US National CAD Standard.
    CHECK(parse_scale("3/4\" = 1'-0\"")->ratio == Approx(0.0625));
    CHECK(parse_scale("1-1/2\" = 1'-0\"")->ratio == Approx(0.125));
    CHECK(parse_scale("1:20")->ratio == Approx(0.05));
    CHECK(parse_scale("1:20")->metric);
    CHECK_FALSE(parse_scale("1\" = 1'-0\"")->metric);
    CHECK(parse_scale("1/2\" = 1'-0\"")->on_paper(Feet{10}) == inches(5));
    for (const char* words : {"", "1:0", "1:", "1:2x", "half", "\" = 1'-0\"", "0\" = 1'-0\""}) {
        INFO(words);
        CHECK_FALSE(parse_scale(words));
    }
}

TEST_CASE("enclosures are drawn to the scale that the title names") {
    Bench bench((Case(Edition::nec2023)));
    const auto pages = elevation_pages(bench.job());
    REQUIRE(pages.size() == bench.job_case.system.walls.size());
    double ratio = 0;
    for (const Text* text : texts_of(pages.front())) {
        if (text->text.starts_with("SCALE "))
            ratio = parse_scale(text->text.substr(6)).value().ratio;
    }
    REQUIRE(ratio > 0);
    const Wall& wall = bench.job_case.system.walls.front();
    for (const PlacedEquipment& placed : wall.equipment) {
        const Equipment& e = bench.job_case.system.at(placed.equipment);
        const Record& record = *bench.job_case.system.record(e);
        const Box box = outline_of(pages.front(), e.id);
        INFO(e.id);
        CHECK(box.width().in_inches() == Approx(record.width.value * 12 * ratio).margin(1e-4));
        CHECK(box.height().in_inches() == Approx(record.height.value * 12 * ratio).margin(1e-4));
    }
    // Two units that stand 3 ft apart in the description do so on paper.
    CHECK((outline_of(pages.front(), "ES-2").low.x - outline_of(pages.front(), "ES-1").high.x)
              .in_inches() == Approx(36 * ratio).margin(1e-4));
}

TEST_CASE("a wall that no scale makes small enough is a finding") {
    Bench bench((Case(Edition::nec2023)));
    bench.layout.elevation_scales = {*parse_scale("1:1")};
    elevation_pages(bench.job());
    REQUIRE_FALSE(bench.findings.empty());
    CHECK(bench.findings.front().rule == "sheet.no_room");
    CHECK(bench.findings.front().severity == Severity::error);
}

TEST_CASE("a job without walls has no elevation") {
    Bench bench((Case(Edition::nec2023)));
    bench.job_case.system.walls.clear();
    CHECK(elevation_pages(bench.job()).empty());
}

TEST_CASE("a view says what its heights run from, and how high handles may be") {
    Bench bench((Case(Edition::nec2023)));
    const auto pages = elevation_pages(bench.job());
    REQUIRE(pages.size() == 2);
    const std::string outside = words_of(pages[0]), inside = words_of(pages[1]);
    CHECK(holds(outside, "GRADE"));
    CHECK_FALSE(holds(outside, "FLOOR"));
    CHECK(holds(inside, "FLOOR"));
    CHECK(holds(inside, "CEILING"));
    // 404.8(A) and 240.24(A): 6 ft 7 in
    CHECK(holds(outside, "HANDLES AT MOST 6'-7\", 404.8(A), 240.24(A)"));
    CHECK(holds(inside, "HANDLES AT MOST 6'-7\", 240.24(A)"));
}

TEST_CASE("existing equipment is drawn on a wall as the diagram draws it") {
    Bench bench((Case(Edition::nec2023)));
    const auto pages = elevation_pages(bench.job());
    for (const auto& [id, type] : {std::pair{"MSP", LineType::dash_dot},
                                   {"UM-1", LineType::dash_dot},
                                   {"MID-1", LineType::solid}}) {
        INFO(id);
        for (const Mark& mark : pages.front().marks) {
            const auto* path = std::get_if<Path>(&mark.item);
            if (path && mark.role == Role::enclosure &&
                mark.shows == std::string("equipment:") + id)
                CHECK(path->stroke.type == type);
        }
    }
}

TEST_CASE("nothing lettered on a wall is dropped, nor stands on something else") {
    // Narrow things side by side, over their whole height: no name fits any of them.
    std::string things;
    for (int i = 0; i < 6; ++i) {
        things += "\"Conduit of unit " + std::to_string(i) + "\" = { left = \"" +
                  std::to_string(36 + 5 * i) + " in\", width = \"2 in\", height = \"104 in\" }\n";
    }
    const std::string next = "[wall.\"Garage, inside\".equipment]";
    Bench bench(Case{{"BLP = { left = \"2 ft\", top", "BLP = { left = \"8 in\", top"},
                     {"Door = { left = \"7 ft\"", "Door = { left = \"8 ft\""},
                     {next, things + "\n" + next}});
    const auto pages = elevation_pages(bench.job());
    REQUIRE(pages.size() >= 2);
    const std::string words = words_of(pages[1]);
    for (int i = 0; i < 6; ++i) {
        const std::string name = "CONDUIT OF UNIT " + std::to_string(i);
        INFO(name);
        const bool told = std::ranges::any_of(bench.findings, [&](const Finding& finding) {
            return finding.message.find(name) != std::string::npos;
        });
        CHECK((holds(words, name) || told));
    }
    // The measure of tests has lower capitals than the letters of the program.
    const LintRules rules{.smallest_capitals = inches(0.09)};
    for (const Frame& page : pages) {
        const Box area = box_at({}, page.size);
        for (const Finding& fault :
             lint(Sheet{"E-201", "ELEVATION", page, area, area}, *bench.measure, rules))
            FAIL_CHECK(fault.rule << ": " << fault.message);
    }
}
