// The one expression: formula, figures, result, brackets, rounding, verdicts.
#include <stdexcept>
#include <type_traits>

#include "catch.h"
#include "code/derivation.h"

using namespace ohmfolio;

namespace {

const Term<Amps> a = given("A", Amps{10});
const Term<Amps> b = given("B", Amps{4});
const Term<Amps> c = given("C", Amps{2.5});

Heading line(std::string name, std::string symbol) {
    return {.subject = "circuit:C5", .name = std::move(name), .symbol = std::move(symbol)};
}

template <class A, class B>
concept Adds = requires(const Term<A>& left, const Term<B>& right) {
    left + right;
};

} // namespace

TEST_CASE("quantities of different dimension do not add") {
    STATIC_REQUIRE(Adds<Amps, Amps>);
    STATIC_REQUIRE_FALSE(Adds<Amps, Volts>);
    STATIC_REQUIRE_FALSE(Adds<Celsius, Celsius>);
    STATIC_REQUIRE(std::is_same_v<decltype(a * given("V", Volts{240})), Term<Watts>>);
}

TEST_CASE("an expression carries symbols, figures and value") {
    Worksheet sheet;
    const auto current =
        sheet.define(line("current", "I"), given("N", Ratio{8}) * given("I_inv", Amps{1.42}));
    const auto required = sheet.define(line("required_ampacity", "I_req"), factor(1.25) * current);
    CHECK(required.value.value == Approx(14.2));
    const Derivation* found = sheet.find("C5.required_ampacity");
    REQUIRE(found);
    CHECK(found->formula == "1.25 × I");
    CHECK(found->figures == "1.25 × 11.36 A");
    CHECK(found->result == "14.20 A");
    CHECK(found->symbol == "I_req");
    CHECK(found->from == std::vector<std::string>{"C5.current"});
    CHECK(sheet.find("C5.current")->figures == "8 × 1.42 A");
    CHECK(sheet.find("C5.current")->from.empty());
}

TEST_CASE("brackets stand where the formula needs them and nowhere else") {
    CHECK((a + b + c).symbols == "A + B + C");
    CHECK((a - (b + c)).symbols == "A − (B + C)");
    CHECK((a - (b - c)).symbols == "A − (B − C)");
    CHECK((a - b - c).symbols == "A − B − C");
    CHECK((a + (b - c)).symbols == "A + B − C");
    CHECK((factor(2) * (a + b)).symbols == "2 × (A + B)");
    CHECK(((a + b) * factor(2)).symbols == "(A + B) × 2");
    CHECK((factor(2) * (factor(3) * a)).symbols == "2 × 3 × A");
    CHECK((a / (factor(2) * factor(3))).symbols == "A ÷ (2 × 3)");
    CHECK((a / (b / c)).symbols == "A ÷ (B ÷ C)");
    CHECK((a / b / c).symbols == "A ÷ B ÷ C");
    CHECK((a / (b + c)).symbols == "A ÷ (B + C)");
    CHECK((factor(2) * a + factor(3) * b).symbols == "2 × A + 3 × B");
    CHECK((a - factor(2) * b).symbols == "A − 2 × B");
    CHECK((factor(0.5) * lesser(a, b)).symbols == "0.5 × (lesser of A and B)");
}

TEST_CASE("brackets follow the value: what the figures say is what was worked out") {
    CHECK((a - (b - c)).value == Amps{8.5});
    CHECK((a - (b - c)).figures == "10 A − (4 A − 2.50 A)");
    CHECK((a / (b / c)).value == Amps{6.25});
}

TEST_CASE("a negative figure never meets an operator") {
    const auto coefficient = given("β", PerCelsius{-0.0026});
    const auto cold = given("T_min", Celsius{-9}) - constant(Celsius{25});
    CHECK(cold.symbols == "T_min − 25 °C");
    CHECK(cold.figures == "−9 °C − 25 °C");
    const auto share = factor(1) + coefficient * cold;
    CHECK(share.symbols == "1 + β × (T_min − 25 °C)");
    CHECK(share.figures == "1 + (−0.26 %/°C × (−9 °C − 25 °C))");
    CHECK(share.value.value == Approx(1.0884));
    CHECK((a + given("D", Amps{-3})).figures == "10 A + (−3 A)");
}

TEST_CASE("what it rests on appears once, in order of appearance") {
    Worksheet sheet;
    const auto x = sheet.state(line("x", "X"), Amps{1});
    const auto y = sheet.state(line("y", "Y"), Amps{2});
    sheet.define(line("z", "Z"), y + x + y);
    CHECK(sheet.find("C5.z")->from == std::vector<std::string>{"C5.y", "C5.x"});
}

TEST_CASE("an id is defined once") {
    Worksheet sheet;
    sheet.state(line("current", "I"), Amps{1});
    CHECK_THROWS_AS(sheet.state(line("current", "I"), Amps{1}), std::logic_error);
    Heading other = line("current", "I");
    other.subject = "circuit:C6";
    CHECK_NOTHROW(sheet.state(other, Amps{1}));
    CHECK(sheet.all().size() == 2);
    CHECK(sheet.find("C6.current"));
    CHECK_FALSE(sheet.find("C7.current"));
}

TEST_CASE("units are shown as the trade writes them") {
    CHECK(shown(Amps{20}) == "20 A");
    CHECK(shown(Amps{14.2}) == "14.20 A");
    CHECK(shown(Amps{11.364}) == "11.36 A");
    CHECK(shown(Volts{240}) == "240 V");
    CHECK(shown(Volts{40.488}) == "40.49 V");
    CHECK(shown(Watts{405}) == "405 W");
    CHECK(shown(Watts{11340}) == "11.34 kW");
    CHECK(shown(Watts{999}) == "999 W");
    CHECK(shown(Watts{1000}) == "1 kW");
    CHECK(shown(WattHours{20160}) == "20.16 kWh");
    CHECK(shown(Ratio{1.25}) == "1.25");
    CHECK(shown(Ratio{0.123456}) == "0.1235");
    CHECK(shown(Feet{28}) == "28 ft");
    CHECK(shown(SquareInches{0.0211}) == "0.0211 in²");
    CHECK(shown(CircularMils{10380}) == "10380 cmil");
    CHECK(shown(OhmsPerFoot{0.00124}) == "1.24 Ω/kft");
    CHECK(shown(Celsius{-9}) == "−9 °C");
    CHECK(shown(Celsius{37}) == "37 °C");
    CHECK(shown(CelsiusDelta{33}) == "33 °C");
}

TEST_CASE("values are carried in full and shown rounded") {
    Worksheet sheet;
    const auto third = sheet.define(line("third", "I_3"), given("I", Amps{10}) / factor(3));
    CHECK(sheet.find("C5.third")->result == "3.33 A");
    const auto whole = sheet.define(line("whole", "I_w"), factor(3) * third);
    CHECK(whole.value.value == Approx(10));
    CHECK(sheet.find("C5.whole")->result == "10 A");
    CHECK(sheet.find("C5.whole")->rounding.empty());
}

TEST_CASE("rounding on purpose says what it was rounded from") {
    Worksheet sheet;
    Heading heading = line("most", "N_max");
    heading.rounding = "rounded down";
    const auto most = sheet.define_rounded(
        heading, given("V_limit", Volts{600}) / given("V", Volts{44.4}), Ratio{13});
    CHECK(most.value.value == 13);
    CHECK(sheet.find("C5.most")->result == "13");
    CHECK(sheet.find("C5.most")->rounding == "13.5135, rounded down");
}

TEST_CASE("a comparison carries its verdict and states what holds") {
    Worksheet sheet;
    CHECK(sheet.check(line("ok", ""), given("I_req", Amps{14.2}), "≤", given("I_ocpd", Amps{20})));
    const Derivation& ok = *sheet.find("C5.ok");
    CHECK(ok.comparison == "14.20 A ≤ 20 A");
    CHECK(ok.formula == "I_req ≤ I_ocpd");
    CHECK(ok.verdict == Verdict::pass);
    CHECK_FALSE(
        sheet.check(line("bad", ""), given("I_req", Amps{22.5}), "≤", given("I_ocpd", Amps{20})));
    CHECK(sheet.find("C5.bad")->comparison == "22.50 A > 20 A");
    CHECK(sheet.find("C5.bad")->verdict == Verdict::fail);
    CHECK_FALSE(sheet.check(line("low", ""), a, "≥", given("D", Amps{11})));
    CHECK(sheet.find("C5.low")->comparison == "10 A < 11 A");
}

TEST_CASE("equal within the arithmetic's error is equal") {
    Worksheet sheet;
    const auto tenth = given("x", Amps{0.1});
    const auto sum = tenth + tenth + tenth; // 0.30000000000000004
    CHECK(sheet.check(line("le", ""), sum, "≤", given("y", Amps{0.3})));
    CHECK(sheet.check(line("ge", ""), given("y", Amps{0.3}), "≥", sum));
    CHECK_FALSE(sheet.check(line("lt", ""), given("y", Amps{0.3}), "<", sum));
}

TEST_CASE("ratings and loads are shown in amperes at every size") {
    // As nameplates and 240.6(A) state them: a main of 1200 A, a standard rating of 6000 A.
    CHECK(shown(Amps{1200}) == "1200 A");
    CHECK(shown(Amps{6000}) == "6000 A");
    CHECK(shown(Amps{1350.5}) == "1350.50 A");
    Worksheet sheet;
    sheet.check(line("bus", ""), given("I_total", Amps{1350.5}), "≤", given("I_bus", Amps{1440}));
    CHECK(sheet.find("C5.bus")->comparison == "1350.50 A ≤ 1440 A");
}

TEST_CASE("a line about fault currents shows kA, and so does what rests on it") {
    Worksheet sheet;
    Heading fault = line("fault", "I_f");
    fault.as = ShownAs::kiloamps;
    const auto stated = sheet.state_once(fault, Amps{9200});
    CHECK(sheet.find("C5.fault")->result == "9.2 kA");
    CHECK((factor(2) * stated).figures == "2 × 9.2 kA");
    CHECK(sheet.state_once(fault, Amps{9300}).figures == "9.3 kA"); // another value, no line
    Heading kept = line("kept", "");
    kept.as = ShownAs::kiloamps;
    sheet.check(kept, given("I_int", Amps{10000}, {}, ShownAs::kiloamps), "≥", stated);
    CHECK(sheet.find("C5.kept")->comparison == "10 kA ≥ 9.2 kA");
    CHECK(constant(Amps{10000}, ShownAs::kiloamps).symbols == "10 kA");
}

TEST_CASE("fault currents are shown in kA, shares in per cent, apparent power in VA") {
    CHECK(shown_kiloamps(Amps{999}) == "999 A");
    CHECK(shown_kiloamps(Amps{1000}) == "1 kA");
    CHECK(shown_kiloamps(Amps{9200}) == "9.2 kA");
    CHECK(shown_kiloamps(Amps{10125}) == "10.13 kA"); // half away from zero
    CHECK(shown_percent(Ratio{0.4}) == "40 %");
    CHECK(shown_percent(Ratio{0.005301}) == "0.53 %");
    CHECK(shown_percent(Ratio{0.1}) == "10 %");
    CHECK(shown_va(Watts{340}) == "340 VA");
    CHECK(shown_va(Watts{3840}) == "3.84 kVA");
}

TEST_CASE("a percentage that fails shows enough digits to differ") {
    Worksheet sheet;
    Heading share = line("share", "");
    share.as = ShownAs::percent;
    CHECK_FALSE(sheet.check(share, given("v", Ratio{0.02001}), "≤", given("v_max", Ratio{0.02})));
    CHECK(sheet.find("C5.share")->comparison == "2.001 % > 2 %");
}

TEST_CASE("a value that several calculations share has one line") {
    Worksheet sheet;
    const Heading cold{.subject = "site:climate", .name = "coldest", .symbol = "T_cold"};
    sheet.state_once(cold, Celsius{-9});
    CHECK(sheet.state_once(cold, Celsius{-9}).from == std::vector<std::string>{"climate.coldest"});
    // Another value must not pass for it.
    CHECK(sheet.state_once(cold, Celsius{-12}).from.empty());
    CHECK(sheet.all().size() == 1);
}

TEST_CASE("a failure that rounding would hide is shown in full") {
    Worksheet sheet;
    CHECK_FALSE(
        sheet.check(line("near", ""), given("I", Amps{20.004}), "≤", given("I_max", Amps{20.001})));
    CHECK(sheet.find("C5.near")->comparison == "20.004 A > 20.001 A");
    CHECK_FALSE(
        sheet.check(line("whole", ""), given("I", Amps{20.004}), "≤", given("I_max", Amps{20})));
    CHECK(sheet.find("C5.whole")->comparison == "20.004 A > 20 A");
}

TEST_CASE("a relation that nobody knows is a fault of ours") {
    Worksheet sheet;
    CHECK_THROWS_AS(sheet.check(line("odd", ""), a, "=", b), std::logic_error);
}

TEST_CASE("words and judgements are lines too") {
    Worksheet sheet;
    const Derivation& size = sheet.choose(line("size", ""), "10 AWG CU", {"C5.ampacity"});
    CHECK(size.result == "10 AWG CU");
    CHECK_FALSE(size.verdict);
    CHECK_FALSE(sheet.judge(line("size_check", ""), "12 AWG is smaller than 10 AWG", false, {}));
    CHECK(sheet.all().back().verdict == Verdict::fail);
    CHECK(sheet.all().back().comparison == "12 AWG is smaller than 10 AWG");
}

TEST_CASE("a citation reads edition and section; practice has no edition") {
    CHECK(text(Citation{"NEC 2023", "705.28(B)"}) == "NEC 2023 705.28(B)");
    CHECK(text(Citation{"", "common practice"}) == "common practice");
}

TEST_CASE("a value shared by calculations has one line, whatever its unit") {
    Worksheet sheet;
    // First the line is written, then it is named, then another value stands without it.
    const auto shared = [&](const char* name, auto value, auto other) {
        const Heading heading = line(name, "X");
        const std::string id = std::string("C5.") + name;
        INFO(name);
        CHECK(sheet.state_once(heading, value).from == std::vector<std::string>{id});
        CHECK(sheet.state_once(heading, value).from == std::vector<std::string>{id});
        const auto stranger = sheet.state_once(heading, other);
        CHECK(stranger.from.empty());
        CHECK(stranger.value == other);
        CHECK(sheet.find(id)->value == value.value);
    };
    shared("amps", Amps{10}, Amps{11});
    shared("volts", Volts{480}, Volts{481});
    shared("watts", Watts{7600}, Watts{7601});
    shared("ratio", Ratio{12}, Ratio{13});
    shared("feet", Feet{40}, Feet{41});
    shared("celsius", Celsius{-9}, Celsius{-10});
    shared("per_celsius", PerCelsius{-0.0026}, PerCelsius{-0.0027});
    CHECK(sheet.all().size() == 7);
}

TEST_CASE("lines are found by their subject") {
    Worksheet sheet;
    sheet.state(line("current", "I"), Amps{1});
    sheet.state({.subject = "site", .name = "coldest", .symbol = "T"}, Celsius{-9});
    sheet.state(line("required", "I_req"), Amps{2});
    CHECK(sheet.under("circuit:C5") == std::vector<std::size_t>{0, 2});
    CHECK(sheet.under("circuit:C6").empty());
    // A subject of one word is its own key.
    CHECK(sheet.under("site") == std::vector<std::size_t>{1});
    CHECK(sheet.find("site.coldest"));
}

TEST_CASE("the relation that holds is printed where another was asked") {
    Worksheet sheet;
    CHECK_FALSE(sheet.check(line("less", ""), a, "<", b));
    CHECK(sheet.find("C5.less")->comparison == "10 A ≥ 4 A");
}

TEST_CASE("a negative result has the minus sign of the figures") {
    CHECK(shown(Amps{-14.2}) == "−14.20 A");
    CHECK(shown(Amps{-3}) == "−3 A");
    CHECK(shown_percent(Ratio{-0.025}) == "−2.50 %");
}

TEST_CASE("values without a line are told once each, apart by symbol, figure or meaning") {
    const auto two = given("N", Ratio{2}, "dryers");
    CHECK((two + two).givens.size() == 1);
    CHECK((two + given("N", Ratio{2}, "ranges")).givens.size() == 2);
    CHECK((two + given("N", Ratio{3}, "dryers")).givens.size() == 2);
    CHECK((two + given("M", Ratio{2}, "dryers")).givens.size() == 2);
}
