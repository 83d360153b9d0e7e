/// The SVGs, judged by libxml2.
#include <set>

#include "catch.h"
#include "packet.h"

using namespace ohmfolio::test;

namespace {

/// Text nodes of the <text> elements, as libxml2 reads them, one a line.
std::string lettering_of(const std::filesystem::path& svg) {
    return run_program({"xmllint", "--xpath", "//*[local-name()='text']/text()", svg.string()}).out;
}

} // namespace

TEST_CASE("every SVG parses and holds real words, no outlines of letters and no pictures") {
    for (const std::string& sheet : example_packet().sheet_numbers()) {
        CAPTURE(sheet);
        const auto path = example_packet().svg(sheet);
        const Outcome parsed = run_program({"xmllint", "--noout", path.string()});
        CAPTURE(parsed.err);
        CHECK(parsed.exit_code == 0);
        CHECK(parsed.err.empty());
        const std::string words = flattened(lettering_of(path));
        CHECK(has_word(words, sheet));
        CHECK(has_word(words, "ASHGROVE RESIDENCE"));
        CHECK(has_word(words, "ISSUES AND REVISIONS"));
        const std::string svg = read_file(path);
        CHECK(svg.find("<image") == std::string::npos);
        CHECK(svg.find("<use") == std::string::npos);
    }
}

TEST_CASE("the SVG of the diagram holds each tag as a word of its own") {
    const std::string words = flattened(lettering_of(example_packet().svg("E-601")));
    const Json& report = example_packet().report();
    for (const char* kind : {"circuits", "breakers"}) {
        for (const Json& part : report.at(kind)) {
            const std::string tag = part.at("tag");
            CAPTURE(tag);
            CHECK(has_word(words, tag));
        }
    }
}

TEST_CASE("ids in an SVG are unique, and links within it lead somewhere") {
    for (const std::string& sheet : example_packet().sheet_numbers()) {
        CAPTURE(sheet);
        const std::string svg = read_file(example_packet().svg(sheet));
        const auto ids = all_matches(svg, " id=\"([^\"]*)\"");
        const std::set<std::string> unique(ids.begin(), ids.end());
        CHECK_FALSE(ids.empty());
        CHECK(unique.size() == ids.size());
        for (const std::string& target : all_matches(svg, "href=\"#([^\"]*)\"")) {
            CAPTURE(target);
            CHECK(unique.contains(target));
        }
    }
}
