#include "binder/binder.h"
#include "catch.h"
#include "minimal_pdf.h"

using namespace ohmfolio;
using namespace ohmfolio::test;

namespace {

/// Two sheets as the program writes them: with its name as the creator.
std::string two_sheets() {
    return pdf_with_pages({"/MediaBox [0 0 1224 792]", "/MediaBox [0 0 1224 792]"},
                          "/Info << /Creator (ohmfolio) >>");
}

PdfBinding with_files(std::vector<PdfAttachment> files) {
    return {"2026-03-02", {}, std::move(files)};
}

PdfAttachment file(const std::string& name, const std::string& bytes, bool source = true) {
    return {name, "What it is", "application/toml", source, bytes};
}

} // namespace

TEST_CASE("attached files come out as they went in, in their order") {
    const std::string binary("\0\r\n\xFF stream endstream", 22);
    const std::vector<PdfAttachment> files{
        file("job.toml", "code = \"NEC 2023\"\n"), file("catalogues/a b.toml", ""),
        file("parts/Größe Ω.pdf", binary), file("report.json", "{}", false)};
    const std::string bound = bind_pdf(two_sheets(), with_files(files));
    const auto found = pdf_attachments(bound);
    REQUIRE(found);
    REQUIRE(found->size() == files.size());
    for (std::size_t i = 0; i < files.size(); ++i) {
        CAPTURE(files[i].name);
        CHECK((*found)[i].name == files[i].name);
        CHECK((*found)[i].bytes == files[i].bytes);
        CHECK((*found)[i].source == files[i].source);
        CHECK((*found)[i].type == "application/toml");
        CHECK((*found)[i].description == "What it is");
    }
}

TEST_CASE("a PDF that is none of ours, or carries nothing, has no files for us") {
    CHECK_FALSE(pdf_attachments(letter_pdf()));
    CHECK_FALSE(pdf_attachments(bind_pdf(two_sheets(), {"2026-03-02", {}, {}})));
    CHECK_FALSE(pdf_attachments(bind_pdf(letter_pdf(), with_files({file("a.toml", "x")}))));
}

TEST_CASE("what cannot be opened says why in words") {
    CHECK_THROWS_WITH(pdf_attachments("no PDF at all"), "it is not a PDF");
    const std::string bound = bind_pdf(two_sheets(), with_files({file("a.toml", "x")}));
    CHECK_THROWS_WITH(pdf_attachments(bound.substr(0, bound.size() / 2)),
                      Catch::Matchers::StartsWith("it is damaged"));
}

TEST_CASE("binding twice gives the same bytes") {
    const std::string letter = letter_pdf();
    const PdfBinding binding{
        "2026-03-02", {{1, &letter, 1, 100, 100, 900, 700, false}}, {file("a.toml", "x")}};
    CHECK(bind_pdf(two_sheets(), binding) == bind_pdf(two_sheets(), binding));
}

TEST_CASE("a page that is not there is a broken promise") {
    const std::string letter = letter_pdf();
    const PdfBinding binding{"2026-03-02", {{0, &letter, 2, 0, 0, 600, 700, false}}, {}};
    CHECK_THROWS_AS(bind_pdf(two_sheets(), binding), std::runtime_error);
}
