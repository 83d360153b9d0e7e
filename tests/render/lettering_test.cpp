#include <stdexcept>

#include "catch.h"
#include "sample.h"

using namespace ohmfolio;

// Roboto Condensed 2.138: 2048 units an em, capitals 1456 units, as `fc-scan` and the font's OS/2
// table tell; U+2192 and U+2300 are not in its cmap.
TEST_CASE("heights and coverage are those of the font files") {
    const TextMeasure& measure = house_lettering().measure();
    const TextStyle ten{points(10)};
    CHECK(measure.cap_height(ten).in_points() == Approx(10 * 1456.0 / 2048).epsilon(0.0001));
    CHECK(measure.ascent(ten) > measure.cap_height(ten));
    CHECK(measure.descent(ten) > points(1.5));
    CHECK(measure.missing("(3) #10 AWG, 5 Ω ≤ 6 Ω ± √ Δ × ° µ φ", ten).empty());
    CHECK(measure.missing("A → B → ⌀ \xFF", ten) == "→⌀\xEF\xBF\xBD");
    CHECK(measure.missing("two\nlines", ten) == "\n");
}

TEST_CASE("the condensed face is used, not plain Roboto") {
    // Measured apart from this program with the same font files: 111.5 mm condensed, 125.8 mm
    // plain.
    const auto width = house_lettering().measure().width(
        "(3) #10 AWG CU THWN-2 + (1) #10 AWG EGC IN 3/4\" EMT, 480 V, 23.75 A, VD 1.42 %",
        {points(9.57)});
    CHECK(static_cast<double>(width.nm) / 1e6 == Approx(111.5).margin(0.3));
}

TEST_CASE("digits line up, widths grow with the em, bold is wider") {
    const TextMeasure& measure = house_lettering().measure();
    const TextStyle ten{points(10)};
    for (const char* digit : {"0", "1", "4", "9"})
        CHECK(measure.width(digit, ten) == measure.width("8", ten));
    const double narrow = measure.width("SERVICE", ten).in_points();
    CHECK(measure.width("SERVICE", {points(20)}).in_points() == Approx(2 * narrow).epsilon(0.001));
    CHECK(measure.width("SERVICE", {points(10), true}).in_points() > narrow);
    CHECK(measure.width("", ten) == Length{});
    CHECK(measure.width("a", ten) == measure.width("a", ten));
}

TEST_CASE("a folder without the fonts is a failure, said plainly") {
    CHECK_THROWS_AS(Lettering("/nonexistent"), std::runtime_error);
    const auto folder =
        std::filesystem::temp_directory_path() / ("ohmfolio-fonts-" + std::to_string(::getpid()));
    std::filesystem::create_directory(folder);
    const std::filesystem::path shipped = OHMFOLIO_SOURCE "/layouts/lettering";
    const auto regular = shipped / "RobotoCondensed-Regular.ttf";
    // The regular face under the name of the bold one must not pass for it.
    std::filesystem::copy_file(regular, folder / "RobotoCondensed-Regular.ttf");
    std::filesystem::copy_file(regular, folder / "RobotoCondensed-Bold.ttf");
    CHECK_THROWS_AS(Lettering(folder), std::runtime_error);
    std::ofstream(folder / "RobotoCondensed-Bold.ttf", std::ios::trunc) << "no font";
    CHECK_THROWS_AS(Lettering(folder), std::runtime_error);
    std::filesystem::remove_all(folder);
}
