/// One house under three editions: the sheets cite the paragraphs of theirs and of no other.
#include "catch.h"
#include "packet.h"

using namespace ohmfolio::test;

namespace {

struct Moved {
    const char* rule;
    std::vector<std::string> of_2017, of_2020, of_2023;

    const std::vector<std::string>& of(const std::string& year) const {
        return year == "2017" ? of_2017 : year == "2020" ? of_2020 : of_2023;
    }
};

// How paragraphs moved between the editions of NFPA 70. Sources are public pages that quote or cite
// the editions, named with each; nothing here is from this program's tables.
const std::vector<Moved>& moved_paragraphs() {
    static const std::vector<Moved> moved{
        // electricallicenserenewal.com sectionID=972; forums.mikeholt.com 180560; notes on the 2025
        // California Electrical Code, 705 (its base is the NEC of 2023)
        {"busbar, main and sources", {"705.12(B)(2)(3)(a)"}, {"705.12(B)(3)(1)"}, {"705.12(B)(1)"}},
        // forums.mikeholt.com 180560; Santa Ana public record 540506; the California notes
        {"busbar, 120 %", {"705.12(B)(2)(3)(b)"}, {"705.12(B)(3)(2)"}, {"705.12(B)(2)"}},
        // forums.mikeholt.com 180560 and 2585503; the California notes
        {"busbar, sum of breakers", {"705.12(B)(2)(3)(c)"}, {"705.12(B)(3)(3)"}, {"705.12(B)(3)"}},
        // electricallicenserenewal.com sectionID=970 and 1567; the California notes
        {"feeder beyond the point of connection",
         {"705.12(B)(2)(1)"},
         {"705.12(B)(1)"},
         {"705.12(A)(1)"}},
        // a copy of the older table on scribd.com 602627451 and intrysys.com, which cites 2023
        {"ampacities", {"Table 310.15(B)(16)"}, {"Table 310.16"}, {"Table 310.16"}},
        // wiresizecalculator.net and a public calculator
        {"bundling", {"310.15(B)(3)(a)"}, {"310.15(C)(1)"}, {"310.15(C)(1)"}},
        // notes on the 2025 California Electrical Code, 690.8(A); letters of older items from
        // memory
        {"inverter output", {"690.8(A)(3)"}, {"690.8(A)(1)(e)"}, {"690.8(A)(1)(c)"}},
        // a public calculator for 2017; 310.12 from memory
        {"dwelling service", {"310.15(B)(7)"}, {"310.12"}, {"310.12"}},
        // the California notes, 705.28; 705.60 from memory
        {"source output", {"705.60(B)"}, {"705.28(B)"}, {"705.28(B)"}},
        // public pages on article 706 for 2023; 2017 from memory
        {"storage circuit", {"706.20(B)"}, {"706.30(B)"}, {"706.30(B)"}},
        // the California notes for 2023; older items from memory
        {"rapid-shutdown label", {"690.56(C)(1)(a)"}, {"690.56(C)"}, {"690.12(D)"}},
    };
    return moved;
}

std::string packet_text(const std::string& year) {
    const TemporaryFolder folder;
    const auto system =
        copied(ashgrove(), folder.path(), {{"code = \"NEC 2023\"", "code = \"NEC " + year + "\""}});
    const DrawnPacket packet(system);
    CHECK(packet.report().at("edition") == "NEC " + year);
    const std::string text = joined(page_texts(packet.pdf()));
    for (const std::string& section : cited_sections(packet.report())) {
        CAPTURE(year, section);
        CHECK(has_word(text, flattened(section)));
    }
    return text;
}

} // namespace

TEST_CASE("sheets cite the paragraphs of their edition and of no other") {
    const std::vector<std::string> years{"2017", "2020", "2023"};
    for (const std::string& year : years) {
        const std::string text = packet_text(year);
        for (const std::string& other : years) {
            CAPTURE(year, other);
            CHECK(has_word(text, "NEC " + other) == (other == year));
        }
        for (const Moved& moved : moved_paragraphs()) {
            for (const std::string& section : moved.of(year)) {
                CAPTURE(year, moved.rule, section);
                CHECK(has_word(text, flattened(section)));
            }
        }
    }
}

TEST_CASE("a paragraph that an edition does not have is on none of its sheets") {
    // Those that are the number of something else in another edition, 705.12(B)(1) for one, cannot
    // be told apart on paper; these can.
    const std::vector<std::pair<std::string, std::vector<std::string>>> foreign{
        {"2017", {"310.16", "310.15(C)(1)", "310.12", "705.28(B)", "706.30(B)", "690.12(D)"}},
        {"2020",
         {"310.15(B)(16)", "310.15(B)(3)(a)", "310.15(B)(7)", "705.60(B)", "705.12(B)(2)(3)(c)",
          "706.20(B)", "690.8(A)(1)(c)", "690.12(D)"}},
        {"2023",
         {"310.15(B)(16)", "310.15(B)(3)(a)", "310.15(B)(7)", "705.60(B)", "705.12(B)(2)(3)(c)",
          "705.12(B)(3)(3)", "706.20(B)", "690.8(A)(1)(e)", "690.56(C)"}},
    };
    for (const auto& [year, sections] : foreign) {
        const std::string text = packet_text(year);
        for (const std::string& section : sections) {
            CAPTURE(year, section);
            CHECK(text.find(section) == std::string::npos); // nor with an item after it
        }
    }
}

TEST_CASE("placards and their wording differ between the editions where the code does") {
    struct Wording {
        std::string words;
        bool in_2017, in_2020, in_2023;
    };
    const std::vector<Wording> wordings{
        // 690.56(C)(1)(a) of 2017 has the article; the later text does not. Public label guides and
        // notes on the 2025 California Electrical Code, 690.
        {"SHOCK HAZARD IN THE ARRAY", true, false, false},
        {"SHOCK HAZARD IN ARRAY", false, true, true},
        // Emergency shutdown of storage in dwellings, 706.15, came with 2020. One public page.
        {"EMERGENCY SHUTDOWN", false, true, true},
        // The directory has prescribed words from 2020 on, 705.10; one guide has them for 2023
        // alone.
        {"MULTIPLE SOURCES OF POWER", false, true, true},
        // The telephone of an off-site service entity: new in 2023 by one public guide.
        {"EMERGENCY TELEPHONE", false, false, true},
        // Rating at the point of interconnection, 690.54: not found in the text of 2023.
        {"690.54", true, true, false},
    };
    for (const std::string year : {"2017", "2020", "2023"}) {
        const std::string text = packet_text(year);
        for (const Wording& wording : wordings) {
            CAPTURE(year, wording.words);
            const bool expected = year == "2017"   ? wording.in_2017
                                  : year == "2020" ? wording.in_2020
                                                   : wording.in_2023;
            CHECK(has_word(text, wording.words) == expected);
        }
    }
}
