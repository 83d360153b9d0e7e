/// Pictures: what is let onto a sheet, and that it arrives unharmed.
#include "render/picture.h"

#include "catch.h"
#include "render/base64.h"
#include "sample.h"

using namespace ohmfolio;

namespace {

/// Red, green, blue, white, twice: 4 x 2 pixels without transparency.
std::string colors() {
    std::ifstream in(OHMFOLIO_SOURCE "/tests/data/colors-4x2.png", std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

Packet with_picture() {
    Packet packet = sample_packet();
    const auto png = std::make_shared<const std::string>(colors());
    for (Sheet& sheet : packet.sheets) {
        sheet.frame.add(Picture{{{inches(1), inches(7)}, {inches(3), inches(8)}}, png}, Role::none,
                        "company:logo");
    }
    return packet;
}

} // namespace

TEST_CASE("base64 as RFC 4648, section 10, has it") {
    CHECK(base64("") == "");
    CHECK(base64("f") == "Zg==");
    CHECK(base64("fo") == "Zm8=");
    CHECK(base64("foo") == "Zm9v");
    CHECK(base64("foob") == "Zm9vYg==");
    CHECK(base64("fooba") == "Zm9vYmE=");
    CHECK(base64("foobar") == "Zm9vYmFy");
    CHECK(base64("\xff\xfe") == "//4=");
}

TEST_CASE("a sound PNG tells its size") {
    const PictureReport report = examine_png(colors());
    CHECK(report.fault == "");
    CHECK(report.width == 4);
    CHECK(report.height == 2);
}

TEST_CASE("a picture of absurd size is refused by its head, before it is unpacked") {
    std::string bomb = colors();
    bomb.replace(16, 8, std::string("\0\0\xff\xff\0\0\xff\xff", 8)); // 65535 each way
    CHECK(examine_png(bomb).fault == "it has 65535 x 65535 pixels");
    bomb.replace(16, 8, std::string("\xff\xff\xff\xff\xff\xff\xff\xff", 8));
    CHECK(examine_png(bomb).fault == "it has 4294967295 x 4294967295 pixels");
    bomb.replace(16, 8, std::string(8, '\0'));
    CHECK(examine_png(bomb).fault == "it has 0 x 0 pixels");
    bomb.replace(16, 8, std::string("\0\0\x0f\xa0\0\0\x03\xe9", 8)); // 4000 x 1001
    CHECK(examine_png(bomb).fault == "it has 4000 x 1001 pixels");
}

TEST_CASE("a picture that breaks off, is spoilt or is something else is refused") {
    const std::string whole = colors();
    for (std::size_t length = 0; length < 60; ++length) {
        CAPTURE(length);
        CHECK_FALSE(examine_png(whole.substr(0, length)).fault.empty());
    }
    std::string spoilt = whole;
    spoilt[45] = static_cast<char>(spoilt[45] ^ 0x55);
    CHECK(examine_png(spoilt).fault == "its pixels cannot be read");
    CHECK(examine_png("GIF89a and more of it, to be longer than a head").fault ==
          "it is not a PNG");
}

TEST_CASE("an SVG holds the whole picture, in its place") {
    const std::string svg = to_svg(with_picture().sheets.front(), house_lettering());
    CHECK(says(svg, "<image data-shows=\"company:logo\" x=\"72\" y=\"504\" width=\"144\" "
                    "height=\"72\" preserveAspectRatio=\"none\" "
                    "href=\"data:image/png;base64," +
                        base64(colors()) + "\"/>"));
    const TemporaryFile file(".svg", svg);
    CHECK(run("xmllint --noout " + file.path()).status == 0);
}

TEST_CASE("a PDF holds the pixels once for all pages, none of them changed") {
    const std::string pdf = to_pdf(with_picture(), house_lettering());
    const TemporaryFile file(".pdf", pdf);
    const auto list = run("pdfimages -list " + file.path());
    CAPTURE(list.output);
    CHECK(list.status == 0);
    // Two pages show object N: type, width, height, colour space, components, bits, encoding.
    const auto first = list.output.find("image       4     2  rgb     3   8  image");
    CHECK(first != std::string::npos);
    CHECK_FALSE(says(list.output, "jpeg"));
    const auto folder = std::filesystem::path(file.path()).replace_extension("");
    REQUIRE(run("pdfimages -f 1 -l 1 " + file.path() + " " + folder.string()).status == 0);
    const std::filesystem::path extracted = folder.string() + "-000.ppm";
    std::ifstream in(extracted, std::ios::binary);
    const std::string ppm(std::istreambuf_iterator<char>(in), {});
    std::filesystem::remove(extracted);
    const std::string row("\xff\0\0\0\x80\0\0\0\xff\xff\xff\xff", 12);
    CHECK(ppm.ends_with(row + row));
    CHECK(to_pdf(with_picture(), house_lettering()) == pdf);
}
