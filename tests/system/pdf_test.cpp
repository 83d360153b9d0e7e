/// The PDF, judged by qpdf and poppler.
#include <algorithm>
#include <sstream>

#include "catch.h"
#include "packet.h"

using namespace ohmfolio::test;

namespace {

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) {
        lines.push_back(line);
    }
    return lines;
}

/// The parts of the PDF's structure that `keys` name, as qpdf reads them.
Json structure(const std::vector<std::string>& keys) {
    Command command{"qpdf", "--json"};
    for (const std::string& key : keys) {
        command.push_back("--json-key=" + key);
    }
    command.push_back(example_packet().pdf().string());
    return Json::parse(run_program(command).out);
}

/// PDF 1.7, 12.4.2: a label counts on from the last one given, prefix and decimal number.
std::vector<std::string> page_labels(std::size_t pages) {
    const Json ranges = structure({"pagelabels"}).at("pagelabels");
    std::vector<std::string> labels;
    std::size_t range = 0;
    for (std::size_t page = 0; page < pages; ++page) {
        while (range + 1 < ranges.size() && ranges[range + 1].at("index") == page) {
            ++range;
        }
        const Json& label = ranges.at(range).at("label");
        const std::string prefix = label.value("/P", "u:").substr(2); // "u:" marks a text
        const int number = label.value("/St", 1) +
                           static_cast<int>(page - ranges[range].at("index").get<std::size_t>());
        labels.push_back(prefix + (label.contains("/S") ? std::to_string(number) : ""));
    }
    return labels;
}

} // namespace

TEST_CASE("the PDF has no fault") {
    const Outcome checked = run_program({"qpdf", "--check", example_packet().pdf().string()});
    CAPTURE(checked.out, checked.err);
    CHECK(checked.exit_code == 0);
    CHECK(checked.out.find("WARNING") == std::string::npos);
    CHECK(checked.err.empty());
}

TEST_CASE("nothing in the PDF is a picture of dots") {
    const Outcome images = run_program({"pdfimages", "-list", example_packet().pdf().string()});
    CAPTURE(images.out);
    CHECK(images.exit_code == 0);
    CHECK(lines_of(images.out).size() == 2); // heading and its rule
}

TEST_CASE("the only lettering is the house's, embedded, reduced to what is used") {
    const Outcome fonts = run_program({"pdffonts", example_packet().pdf().string()});
    const auto lines = lines_of(fonts.out);
    REQUIRE(lines.size() > 2); // heading and its rule
    for (std::size_t i = 2; i < lines.size(); ++i) {
        CAPTURE(lines[i]);
        CHECK((lines[i].find("+RobotoCondensed-Regular ") == 6 ||
               lines[i].find("+RobotoCondensed-Bold ") == 6));
        CHECK(lines[i].find(" yes yes yes ") != std::string::npos); // embedded, subset, text
    }
}

TEST_CASE("a page for each sheet, 17 by 11 in, labelled and listed as the sheets are") {
    const DrawnPacket& packet = example_packet();
    const auto numbers = packet.sheet_numbers();
    const std::string last = std::to_string(numbers.size());
    const Outcome info = run_program({"pdfinfo", "-f", "1", "-l", last, packet.pdf().string()});
    CAPTURE(info.out);
    CHECK(info.out.find("Pages:           " + last + "\n") != std::string::npos);
    const auto lines = lines_of(info.out);
    CHECK(std::size_t(std::count_if(lines.begin(), lines.end(), [](const std::string& line) {
              return line.starts_with("Page ") &&
                     line.find("size:  1224 x 792 pts") != std::string::npos;
          })) == numbers.size());
    CHECK(page_labels(numbers.size()) == numbers);

    const Json outline = structure({"outlines"}).at("outlines");
    REQUIRE(outline.size() == numbers.size());
    for (std::size_t i = 0; i < numbers.size(); ++i) {
        const std::string title = packet.report().at("sheets")[i].at("title");
        CHECK(outline[i].at("title") == numbers[i] + " " + title);
        CHECK(outline[i].at("destpageposfrom1") == i + 1);
    }
}

TEST_CASE("every page names its sheet, the sheets in all, and the edition") {
    const auto numbers = example_packet().sheet_numbers();
    const auto pages = page_texts(example_packet().pdf());
    REQUIRE(pages.size() == numbers.size());
    for (std::size_t i = 0; i < pages.size(); ++i) {
        CAPTURE(numbers[i]);
        CHECK(has_word(pages[i], numbers[i]));
        CHECK(has_word(pages[i], std::to_string(i + 1) + " OF " + std::to_string(pages.size())));
        CHECK(has_word(pages[i], "NEC 2023"));
        CHECK_FALSE(has_word(pages[i], "DRAFT"));
    }
    for (const std::string& number : numbers) {
        CAPTURE(number);
        CHECK(has_word(pages.front(), number)); // the index of sheets
    }
}

TEST_CASE("the PDF is tagged: a table is read row by row, the title block last (at length)") {
    const Outcome read = run_program({"pdfinfo", "-struct-text", example_packet().pdf().string()});
    CHECK(read.err.empty()); // poppler warns of a tree that is not sound
    const std::string text = flattened(read.out);
    std::size_t at = text.find("TABLE (BLOCK)", text.find("\"EQUIPMENT SCHEDULE\""));
    for (const char* next :
         {"TR TH \"TAG\" TH \"EQUIPMENT\" TH \"MAKER\"", "TR TD \"PV-1 TO PV-4\" TD \"PV MODULE\"",
          "TD \"SOLVANE\"", "TD \"E-701\"", "TR TD \"PV-1 TO PV-4\" TD \"MICROINVERTER\"",
          "H1 (BLOCK)", "\"LARKMOOR SOLAR WORKS\"", "SECT H1"}) {
        CAPTURE(next);
        at = at == std::string::npos ? at : text.find(next, at);
        CHECK(at != std::string::npos);
    }
    const Outcome info = run_program({"pdfinfo", example_packet().pdf().string()});
    CHECK(flattened(info.out).find("TAGGED: YES") != std::string::npos);
}
