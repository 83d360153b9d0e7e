#include "catch.h"
#include "sample.h"

using namespace ohmfolio;

namespace {

std::string sample_svg() { return to_svg(sample_packet().sheets.front(), house_lettering()); }

} // namespace

TEST_CASE("the SVG is well formed and as large as the sheet") {
    const TemporaryFile file(".svg", sample_svg());
    const auto check = run("xmllint --noout " + file.path());
    CAPTURE(check.output);
    CHECK(check.status == 0);
    CHECK(says(sample_svg(), "width=\"17in\" height=\"11in\" viewBox=\"0 0 1224 792\""));
    CHECK(says(sample_svg(), "<title>E-601 SINGLE-LINE DIAGRAM</title>"));
    CHECK(says(sample_svg(), "<rect width=\"1224\" height=\"792\" fill=\"#ffffff\"/>"));
}

TEST_CASE("texts stay texts, kept to their width, and marks say what they show") {
    const std::string svg = sample_svg();
    const auto width = house_lettering().measure().width("RIGHT 23.75 A", {points(10)});
    CHECK(says(svg, "font-family=\"'Roboto Condensed', sans-serif\""));
    CHECK(says(svg, "data-shows=\"circuit:C3\" x=\"504\" y=\"216\" font-size=\"10\""));
    CHECK(says(svg, ">(3) #10 AWG CU THWN-2 IN 3/4&quot; EMT</text>"));
    CHECK(says(svg, ">SINGLE-LINE DIAGRAM &amp; &lt;NOTES&gt;</text>"));
    CHECK(says(svg, "VΦ  two spaces</text>"));
    CHECK(says(svg, "text-anchor=\"end\" fill=\"#000000\" xml:space=\"preserve\" textLength=\""));
    CHECK(width > points(50));
    CHECK(says(svg, "transform=\"rotate(-90 482.4 432)\""));
}

TEST_CASE("links work within the sheet") {
    const std::string svg = sample_svg();
    CHECK(says(svg, "id=\"diagram:C3\""));
    CHECK(says(svg, "<a href=\"#diagram:C3\"><rect x=\"72\" y=\"648\""));
    CHECK_FALSE(says(svg, "schedule:C3"));
    CHECK_FALSE(says(svg, "no such place"));
}

TEST_CASE("an id needs no quoting, and different names stay different") {
    Sheet sheet = sample_sheet("E-601", "A");
    sheet.frame.add(Anchor{{inches(1), inches(1)}, "a b\"<"}, Role::none, "x\"<\x01&");
    sheet.frame.add(Anchor{{inches(1), inches(1)}, "a_b"}, Role::none);
    sheet.frame.add(Link{{{inches(1), inches(1)}, {inches(2), inches(2)}}, "a b\"<"}, Role::none);
    const std::string svg = to_svg(sheet, house_lettering());
    CHECK(says(svg, "id=\"a_20_b_22__3C_\""));
    CHECK(says(svg, "href=\"#a_20_b_22__3C_\""));
    CHECK(says(svg, "id=\"a_5F_b\""));
    const TemporaryFile file(".svg", svg);
    CHECK(run("xmllint --noout " + file.path()).status == 0);
}

TEST_CASE("numbers have two decimals at most, rounded") {
    Sheet sheet = sample_sheet("E-601", "A");
    const auto at = [](double x, double y) { return Point{points(x), points(y)}; };
    sheet.frame.add(polyline({at(1.005, 2), at(-0.004, 2.3), at(-3.126, 99.999)}, {points(0.5)}),
                    Role::wire);
    CHECK(says(to_svg(sheet, house_lettering()), "d=\"M1.01 2L0 2.3L-3.13 100\""));
}

TEST_CASE("line types and curves") {
    const std::string svg = sample_svg();
    CHECK(says(svg, "stroke-dasharray=\"11.91 2.98\" stroke-linecap=\"butt\"")); // 0.35 mm pen
    CHECK(says(svg, "stroke-dasharray=\"0 2.98\""));
    CHECK(says(svg, "data-shows=\"equipment:meter\" stroke=\"#000000\" stroke-width=\"0.99\" "
                    "d=\"M936 108C936 127.88 919.88 144 900 144C"));
    CHECK(says(svg,
               "data-shows=\"placard:7\" fill=\"#c81e1e\" d=\"M684 72L828 72L828 144L684 144Z\""));
}
