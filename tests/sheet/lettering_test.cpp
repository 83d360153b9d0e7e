// Words and formulas: case, subscripts, slots, abbreviations.
#include "catch.h"

#include "drawing/measure.h"
#include "sheet/abbreviations.h"
#include "sheet/facts.h"
#include "sheet/formula.h"
#include "sheet/writing.h"

using namespace ohmfolio;
using namespace ohmfolio::sheets;

TEST_CASE("what follows the underscore of a name is lowered") {
    using Runs = std::vector<FormulaRun>;
    CHECK(formula_runs("I_req = 1.25 × I") ==
          Runs{{"I", false, true}, {"req", true}, {" = 1.25 × I"}});
    CHECK(formula_runs("I_sc,MID-1 − 1 A") ==
          Runs{{"I", false, true}, {"sc,MID-1", true}, {" − 1 A"}});
    CHECK(
        formula_runs("V_oc.cold ≤ V_in,max") ==
        Runs{{"V", false, true}, {"oc.cold", true}, {" ≤ "}, {"V", false, true}, {"in,max", true}});
    CHECK(formula_runs("(I_a, I_b)") == Runs{{"("},
                                             {"I", false, true},
                                             {"a", true},
                                             {", "},
                                             {"I", false, true},
                                             {"b", true},
                                             {")"}});
    CHECK(formula_runs("12 AWG CU") == Runs{{"12 AWG CU"}});
}

TEST_CASE("subscripts keep the size of the lettering and stand lower") {
    const auto measure = fixed_measure();
    const TextStyle style{points(10.2)};
    Frame frame;
    write_formula(frame, {}, "I_req = 2", style, "circuit:C1", *measure);
    REQUIRE(frame.marks.size() == 3);
    const auto& name = std::get<Text>(frame.marks[0].item);
    const auto& lowered = std::get<Text>(frame.marks[1].item);
    const auto& rest = std::get<Text>(frame.marks[2].item);
    // No lettering may be smaller, so the letter that bears the subscript is the larger one.
    CHECK(lowered.style == style);
    CHECK(name.style.size > style.size);
    CHECK(lowered.at.y > name.at.y);
    CHECK(rest.at.y == name.at.y);
    CHECK(lowered.at.x == name.at.x + measure->width("I", name.style));
    CHECK(frame.marks[1].shows == "circuit:C1");
}

TEST_CASE("long formulas break before an operator and keep values with their units") {
    const auto measure = fixed_measure();
    const TextStyle style{points(10)};
    const std::string formula = "V = 2 × I × R × L = 2 × 39.76 A × 0.78 Ω/kft × 8 ft";
    const auto lines = formula_lines(formula, style, points(120), *measure);
    REQUIRE(lines.size() > 1);
    std::string whole;
    for (const std::string& line : lines) {
        CHECK(formula_width(line, style, *measure) <= points(120));
        whole += (whole.empty() ? "" : " ") + line;
        const bool starts_with_unit = line.starts_with("A") || line.starts_with("ft");
        CHECK_FALSE(starts_with_unit);
    }
    CHECK(whole == formula);
}

TEST_CASE("a formula does not break inside brackets where it can break outside") {
    const auto measure = fixed_measure();
    const TextStyle style{points(10)};
    const auto lines = formula_lines("V_c = V × (1 + β × (T − 25)) = 37 × (1 + 2 × (9 − 25))",
                                     style, points(130), *measure, points(9));
    REQUIRE(lines.size() > 1);
    for (const std::string& line : lines)
        CHECK(std::count(line.begin(), line.end(), '(') ==
              std::count(line.begin(), line.end(), ')'));
}

TEST_CASE("slots are filled, lines without any fact are left out, unknown slots reported") {
    const Facts facts{{"amps", "39.76"}, {"owner", ""}};
    Findings findings;
    CHECK(filled("Rated {amps} A", facts, findings) == "Rated 39.76 A");
    CHECK(filled("No slot", facts, findings) == "No slot");
    CHECK_FALSE(filled("Owner {owner}", facts, findings).has_value());
    CHECK(findings.empty());
    filled("Rated {ams} A", facts, findings);
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].rule == "sheet.slot_unknown");
}

TEST_CASE("abbreviations count where they stand as words") {
    CHECK(occurs("PV", "PV-1 SOUTH ROOF"));
    CHECK(occurs("CU", "(2) 12 AWG CU THWN-2"));
    CHECK_FALSE(occurs("CU", "CURRENT"));
    CHECK_FALSE(occurs("DC", "DC3"));
    CHECK(occurs("kcmil", "250 kcmil"));
    CHECK(occurs("(E)", "MSP (E)"));
}

TEST_CASE("balanced lines leave no word alone and need no further line") {
    const auto measure = fixed_measure();
    const TextStyle style{points(10)}; // each letter is 5 pt wide
    const std::string words = "AAAA BBBB CCCC DDDD EEEE";
    // At 100 pt four words fit (95 pt) and the fifth is left over; three and two need 70 pt.
    REQUIRE(wrapped(words, style, points(100), *measure).back() == "EEEE");
    const Length width = balanced_width(words, style, points(100), *measure);
    const auto lines = wrapped(words, style, width, *measure);
    CHECK(lines == std::vector<std::string>{"AAAA BBBB CCCC", "DDDD EEEE"});
    CHECK(width < points(72));
}
