#include <random>

#include "binder/binder.h"
#include "catch.h"
#include "minimal_pdf.h"

using namespace ohmfolio;
using namespace ohmfolio::test;

namespace {

using Fault = PdfContents::Fault;

PdfPageSize size_of(const std::string& entries) {
    const PdfContents contents = read_pdf(pdf_with_pages({entries}));
    CAPTURE(contents.why);
    REQUIRE(contents.fault == Fault::none);
    REQUIRE(contents.pages.size() == 1);
    return contents.pages.front();
}

} // namespace

// ISO 32000-1: 14.11.2 for the boxes, 7.7.3.3 for Rotate and UserUnit.
TEST_CASE("a page is as large as it is shown") {
    CHECK(size_of("/MediaBox [0 0 612 792]").width == 612);
    CHECK(size_of("/MediaBox [0 0 612 792]").height == 792);
    CHECK(size_of("/MediaBox [612 792 0 0]").width == 612); // corners in any order
    CHECK(size_of("/MediaBox [0 0 612 792] /Rotate 90").width == 792);
    CHECK(size_of("/MediaBox [0 0 612 792] /Rotate -90").height == 612);
    CHECK(size_of("/MediaBox [0 0 612 792] /Rotate 180").width == 612);
    CHECK(size_of("/MediaBox [0 0 612 792] /UserUnit 2").width == 1224);
    CHECK(size_of("/MediaBox [0 0 700 900] /CropBox [20 30 632 822]").width == 612);
    CHECK(size_of("/MediaBox [0 0 700 900] /TrimBox [20 30 632 822]").height == 792);
}

TEST_CASE("a page without an area is told from one that can be shown") {
    for (const char* entries :
         {"/MediaBox [0 0 0 0]", "/MediaBox [0 0 612 792] /UserUnit 1000000"}) {
        CAPTURE(entries);
        CHECK(size_of(entries).width == 0);
    }
    // One that names none at all is damage to qpdf from its version 12 on.
    const PdfContents unnamed = read_pdf(pdf_with_pages({""}));
    if (unnamed.fault == Fault::damaged)
        CHECK(unnamed.why.find("MediaBox") != std::string::npos);
    else
        CHECK(size_of("").width == 0);
}

TEST_CASE("what is no PDF, or holds none that can be used, is said so") {
    CHECK(read_pdf("").fault == Fault::not_a_pdf);
    CHECK(read_pdf("A letter in words").fault == Fault::not_a_pdf);
    CHECK(read_pdf(std::string(2000, ' ') + letter_pdf()).fault == Fault::not_a_pdf);
    CHECK(read_pdf(pdf_with_pages({})).fault == Fault::no_pages);
    const std::string whole = letter_pdf();
    for (const std::size_t kept : {whole.size() - 40, whole.size() / 2, std::size_t{12}}) {
        const PdfContents contents = read_pdf(whole.substr(0, kept));
        CAPTURE(kept, contents.why);
        CHECK(contents.fault == Fault::damaged);
        CHECK_FALSE(contents.why.empty());
    }
}

TEST_CASE("a content stream that cannot be decoded is damage") {
    const std::string flat = "<< /Filter /FlateDecode /Length 7 >>\nstream\nno zlib\nendstream";
    const std::string pdf =
        pdf_of({"<< /Type /Catalog /Pages 2 0 R >>", "<< /Type /Pages /Count 1 /Kids [4 0 R] >>",
                flat, "<< /Type /Page /Parent 2 0 R /Contents 3 0 R /MediaBox [0 0 612 792] >>"});
    CHECK(read_pdf(pdf).fault == Fault::damaged);
}

TEST_CASE("bytes changed at random are read or refused, never more") {
    std::mt19937 random(20260302); // the same on every machine
    const std::string whole = pdf_with_pages({"/MediaBox [0 0 612 792]", "/MediaBox [0 0 9 9]"});
    int refused = 0;
    for (int trial = 0; trial < 4000; ++trial) {
        std::string pdf = whole;
        const auto changes = 1 + random() % 6;
        for (std::size_t i = 0; i < changes; ++i) {
            const std::size_t at = random() % pdf.size();
            if (random() % 4 == 0) {
                pdf.erase(at, 1 + random() % 9);
            } else {
                pdf[at] = static_cast<char>(random() % 256);
            }
        }
        CAPTURE(trial);
        PdfContents contents;
        REQUIRE_NOTHROW(contents = read_pdf(pdf));
        refused += contents.fault != Fault::none ? 1 : 0;
        try {
            (void)pdf_attachments(pdf);
        } catch (const std::runtime_error&) {
            // in words for the user
        }
    }
    CHECK(refused > 100);
}
