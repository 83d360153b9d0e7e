// Site plan, roof plan and branch map. Expected figures follow from the corners that the example
// states, worked out beside each check.
#include "catch.h"

#include "fixture.h"
#include "model/roof_geometry.h"
#include "sheet/margin_notes.h"
#include "sheet/open_room.h"
#include "sheet/plan_view.h"

using namespace ohmfolio;
using namespace ohmfolio::sheets;
using example::Case;

namespace {

std::size_t count_text(const Frame& frame, const std::string& text) {
    return static_cast<std::size_t>(
        std::ranges::count_if(texts_of(frame), [&](const Text* one) { return one->text == text; }));
}

bool has_text(const Frame& frame, const std::string& text) { return count_text(frame, text) > 0; }

/// Scale of a page, from the lettering under its title.
double ratio_of(const Frame& page) {
    for (const Text* text : texts_of(page)) {
        if (text->text.starts_with("SCALE "))
            return parse_scale(text->text.substr(6)).value().ratio;
    }
    FAIL("no scale");
    return 0;
}

/// The outlines that show something and play a role, in the order of drawing.
std::vector<Box> outlines_of(const Frame& page, const std::string& shows, Role role) {
    std::vector<Box> boxes;
    for (const Mark& mark : page.marks) {
        const auto* path = std::get_if<Path>(&mark.item);
        if (path && mark.shows == shows && mark.role == role)
            boxes.push_back(bounds(*path));
    }
    return boxes;
}

/// The example without what stands between two of its lines, the first one left out as well.
std::string without(std::string text, const std::string& from, const std::string& to) {
    const auto begin = text.find(from);
    const auto end = text.find(to, begin);
    REQUIRE(begin != std::string::npos);
    return text.erase(begin, end == std::string::npos ? end : end - begin);
}

Case read(const std::string& description) {
    SourceFiles sources;
    Findings findings;
    auto system =
        read_system_text(description, example::file_text("catalogue.toml"), sources, findings);
    for (const Finding& finding : findings)
        INFO(print(finding, sources, false));
    REQUIRE(system);
    return Case(std::move(*system));
}

std::string ashgrove_text() { return example::repository_text(example::ashgrove); }

} // namespace

TEST_CASE("an engineer's scale is an inch to many feet") {
    // 1 in on paper is 20 ft or 240 in; the US National CAD Standard lists these scales for sites.
    CHECK(parse_scale("1\" = 20'-0\"")->ratio == Approx(1.0 / 240));
    for (const char* words : {"1\" = 0'-0\"", "1\" = 20'", "1\" = '-0\"", "1 = 20'-0\""}) {
        INFO(words);
        CHECK_FALSE(parse_scale(words));
    }
}

TEST_CASE("a figure to the inch, where a crew measures no finer") {
    CHECK(feet_and_inches(Feet{2 + 7.6 / 12}, Nearest::inch) == "2'-8\"");
    CHECK(feet_and_inches(Feet{2 + 11.6 / 12}, Nearest::inch) == "3'-0\"");
    CHECK(feet_and_inches(Feet{2 + 7.5 / 12}) == "2'-7 1/2\"");
}

TEST_CASE("the site plan letters property lines and the distances of the building from them") {
    Bench bench((Case(Edition::nec2023)));
    const auto pages = site_plan_pages(bench.job());
    REQUIRE(pages.size() == 1);
    const Frame& page = pages.front();
    // The parcel runs from -20 to 66 ft and from -14 to 74 ft: 86 by 88 ft.
    CHECK(count_text(page, "PROPERTY LINE 86'-0\"") == 2);
    CHECK(count_text(page, "PROPERTY LINE 88'-0\"") == 2);
    // The house runs from 0 to 44 ft and from 0 to 60 ft: 20 ft left, 22 ft right, 14 ft both ways.
    for (const char* figure : {"20'-0\"", "44'-0\"", "22'-0\"", "60'-0\""}) {
        INFO(figure);
        CHECK(has_text(page, figure));
    }
    CHECK(count_text(page, "14'-0\"") == 2);
    CHECK(has_text(page, "SORREL LANE"));
    CHECK(has_text(page, "DRIVEWAY"));
}

TEST_CASE("all equipment of the packet is called out on the site plan, and marked to scale") {
    Bench bench((Case(Edition::nec2023)));
    const Frame page = site_plan_pages(bench.job()).front();
    const System& system = bench.job_case.system;
    for (const SitedEquipment& sited : system.site.plan.equipment) {
        const Equipment& e = system.at(sited.equipment);
        INFO(e.id);
        CHECK(std::ranges::any_of(
            texts_of(page), [&](const Text* text) { return text->text.starts_with(e.id + " "); }));
        CHECK(outlines_of(page, "equipment:" + e.id, Role::symbol).size() == 1);
    }
    // JB-1 lies 54 in along the south roof's eave from -1.5 ft, JB-2 near the west eave: their
    // marks are as far apart as on the parcel.
    const Box one = outlines_of(page, "equipment:JB-1", Role::symbol).front();
    const Box msp = outlines_of(page, "equipment:MSP", Role::symbol).front();
    const double apart = (one.centre().x - msp.centre().x).in_inches() / ratio_of(page) / 12;
    CHECK(apart == Approx(3.0).margin(0.01)); // -1.5 + 4.5 ft, from the wall at 0 ft
}

TEST_CASE("each piece of equipment on a wall has a leader of its own, in the order of the wall") {
    Bench bench((Case(Edition::nec2023)));
    const Frame page = site_plan_pages(bench.job()).front();
    // Common practice, no source: a reader follows a leader, he does not count squares.
    std::vector<Length> heights;
    for (const char* id : {"UM-1", "MSP", "MID-1", "SW-2", "SW-1", "CP-1", "ES-1", "ES-2"}) {
        INFO(id);
        const std::string shows = std::string("equipment:") + id;
        const Box mark = outlines_of(page, shows, Role::symbol).front();
        const auto leaders = outlines_of(page, shows, Role::leader);
        REQUIRE(leaders.size() == 1);
        CHECK(leaders.front().overlaps(mark.grown(points(1))));
        for (const SitedEquipment& other : bench.job_case.system.site.plan.equipment) {
            const std::string& name = bench.job_case.system.at(other.equipment).id;
            if (name != id)
                CHECK_FALSE(
                    mark.overlaps(outlines_of(page, "equipment:" + name, Role::symbol).front()));
        }
        for (const Text* text : texts_of(page)) {
            if (text->text.starts_with(std::string(id) + " "))
                heights.push_back(text->at.y);
        }
    }
    REQUIRE(heights.size() == 8);
    CHECK(std::ranges::is_sorted(heights));
}

TEST_CASE("no site plan without parcel and building, no roof plan without corners") {
    Bench bench(read(without(ashgrove_text(), "\n# Seen from above", "<none>")));
    CHECK(site_plan_pages(bench.job()).empty());
    CHECK(roof_plan_pages(bench.job()).empty());
    CHECK(branch_map_pages(bench.job()).empty());
}

TEST_CASE("modules lie on the roof plan as large as they are seen from above") {
    Bench bench((Case(Edition::nec2023)));
    const Frame page = roof_plan_pages(bench.job()).front();
    const double ratio = ratio_of(page);
    const auto modules = outlines_of(page, "equipment:PV-1", Role::enclosure);
    REQUIRE(modules.size() == 8);
    // 1.13 by 1.72 m in portrait on a slope of 23 degrees: cos 23 = 0.92050.
    CHECK(modules[0].width().in_inches() == Approx(1.13 / 0.0254 * ratio).margin(1e-3));
    CHECK(modules[0].height().in_inches() == Approx(1.72 / 0.0254 * 0.92050 * ratio).margin(1e-3));
    // On the roof that faces left the same module lies on its side.
    const auto west = outlines_of(page, "equipment:PV-3", Role::enclosure);
    REQUIRE(west.size() == 6);
    CHECK(west[0].width().in_inches() == Approx(1.72 / 0.0254 * 0.92050 * ratio).margin(1e-3));
    CHECK(west[0].height().in_inches() == Approx(1.13 / 0.0254 * ratio).margin(1e-3));
}

TEST_CASE("the roof plan dimensions arrays, pathways and the way to the ridge by true lengths") {
    Bench bench((Case(Edition::nec2023)));
    const Frame page = roof_plan_pages(bench.job()).front();
    // Eight modules of 1.13 m with seven gaps of 3/4 in: 30 ft 1 in.
    CHECK(has_text(page, "30'-1\""));
    // The array begins 18 in up the slope and is two modules and a gap high: 11 ft 4 in. The slope
    // is 16.5 ft / cos 23 = 17.925 ft long, which leaves 5 ft 1 in to the ridge.
    CHECK(has_text(page, "1'-6\""));
    CHECK(has_text(page, "5'-1\""));
    // As many as the table counts: a plane without modules has one, too.
    CHECK(count_text(page, "PATHWAY 3'-0\"") == 4);
    CHECK(has_text(page, "4 ≥ 2"));
    for (const char* words : {"RIDGE", "VALLEY", "SKYLIGHT", "VENT", "JB-1", "JB-2", "R1", "R2"}) {
        INFO(words);
        CHECK(has_text(page, words));
    }
    // tan 23 is 0.4245: a rise of 5.1 in 12.
    CHECK(has_text(page, "5.1:12"));
}

TEST_CASE("a plane too small for its name is named off the roof, with a dot on the plane") {
    Bench bench((Case(Edition::nec2023)));
    // At 1/16 in to the foot the west plane is 0.84 in wide, less than its name and its arrow.
    bench.layout.roof_scales = {*parse_scale("1/16\" = 1'-0\"")};
    const Frame page = roof_plan_pages(bench.job()).front();
    const double feet = ratio_of(page) * 12; // inches of paper
    const auto zero = std::ranges::find_if(
        page.marks, [](const Mark& mark) { return std::holds_alternative<View>(mark.item); });
    REQUIRE(zero != page.marks.end());
    const Point origin = std::get<View>(zero->item).zero;
    // The roof runs from -1.5 to 45.5 ft across the sheet, the west plane from -1.5 to 12 ft.
    const auto at = [&](double x) { return origin.x + inches(x * feet); };
    const auto leader = outlines_of(page, "roof:WEST ROOF", Role::leader);
    REQUIRE(leader.size() == 2); // line and dot
    const Box dot = leader.back();
    CHECK(dot.width() == dot.height());
    CHECK(dot.low.x >= at(-1.5));
    CHECK(dot.high.x <= at(12));
    for (const std::string id : {"equipment:PV-3", "equipment:PV-4"}) {
        for (const Box& module : outlines_of(page, id, Role::enclosure))
            CHECK_FALSE(module.overlaps(dot));
    }
    const auto texts = texts_of(page);
    const auto name = std::ranges::find_if(texts, [&](const Text* one) {
        return one->text == "WEST ROOF" && text_box(*one, *bench.measure).low.x < at(20);
    });
    REQUIRE(name != texts.end());
    CHECK(text_box(**name, *bench.measure).high.x < at(-1.5));
}

TEST_CASE("the table beside the roof shows what the calculation came to") {
    Bench bench((Case(Edition::nec2023)));
    const Frame page = roof_plan_pages(bench.job()).front();
    // South 47 x 16.5 ft; west and east 13.5 x (30 + 43.5) / 2 ft; north the rest of 47 x 16.5 ft
    // without the valley's 27 x 13.5 / 2 ft.
    CHECK(has_text(page, "776 FT²"));
    CHECK(count_text(page, "496 FT²") == 2);
    CHECK(has_text(page, "593 FT²"));
    // 28 modules of 1.9436 m2 = 20.921 ft2, times cos 23: 539.2 of 2361 ft2.
    CHECK(has_text(page, "539 FT²"));
    CHECK(has_text(page, "22.84 %"));
}

TEST_CASE("the branch map numbers every module once and keeps room for its label") {
    Bench bench((Case(Edition::nec2023)));
    const auto pages = branch_map_pages(bench.job());
    REQUIRE(pages.size() == 1);
    for (const auto& [id, modules] :
         std::map<std::string, int>{{"PV-1", 8}, {"PV-2", 8}, {"PV-3", 6}, {"PV-4", 6}}) {
        for (int number = 1; number <= modules; ++number)
            CHECK(count_text(pages.front(), id + "." + std::to_string(number)) == 1);
        CHECK(outlines_of(pages.front(), "equipment:" + id, Role::overlay).size() ==
              static_cast<std::size_t>(modules));
    }
    CHECK(count_text(pages.front(), "JB-1") == 4); // two arrows, two rows of the table
}

TEST_CASE("a plane with more modules than the sheet holds is mapped in parts, each module once") {
    Bench bench((Case(Edition::nec2023)));
    // At 1/2 in to the foot the south array is 15 in wide, more than the 13 in of the sheet.
    bench.layout.array_scales = {*parse_scale("1/2\" = 1'-0\"")};
    const auto pages = branch_map_pages(bench.job());
    CHECK(pages.size() > 1);
    std::map<std::string, std::size_t> seen;
    for (const Frame& page : pages) {
        for (const Text* text : texts_of(page))
            ++seen[text->text];
    }
    CHECK(seen["SOUTH ROOF, PART 1 OF 2"] == 1);
    CHECK(seen["SOUTH ROOF, PART 2 OF 2"] == 1);
    for (int number = 1; number <= 8; ++number) {
        CHECK(seen["PV-1." + std::to_string(number)] == 1);
        CHECK(seen["PV-2." + std::to_string(number)] == 1);
    }
}

TEST_CASE("a roof too large for the sheet is told, not drawn over its edge") {
    Bench bench((Case(Edition::nec2023)));
    bench.layout.roof_scales = {*parse_scale("3\" = 1'-0\"")};
    bench.layout.site_scales = bench.layout.roof_scales;
    bench.layout.array_scales = bench.layout.roof_scales;
    CHECK(site_plan_pages(bench.job()).empty());
    CHECK(roof_plan_pages(bench.job()).empty());
    CHECK(branch_map_pages(bench.job()).empty());
    REQUIRE(bench.findings.size() == 3);
    for (const Finding& finding : bench.findings)
        CHECK(finding.rule == "sheet.no_room");
}

TEST_CASE("call-outs stand clear of one another and their leaders do not cross") {
    const auto measure = fixed_measure();
    Frame drawing;
    drawing.size = {inches(4), inches(3)};
    std::vector<MarginNote> notes;
    for (int i = 0; i < 6; ++i) {
        // All in one corner, behind one another.
        notes.push_back({{inches(0.2 + 0.1 * (i % 3)), inches(0.5 + 0.05 * i)},
                         {{"NOTE " + std::to_string(i), {}}, {"SECOND LINE", {}}}});
    }
    const MarginStyle style{{points(10)}, {points(10), true}, inches(0.3), inches(0.1), inches(9)};
    const Annotated result = with_margin_notes(drawing, notes, style, *measure);
    const auto texts = texts_of(result.frame);
    REQUIRE(texts.size() == 12);
    for (std::size_t i = 0; i < texts.size(); ++i) {
        const Box box = text_box(*texts[i], *measure);
        CHECK(Box{{}, {result.frame.size.width, result.frame.size.height}}.contains(box));
        for (std::size_t j = 0; j < i; ++j)
            CHECK_FALSE(box.overlaps(text_box(*texts[j], *measure)));
    }
    std::vector<std::pair<Point, Point>> leaders;
    for (const Mark& mark : result.frame.marks) {
        const auto* path = std::get_if<Path>(&mark.item);
        if (path && path->segments.size() == 3)
            leaders.emplace_back(path->segments[1].to, path->segments[2].to);
    }
    REQUIRE(leaders.size() == 6);
    const auto side = [](const std::pair<Point, Point>& line, Point p) {
        const Point along = line.second - line.first, to = p - line.first;
        return along.x.in_inches() * to.y.in_inches() - along.y.in_inches() * to.x.in_inches();
    };
    for (std::size_t i = 0; i < leaders.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            const auto &a = leaders[i], &b = leaders[j];
            const bool cross = side(a, b.first) * side(a, b.second) < 0 &&
                               side(b, a.first) * side(b, a.second) < 0;
            INFO(i << " and " << j);
            CHECK_FALSE(cross);
        }
    }
}

TEST_CASE("the nearest free place is free, and within what is allowed") {
    OpenRoom room(points(2));
    room.take({{}, {inches(1), inches(1)}});
    room.take_line({inches(1.5), {}}, {inches(1.5), inches(3)});
    const Size size{inches(0.3), inches(0.2)};
    const auto anywhere = [](const Box&) { return true; };
    const auto box = room.nearest(size, {inches(0.9), inches(0.5)}, inches(3), anywhere);
    REQUIRE(box);
    CHECK(room.is_free(*box));
    CHECK(box->low.x >= inches(1) + points(2));
    CHECK(box->high.x <= inches(1.5) - points(2));
    CHECK_FALSE(room.nearest(size, {inches(0.5), inches(0.5)}, inches(0.1), anywhere));
    // A slanting line is in the way only where it runs.
    CHECK(crosses({{}, {}}, {inches(2), inches(2)},
                  {{inches(0.9), inches(0.9)}, {inches(1.1), inches(1.1)}}));
    CHECK_FALSE(
        crosses({{}, {}}, {inches(2), inches(2)}, {{inches(1.5), {}}, {inches(2), inches(0.4)}}));
}

TEST_CASE("hatching stays inside its area") {
    const std::vector<Point> corners = {
        {{}, {}}, {inches(2), {}}, {inches(2), inches(1)}, {{}, inches(1)}};
    const auto lines = hatching(corners, inches(0.1), {fine_pen});
    // Along a line of 45 degrees x + y runs from 0 to 3 in, in steps of 0.1 in.
    CHECK(lines.size() >= 28);
    CHECK(lines.size() <= 30);
    for (const Path& line : lines)
        CHECK(Box{{}, {inches(2), inches(1)}}.grown(Length{2}).contains(bounds(line)));
}
