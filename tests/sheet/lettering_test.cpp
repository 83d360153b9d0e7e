// Words and formulas: case, subscripts, slots, abbreviations.
#include "catch.h"

#include "drawing/measure.h"
#include "sheet/abbreviations.h"
#include "sheet/facts.h"
#include "sheet/formula.h"
#include "sheet/sheet_case.h"

using namespace ohmfolio;
using namespace ohmfolio::sheets;

TEST_CASE("upper case leaves units and paragraph letters alone") {
    CHECK(sheet_case("Array of 11.34 kW DC, 20.16 kWh") == "ARRAY OF 11.34 kW DC, 20.16 kWh");
    CHECK(sheet_case("NEC 2023 690.8(A)(1)(c)") == "NEC 2023 690.8(A)(1)(c)");
    CHECK(sheet_case("705.12(b)") == "705.12(b)");
    CHECK(sheet_case("equipment (e) stays") == "EQUIPMENT (E) STAYS");
}

TEST_CASE("what follows the underscore of a name is lowered") {
    using Runs = std::vector<FormulaRun>;
    CHECK(formula_runs("I_req = 1.25 × I") ==
          Runs{{"I", false}, {"req", true}, {" = 1.25 × I", false}});
    CHECK(formula_runs("V_oc.cold ≤ V_in,max") ==
          Runs{{"V", false}, {"oc.cold", true}, {" ≤ V", false}, {"in,max", true}});
    CHECK(formula_runs("(I_a, I_b)") ==
          Runs{{"(I", false}, {"a", true}, {", I", false}, {"b", true}, {")", false}});
    CHECK(formula_runs("12 AWG CU") == Runs{{"12 AWG CU", false}});
}

TEST_CASE("subscripts keep the size of the lettering and stand lower") {
    const auto measure = fixed_measure();
    const TextStyle style{points(10.2)};
    Frame frame;
    write_formula(frame, {}, "I_req = 2", style, "circuit:C1", *measure);
    REQUIRE(frame.marks.size() == 3);
    const auto& name = std::get<Text>(frame.marks[0].item);
    const auto& lowered = std::get<Text>(frame.marks[1].item);
    CHECK(lowered.style == name.style);
    CHECK(lowered.at.y > name.at.y);
    CHECK(lowered.at.x == name.at.x + measure->width("I", style));
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
