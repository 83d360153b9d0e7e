/// Other people's PDFs as sheets of the set: where they stand, what leads there, and what is said
/// of those that cannot be taken. Fixtures are made by qpdf.
#include <sstream>

#include "../binder/minimal_pdf.h"
#include "catch.h"
#include "packet.h"

using namespace ohmfolio::test;

namespace {

namespace fs = std::filesystem;

bool says(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

const fs::path datasheets = fs::path(OHMFOLIO_SOURCE) / "examples/tolliver-bend/datasheets";

/// A copy of the house whose storage has another cut sheet.
struct House {
    TemporaryFolder folder;
    fs::path system = copied(ashgrove(), folder.path());
    fs::path cut_sheet = folder.path() / "datasheets/wb-10.pdf";

    Outcome check() const { return run_ohmfolio({"check", system.string()}); }
    Outcome draw() const {
        return run_ohmfolio({"draw", system.string(), "--out", (folder.path() / "out").string()});
    }
};

/// The line of the catalogue that names the cut sheet.
std::string place_in_catalogue(const House& house) {
    const std::string text = read_file(house.folder.path() / "catalogue.toml");
    const auto at = text.find("\"datasheets/wb-10.pdf\"");
    const auto lines = std::count(text.begin(), text.begin() + static_cast<long>(at), '\n');
    return "catalogue.toml:" + std::to_string(lines + 1) + ":13: error: ";
}

void check_refused(const House& house, const std::string& words) {
    CAPTURE(words);
    const Outcome checked = house.check();
    CAPTURE(checked.out);
    CHECK(checked.exit_code == 2);
    CHECK(says(checked.out, place_in_catalogue(house)));
    CHECK(says(checked.out, words));
    const Outcome drawn = house.draw();
    CHECK(drawn.exit_code == 2);
    CHECK(says(drawn.err, "Nothing was drawn."));
    CHECK_FALSE(fs::exists(house.folder.path() / "out"));
}

void qpdf(const Command& arguments) {
    Command command{"qpdf"};
    command.insert(command.end(), arguments.begin(), arguments.end());
    const Outcome outcome = run_program(command);
    CAPTURE(outcome.err);
    REQUIRE(outcome.exit_code == 0);
}

/// Words of one page with the left and right ends of each, in points from the left.
std::vector<double> ends_of_words(const fs::path& pdf, std::size_t page) {
    const std::string number = std::to_string(page + 1);
    const std::string xml =
        run_program({"pdftotext", "-bbox", "-f", number, "-l", number, pdf.string(), "-"}).out;
    std::vector<double> ends;
    for (const std::string& end : all_matches(xml, "xM(?:in|ax)=\"([0-9.]+)\"")) {
        ends.push_back(std::stod(end));
    }
    return ends;
}

} // namespace

TEST_CASE("every page of a cut sheet is a numbered sheet, in the index and in the outline") {
    const DrawnPacket& packet = example_packet();
    const auto numbers = packet.sheet_numbers();
    // One page each for module and microinverter, two for storage, and the letter.
    CHECK(std::vector<std::string>(numbers.end() - 5, numbers.end()) ==
          std::vector<std::string>{"E-701", "E-702", "E-703", "E-704", "E-705"});
    const std::string general = text_of_sheets(packet, packet.sheets_titled("GENERAL"));
    CHECK(says(general, "E-703 WB-10 CUT SHEET, 1 OF 2"));
    CHECK(says(general, "E-705 STRUCTURAL LETTER, ROOF"));
    const std::string outline =
        run_program({"qpdf", "--json", "--json-key=outlines", packet.pdf().string()}).out;
    CHECK(says(outline, "\"title\": \"E-704 WB-10 CUT SHEET, 2 OF 2\""));
}

TEST_CASE("the words of the foreign page stand in ours, beside our title block") {
    const DrawnPacket& packet = example_packet();
    const std::string text = text_of_sheets(packet, {"E-704"});
    CHECK(says(text, "HANG THE UNIT ON ITS BRACKET"));
    CHECK(says(text, "PAGE 2 OF DATASHEETS/WB-10.PDF"));
    CHECK(says(text, "LARKMOOR SOLAR WORKS"));
    CHECK(says(text_of_sheets(packet, {"E-705"}), "IT APPROVES NOTHING"));
    // 17 in wide: nothing of either page lies outside the sheet.
    for (const double end : ends_of_words(packet.pdf(), packet.position("E-704"))) {
        CHECK(end > 0);
        CHECK(end < 17 * 72);
    }
}

TEST_CASE("the equipment schedule leads to the cut sheets") {
    const DrawnPacket& packet = example_packet();
    const std::string links =
        run_program({"pdftohtml", "-xml", "-i", "-stdout", packet.pdf().string()}).out;
    const std::string page = std::to_string(packet.position("E-703") + 1);
    CHECK(says(links, "#" + page + "\">E-703</a>"));
}

TEST_CASE("the SVG of an appended sheet says which page stands in the PDF") {
    const std::string svg = read_file(example_packet().svg("E-704"));
    CHECK(says(svg, ">PAGE 2 OF datasheets/wb-10.pdf</text>"));
    CHECK(says(svg, "data-shows=\"document:datasheets/wb-10.pdf\""));
    CHECK_FALSE(says(svg, "bracket"));
}

TEST_CASE("a job that names pages gets these, for the equipment that it names") {
    const DrawnPacket packet(ashgrove());
    const TemporaryFolder folder;
    const fs::path system = copied(ashgrove(), folder.path(),
                                   {{"cut_sheet = \"datasheets/wb-10.pdf\"\n", ""},
                                    {"[[appendix]]", "[[appendix]]\ntitle = \"Mounting\"\n"
                                                     "kind = \"manual\"\n"
                                                     "file = \"datasheets/wb-10.pdf\"\n"
                                                     "pages = \"2\"\nfor = [\"ES-1\"]\n\n"
                                                     "[[appendix]]"}});
    const DrawnPacket drawn(system);
    const auto appended = [](const DrawnPacket& of) {
        return std::ranges::count_if(of.sheet_numbers(), [](const std::string& number) {
            return number.starts_with("E-7");
        });
    };
    CHECK(appended(drawn) + 1 == appended(packet));
    const std::string text = text_of_sheets(drawn, {"E-703"});
    CHECK(says(text, "MANUAL FOR ES-1: PAGE 2 OF DATASHEETS/WB-10.PDF"));
    CHECK(says(text, "HANG THE UNIT"));
    const std::string links =
        run_program({"pdftohtml", "-xml", "-i", "-stdout", drawn.pdf().string()}).out;
    CHECK(says(links, ">E-703</a>"));
}

TEST_CASE("a cut sheet that is not there, or is no file, is an error at its place") {
    const House house;
    fs::remove(house.cut_sheet);
    check_refused(house, "cannot read \"datasheets/wb-10.pdf\": No such file or directory");
    fs::create_directory(house.cut_sheet);
    check_refused(house, "it is a folder");
}

TEST_CASE("a cut sheet that is no sound PDF is an error at its place") {
    const House house;
    const std::string whole = read_file(datasheets / "wb-10.pdf");
    write_file(house.cut_sheet, "");
    check_refused(house, "\"datasheets/wb-10.pdf\" is not a PDF");
    write_file(house.cut_sheet, "<html>not found</html>");
    check_refused(house, "\"datasheets/wb-10.pdf\" is not a PDF");
    for (const std::size_t kept : {whole.size() - 30, whole.size() / 2, std::size_t{20}}) {
        write_file(house.cut_sheet, whole.substr(0, kept));
        check_refused(house, "\"datasheets/wb-10.pdf\" is damaged: ");
    }
    qpdf({(datasheets / "wb-10.pdf").string(), "--pages", ".", "1-z", "--", "--encrypt", "open",
          "owner", "256", "--", house.cut_sheet.string()});
    check_refused(house, "\"datasheets/wb-10.pdf\" is encrypted and needs a password");
    qpdf({"--empty", house.cut_sheet.string()});
    check_refused(house, "\"datasheets/wb-10.pdf\" holds no pages");
}

TEST_CASE("pages that a document does not have are an error where they are asked for") {
    const TemporaryFolder folder;
    const fs::path system =
        copied(ashgrove(), folder.path(),
               {{"kind = \"structural letter\"", "kind = \"structural letter\"\npages = \"1-3\""}});
    const Outcome checked = run_ohmfolio({"check", system.string()});
    CAPTURE(checked.out);
    CHECK(checked.exit_code == 2);
    CHECK(says(checked.out, "\"letters/ashgrove-roof.pdf\" has 1 page, not 3"));
    CHECK(says(checked.out, "pages = \"1-3\""));
}

TEST_CASE("links, attachments and scripts of a foreign page stay behind") {
    const House house;
    const auto drawn_open = [&house](std::size_t& links) {
        const DrawnPacket drawn(house.system);
        CHECK(run_program({"qpdf", "--check", drawn.pdf().string()}).exit_code == 0);
        const std::string page = std::to_string(drawn.position("E-703") + 1);
        const std::string words = run_program({"pdftohtml", "-xml", "-i", "-stdout", "-f", page,
                                               "-l", page, drawn.pdf().string()})
                                      .out;
        links = all_matches(words, "(<a href)").size();
        const TemporaryFolder scratch;
        const fs::path open = scratch.path() / "open.pdf";
        // The foreign PDF as a whole is attached, with all its scripts.
        qpdf({"--remove-attachment=datasheets/wb-10.pdf", "--qdf", "--object-streams=disable",
              drawn.pdf().string(), open.string()});
        return read_file(open);
    };
    std::size_t links = 0;
    // ISO 32000-1, 12.6.4.16 and 12.5.6.5: a script when the file or a page opens, a link.
    write_file(house.cut_sheet,
               pdf_of({"<< /Type /Catalog /Pages 2 0 R /OpenAction << /S /JavaScript /JS "
                       "(open) >> >>",
                       "<< /Type /Pages /Count 1 /Kids [4 0 R] >>", stream_of("0 0 99 99 re f"),
                       "<< /Type /Page /Parent 2 0 R /Contents 3 0 R /MediaBox [0 0 612 792] "
                       "/Resources << >> /AA << /O << /S /JavaScript /JS (open) >> >> /Annots "
                       "[<< /Type /Annot /Subtype /Link /Rect [0 0 99 99] /A << /S /URI /URI "
                       "(http://example.invalid) >> >>] >>"}));
    const std::string open = drawn_open(links);
    CHECK(says(open, "0 0 99 99 re f"));
    CHECK_FALSE(says(open, "/JavaScript"));
    CHECK_FALSE(says(open, "/URI"));
    // Our own packet has links and attachments, which makes it a good foreign PDF.
    fs::copy_file(example_packet().pdf(), house.cut_sheet, fs::copy_options::overwrite_existing);
    drawn_open(links);
    CHECK(links == 0);
}
