/// The PDF is judged by other people's readers: poppler's tools and qpdf.
#include <clocale>
#include <sstream>
#include <stdexcept>

#include "catch.h"
#include "sample.h"

using namespace ohmfolio;

namespace {

const std::string& sample_pdf() {
    static const std::string pdf = to_pdf(sample_packet(), house_lettering());
    return pdf;
}

} // namespace

TEST_CASE("the PDF is sound and holds what the packet says about itself") {
    const TemporaryFile file(".pdf", sample_pdf());
    const auto check = run("qpdf --check " + file.path());
    CAPTURE(check.output);
    CHECK(check.status == 0);
    const auto info = run("pdfinfo -rawdates " + file.path()).output;
    CAPTURE(info);
    CHECK(says(info, "Title:           Ashgrove residence, permit set"));
    CHECK(says(info, "Author:          Larkmoor Solar Works"));
    CHECK(says(info, "Subject:         PV and storage"));
    CHECK(says(info, "Keywords:        NEC 2023"));
    CHECK(says(info, "CreationDate:    D:20260302\n"));
    CHECK_FALSE(says(info, "ModDate"));
    CHECK(says(info, "Pages:           2"));
    CHECK(says(info, "1224 x 792 pts"));
}

TEST_CASE("only our two faces are in the PDF, embedded, and no picture") {
    const TemporaryFile file(".pdf", sample_pdf());
    const auto fonts = run("pdffonts " + file.path()).output;
    CAPTURE(fonts);
    std::istringstream lines(fonts);
    std::string line;
    int rows = 0;
    for (int i = 0; std::getline(lines, line); ++i) {
        if (i < 2)
            continue; // heading and its rule
        CAPTURE(line);
        CHECK((says(line, "+RobotoCondensed-Regular ") || says(line, "+RobotoCondensed-Bold ")));
        CHECK(says(line, " yes yes yes ")); // embedded, only the glyphs in use, with their text
        ++rows;
    }
    CHECK(rows >= 2);
    const auto images = run("pdfimages -list " + file.path()).output;
    CHECK(std::count(images.begin(), images.end(), '\n') == 2); // heading and its rule
}

TEST_CASE("every text can be found") {
    const TemporaryFile file(".pdf", sample_pdf());
    const auto text = run("pdftotext -layout -enc UTF-8 " + file.path() + " -").output;
    const Packet packet = sample_packet();
    for (const Mark& mark : packet.sheets.front().frame.marks) {
        const auto* lettering = std::get_if<Text>(&mark.item);
        if (lettering == nullptr || says(lettering->text, "  "))
            continue; // pdftotext makes its own choice of spaces
        CAPTURE(lettering->text);
        CHECK(says(text, lettering->text));
    }
    CHECK(says(text, "5 Ω ≤ 6 Ω, 40 °C, ± 2 %, VΦ"));
}

TEST_CASE("pages are labelled and listed in the outline") {
    const TemporaryFile file(".pdf", sample_pdf());
    const auto json = run("qpdf --json --json-key=outlines --json-key=pages " + file.path()).output;
    CHECK(says(json, "\"title\": \"E-601 SINGLE-LINE DIAGRAM\""));
    CHECK(says(json, "\"title\": \"E-602 SCHEDULES\""));
    CHECK(says(json, "\"destpageposfrom1\": 2"));
    // A plan checker's viewer shows the sheet number where it shows the page.
    const auto labels = run("qpdf --json --json-key=pagelabels " + file.path()).output;
    CHECK(says(labels, "\"/P\": \"u:E-\""));
    CHECK(says(labels, "\"/St\": 601"));
}

TEST_CASE("links lead to their anchors on any sheet") {
    const TemporaryFile file(".pdf", sample_pdf());
    const auto places = run("pdfinfo -dests " + file.path()).output;
    CAPTURE(places);
    // Half an inch above and left of the anchor, from the lower left corner of the page:
    // 7 in = 504 pt, 3 in down from 11 in = 576 pt.
    CHECK(says(places, "   1 [ XYZ  468  612 null      ] \"diagram:C3\""));
    CHECK(says(places, "   2 [ XYZ  108  540 null      ] \"schedule:C3\""));
    const auto text = run("pdftohtml -xml -i -stdout " + file.path()).output;
    CHECK(says(text, "#2\">(3) #10 AWG"));
    CHECK(says(text, "#1\">C3</a>"));
}

TEST_CASE("names of anchors may hold any character") {
    Packet packet = sample_packet();
    packet.sheets.front().frame.add(Anchor{{inches(1), inches(1)}, "it's a \\ name)"}, Role::none);
    packet.sheets.back().frame.add(
        Link{{{inches(1), inches(1)}, {inches(2), inches(2)}}, "it's a \\ name)"}, Role::none);
    const TemporaryFile file(".pdf", to_pdf(packet, house_lettering()));
    CHECK(run("qpdf --check " + file.path()).status == 0);
    const auto places = run("pdfinfo -dests " + file.path()).output;
    CAPTURE(places);
    CHECK(says(places, "\"it_27_s_20_a_20__5C__20_name_29_\""));
}

TEST_CASE("a missing glyph is a broken promise, never another font") {
    Packet packet = sample_packet();
    packet.sheets.front().frame.add(Text{{inches(1), inches(8)}, "A → B", {points(10)}},
                                    Role::lettering);
    CHECK_THROWS_AS(to_pdf(packet, house_lettering()), std::logic_error);
    CHECK_THROWS_AS(to_svg(packet.sheets.front(), house_lettering()), std::logic_error);
}

TEST_CASE("a packet needs sheets and a date") {
    Packet packet = sample_packet();
    packet.info.date = "2 March 2026";
    CHECK_THROWS_AS(to_pdf(packet, house_lettering()), std::logic_error);
    packet.info.date = "";
    CHECK_THROWS_AS(to_pdf(packet, house_lettering()), std::logic_error);
    CHECK_THROWS_AS(to_pdf({sample_packet().info, {}, {}}, house_lettering()), std::logic_error);
}

/// Not a test of its own: the next one runs it in other surroundings.
TEST_CASE("write the sample where the environment says", "[.write]") {
    const char* path = std::getenv("OHMFOLIO_WRITE");
    REQUIRE(path != nullptr);
    std::setlocale(LC_ALL, "");
    std::ofstream(path, std::ios::binary)
        << to_pdf(sample_packet(), house_lettering())
        << to_svg(sample_packet().sheets.front(), house_lettering());
}

TEST_CASE("place, language and repetition do not change a byte") {
    const Lettering fresh(OHMFOLIO_SOURCE "/layouts/lettering");
    CHECK(to_pdf(sample_packet(), house_lettering()) == sample_pdf());
    CHECK(to_pdf(sample_packet(), fresh) == sample_pdf());

    const std::string expected =
        sample_pdf() + to_svg(sample_packet().sheets.front(), house_lettering());
    const auto self = std::filesystem::read_symlink("/proc/self/exe").string();
    for (const char* surroundings :
         {"TZ=Pacific/Auckland LC_ALL=de_DE.UTF-8", "TZ=America/Denver LC_ALL=C",
          "LC_ALL=tr_TR.UTF-8 LANGUAGE=tr PANGO_LANGUAGE=ja HOME=/nonexistent"}) {
        CAPTURE(surroundings);
        const TemporaryFile file(".out", "");
        const auto outcome = run(std::string(surroundings) + " OHMFOLIO_WRITE='" + file.path() +
                                 "' '" + self + "' '[.write]'");
        CAPTURE(outcome.output);
        REQUIRE(outcome.status == 0);
        std::ifstream in(file.path(), std::ios::binary);
        CHECK((std::string(std::istreambuf_iterator<char>(in), {}) == expected));
    }
}

TEST_CASE("marks are painted in their order where it can be seen") {
    // A white panel over a black line, and black lettering on the panel.
    Packet packet = sample_packet();
    packet.sheets = {sample_sheet("E-101", "ORDER")};
    Frame& frame = packet.sheets.front().frame;
    const auto line_at = [&](Length y) {
        frame.add(polyline({{inches(1), y}, {inches(4), y}}, {inches(0.5)}), Role::wire);
    };
    line_at(inches(1));
    frame.add(filled_rectangle({{inches(2), inches(0.5)}, {inches(3), inches(4)}}, white),
              Role::ground);
    line_at(inches(3));
    const TemporaryFile file(".pdf", to_pdf(packet, house_lettering()));
    const auto pixel = [&](int x, int y) {
        const auto picture = run("pdftoppm -gray -r 10 -x " + std::to_string(x) + " -y " +
                                 std::to_string(y) + " -W 1 -H 1 " + file.path());
        return static_cast<unsigned char>(picture.output.back());
    };
    CHECK(pixel(15, 10) == 0);   // the first line beside the panel
    CHECK(pixel(25, 10) == 255); // under the panel
    CHECK(pixel(25, 30) == 0);   // the second line over the panel
}
