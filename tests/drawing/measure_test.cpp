#include "drawing/measure.h"

#include "catch.h"

using namespace ohmfolio;

namespace {

const TextStyle ten{millimetres(10)};
// Millimetres, unlike points, are whole nanometres: sums are exact.
Point at(double x, double y) { return {millimetres(x), millimetres(y)}; }

} // namespace

TEST_CASE("the fixed measure counts characters, not bytes") {
    const auto measure = fixed_measure();
    CHECK(measure->width("5 Ω", ten) == millimetres(15));
    CHECK(measure->cap_height(ten) == millimetres(7));
    CHECK(measure->missing("anything → at all", ten).empty());
}

TEST_CASE("the box of a text follows its alignment") {
    const auto measure = fixed_measure();
    const auto box = [&](Align align, bool turned) {
        return text_box({at(100, 200), "ABCD", ten, align, black, turned}, *measure);
    };
    CHECK(box(Align::left, false) == Box{at(100, 193), at(120, 202)});
    CHECK(box(Align::centre, false) == Box{at(90, 193), at(110, 202)});
    CHECK(box(Align::right, false) == Box{at(80, 193), at(100, 202)});
    // Reading upward, the text runs toward smaller y and its capitals stand left of the baseline.
    CHECK(box(Align::left, true) == Box{at(93, 180), at(102, 200)});
    CHECK(box(Align::centre, true) == Box{at(93, 190), at(102, 210)});
    CHECK(box(Align::right, true) == Box{at(93, 200), at(102, 220)});
}

TEST_CASE("text wraps at spaces and newlines only") {
    const auto measure = fixed_measure();
    const auto lines = [&](std::string_view text, double characters) {
        return wrapped(text, ten, millimetres(5 * characters), *measure);
    };
    using Lines = std::vector<std::string>;
    CHECK(lines("one two three", 7) == Lines{"one two", "three"});
    CHECK(lines("one two three", 100) == Lines{"one two three"});
    CHECK(lines("one two three", 1) == Lines{"one", "two", "three"});
    CHECK(lines("unbreakable", 3) == Lines{"unbreakable"});
    CHECK(lines("one\ntwo", 100) == Lines{"one", "two"});
    CHECK(lines("one\n\ntwo", 100) == Lines{"one", "", "two"});
    CHECK(lines("one  two ", 100) == Lines{"one two"});
    CHECK(lines("", 10) == Lines{""});
}

// Common practice, no source: a value is written on one line with its unit.
TEST_CASE("a number and its unit stand on one line where there is room for both") {
    const auto measure = fixed_measure();
    const auto lines = [&](std::string_view text, double characters) {
        return wrapped(text, ten, millimetres(5 * characters), *measure);
    };
    using Lines = std::vector<std::string>;
    CHECK(lines("MSB: 120 % OF IT", 8) == Lines{"MSB:", "120 % OF", "IT"});
    CHECK(lines("BY NEC 2023", 8) == Lines{"BY", "NEC 2023"});
    CHECK(lines("UP TO 1250 ft OFF", 6) == Lines{"UP TO", "1250", "ft OFF"});
}

// ASME Y14.2: the space between lines of lettering is 0.5 to 1.0 of the letter height.
TEST_CASE("lines stand apart as ASME Y14.2 asks") {
    const auto measure = fixed_measure();
    for (const double size : {8.0, 10.0, 14.0}) {
        const TextStyle style{millimetres(size)};
        const double letters = measure->cap_height(style).in_points();
        const double gap = line_pitch(style).in_points() - letters;
        CHECK(gap >= 0.5 * letters);
        CHECK(gap <= 1.0 * letters);
    }
}
