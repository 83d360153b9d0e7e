// Gap, overshoot and the figure clear of all lines: ASME Y14.5; feet and inches as the US National
// CAD Standard writes them.
#include "drawing/dimension.h"

#include <algorithm>

#include "catch.h"
#include "drawing/lint.h"

using namespace ohmfolio;

namespace {

const DimensionStyle style{.lettering = {points(10.2)}};

std::vector<Box> lines_of(const Frame& frame) {
    std::vector<Box> boxes;
    for (const Mark& mark : frame.marks) {
        if (const auto* path = std::get_if<Path>(&mark.item))
            boxes.push_back(bounds(*path));
    }
    return boxes;
}

const Text& figure(const Frame& frame, const std::string& words) {
    const auto found = std::ranges::find_if(frame.marks, [&](const Mark& mark) {
        const auto* text = std::get_if<Text>(&mark.item);
        return text != nullptr && text->text == words;
    });
    REQUIRE(found != frame.marks.end());
    return std::get<Text>(found->item);
}

Findings faults(const Frame& frame) {
    Sheet sheet;
    sheet.frame = frame;
    sheet.frame.size = {inches(10), inches(10)};
    sheet.border = sheet.drawing_area = {{}, {inches(10), inches(10)}};
    return lint(sheet, *fixed_measure(), {.smallest_em = {}, .smallest_capitals = {}});
}

/// Three stretches below an object whose foot is at 3 in.
DimensionString chain(Length middle_stretch) {
    return {.line = inches(3.5),
            .stops = {{inches(1), inches(3)},
                      {inches(3), inches(3)},
                      {inches(3) + middle_stretch, inches(3)},
                      {inches(6), inches(3)}},
            .figures = {"2'-0\"", "6\"", "2'-6\""}};
}

} // namespace

TEST_CASE("an extension line starts with a gap and runs past the dimension line") {
    Frame frame;
    draw_dimensions(frame, chain(inches(1)), style, *fixed_measure());
    const auto lines = lines_of(frame);
    const Box extension{{inches(1), inches(3) + style.gap},
                        {inches(1), inches(3.5) + style.overshoot}};
    CHECK(std::ranges::count(lines, extension) == 1);
}

TEST_CASE("a figure stands above its line, centred on its stretch") {
    Frame frame;
    const auto measure = fixed_measure();
    draw_dimensions(frame, chain(inches(1)), style, *measure);
    const Box box = text_box(figure(frame, "2'-0\""), *measure);
    CHECK(box.high.y <= inches(3.5) + measure->descent(style.lettering) - style.lettering_gap);
    CHECK(box.centre().x.in_inches() == Approx(2.0).margin(0.001));
    CHECK(faults(frame).empty());
}

TEST_CASE("a figure too wide for its stretch stands beyond the line, clear of everything") {
    Frame frame;
    const auto measure = fixed_measure();
    const Length reach = draw_dimensions(frame, chain(inches(0.1)), style, *measure);
    const Text& narrow = figure(frame, "6\"");
    CHECK(narrow.at.y > inches(3.5) + style.overshoot);
    CHECK(reach >= text_box(narrow, *measure).high.y);
    CHECK(faults(frame).empty());
}

TEST_CASE("figures of neighbors that are all too narrow move apart") {
    DimensionString string{.line = inches(5), .stops = {}, .figures = {}};
    for (int i = 0; i <= 6; ++i) {
        string.stops.push_back({inches(4) + i * inches(0.2), inches(4)});
        if (i > 0)
            string.figures.emplace_back("10'-6 1/2\"");
    }
    Frame frame;
    draw_dimensions(frame, string, style, *fixed_measure());
    CHECK(faults(frame).empty());
}

TEST_CASE("heights read from the right edge of the sheet") {
    DimensionString string{.vertical = true,
                           .line = inches(1),
                           .stops = {{inches(2), inches(2)}, {inches(4), inches(2)}},
                           .figures = {"6'-7\""}};
    Frame frame;
    const auto measure = fixed_measure();
    draw_dimensions(frame, string, style, *measure);
    const Text& height = figure(frame, "6'-7\"");
    CHECK(height.turned);
    CHECK(text_box(height, *measure).high.x < inches(1) + style.tick_size);
    CHECK(text_box(height, *measure).centre().y.in_inches() == Approx(3.0).margin(0.001));
    CHECK(faults(frame).empty());
}

TEST_CASE("feet and inches, and millimetres") {
    CHECK(feet_and_inches(Feet{3}) == "3'-0\"");
    CHECK(feet_and_inches(Feet{6.0 + 7.0 / 12}) == "6'-7\"");
    CHECK(feet_and_inches(Feet{6.5}) == "6'-6\"");
    CHECK(feet_and_inches(Feet{0.5}) == "6\"");
    CHECK(feet_and_inches(Feet{2.0 + 6.5 / 12}) == "2'-6 1/2\"");
    CHECK(feet_and_inches(Feet{0.5 / 12}) == "1/2\"");
    CHECK(feet_and_inches(Feet{1.0 + 0.25 / 12}) == "1'-0 1/4\"");
    // 11.97 in is 12 in to the nearest sixteenth.
    CHECK(feet_and_inches(Feet{11.98 / 12}) == "1'-0\"");
    // 1 ft is 304.8 mm by definition.
    CHECK(whole_millimetres(Feet{2.5}) == "762");
}
