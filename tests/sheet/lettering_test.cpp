// Words and formulas: case, subscripts, slots, abbreviations.
#include "catch.h"

#include "drawing/measure.h"
#include "sheet/abbreviations.h"
#include "sheet/facts.h"
#include "sheet/formula.h"
#include "sheet/formula_parts.h"
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

TEST_CASE("a quotient is a fraction: all of the product before the sign above, one operand below") {
    const auto fraction = [](std::string_view formula) {
        for (const FormulaPart& part : formula_parts(formula)) {
            if (part.kind == FormulaPart::Kind::fraction)
                return part.above + " / " + part.below + part.after;
        }
        return std::string("none");
    };
    CHECK(fraction("f = 2 × L × I_a ÷ (C × V)") == "2 × L × I_a / C × V");
    CHECK(fraction("N = I ÷ (1.25 × I_inv), ROUNDED DOWN") == "I / 1.25 × I_inv,");
    CHECK(fraction("v = (V_a + V_b) ÷ V_n × 100 %") == "V_a + V_b / V_n");
    CHECK(fraction("v = 1 + 4.59 V ÷ 240 V") == "4.59 V / 240 V");
    // Brackets around a part only belong to the formula.
    CHECK(fraction("a = (b + c) × (d − e) ÷ f") == "(b + c) × (d − e) / f");
    // Titles and earlier formulas of the line stay before the fraction.
    CHECK(fraction("SHARE   v = V ÷ V_n, V_n = 240 V") == "V / V_n,");
    CHECK(fraction("I_C: 20 A ÷ 1.25") == "20 A / 1.25");
    // Inside brackets it is a fraction of what stands there.
    CHECK(fraction("n = MIN(a ÷ b, c)") == "none");
    // A line broken before the sign, or inside brackets, is no fraction.
    CHECK(fraction("÷ 240 V = 2 %") == "none");
    CHECK(fraction("a + b) ÷ c") == "none");
    CHECK(fraction("a × (b") == "none");
}

TEST_CASE("fractions stand on the line by their bar and take what they need above and below") {
    const auto measure = fixed_measure();
    const TextStyle style{points(10)};
    Frame frame;
    write_formula(frame, {{}, inches(1)}, "v = V_a ÷ 240 V", style, "circuit:C1", *measure);
    const auto mark = [&](std::string_view words) {
        for (const Mark& each : frame.marks) {
            if (const auto* text = std::get_if<Text>(&each.item); text && text->text == words)
                return *text;
        }
        FAIL("not set: " << words);
        return Text{};
    };
    std::vector<Box> bars;
    for (const Mark& each : frame.marks) {
        if (const auto* path = std::get_if<Path>(&each.item))
            bars.push_back(bounds(*path));
    }
    REQUIRE(bars.size() == 1);
    const Length bar = bars.front().low.y;
    const Length baseline = mark("=").at.y;
    CHECK(bar == baseline - measure->cap_height(style) / 2);
    CHECK(mark("a").at.y < bar);
    CHECK(mark("240 V").at.y - measure->cap_height(style) > bar);
    const FormulaExtent extent = formula_extent("v = V_a ÷ 240 V", style, *measure);
    CHECK(mark("V").at.y - measure->cap_height(bearing_style(style)) >= inches(1) - extent.above);
    CHECK(mark("240 V").at.y <= baseline + extent.below);
    CHECK(bars.front().high.x <= extent.width);
    // The dividend stands above the middle of the bar, the divisor below it.
    const Length middle = (bars.front().low.x + bars.front().high.x) / 2;
    const Length width = measure->width("240 V", style);
    CHECK(std::abs((mark("240 V").at.x + width / 2 - middle).nm) <= 2);
}

TEST_CASE("lines are not broken inside a fraction") {
    const auto measure = fixed_measure();
    const TextStyle style{points(10)};
    for (const std::string& line :
         formula_lines("v = a + V_rise × L ÷ V_nominal + b", style, points(70), *measure))
        CHECK((line.find("÷") == std::string::npos ||
               line.find("V_rise × L ÷ V_nominal") != std::string::npos));
}

TEST_CASE("relation signs are found outside brackets") {
    CHECK(relation_in("I_a = 2 × 3") == 4);
    CHECK(relation_in("f(a = b) ≤ c") == 9);
    CHECK(relation_in("= 2") == 0);
    CHECK(relation_in("4 AWG CU") == std::string_view::npos);
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

TEST_CASE("a symbol of a formula is no abbreviation, nor is its subscript") {
    const std::vector<Abbreviation> all = {
        {"BC", "bare copper"}, {"PV", "photovoltaic"}, {"CU", "copper"}};
    const TextStyle style{points(10)};
    Frame frame;
    const auto letters = [&] {
        std::string found;
        for (const Abbreviation& each : occurring(all, {&frame}))
            found += each.letters + " ";
        return found;
    };
    write_formula(frame, {}, "PV_BC = I_BC × 1.25 + (I_CU ÷ I_PV)", style, {}, *fixed_measure());
    CHECK(letters().empty());
    write_formula(frame, {}, "I_BC: 4 AWG CU", style, {}, *fixed_measure());
    CHECK(letters() == "CU ");
    write_line(frame, {}, "4 AWG BC", {style}, *fixed_measure());
    CHECK(letters() == "BC CU ");
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
