// Currents, 125 %, and devices. Expected values worked by hand.
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

TEST_CASE("source circuit current is 125 % of the parallel short-circuit currents") {
    TestDesk one, two;
    CHECK(source_circuit_current(one, Amps{13.9}, 1).value.value == Approx(17.375));
    CHECK(one.line("source_circuit_current").formula == "1.25 × I_sc");
    CHECK(source_circuit_current(two, Amps{13.9}, 2).value.value == Approx(34.75));
    CHECK(two.line("source_circuit_current").formula == "1.25 × N_p × I_sc");
    CHECK(two.line("source_circuit_current").figures == "1.25 × 2 × 13.90 A");
}

TEST_CASE("required rating is named for its rule") {
    TestDesk desk;
    const auto ampacity =
        required_rating(desk, amps(11.36, "I_cont"), "source.conductor.continuous");
    const auto rating = required_rating(desk, amps(11.36, "I_cont"), "source.overcurrent");
    CHECK(ampacity.value.value == Approx(14.2));
    CHECK(rating.value.value == Approx(14.2));
    CHECK(desk.line("conductor_continuous").formula == "1.25 × I_cont");
    CHECK(desk.line("conductor_continuous").title ==
          "Required rating, 125 % of the continuous current");
    CHECK(text(desk.line("conductor_continuous").cite) == "NEC 2023 705.28(B)");
    CHECK(text(desk.line("overcurrent").cite) == "NEC 2023 705.30(B)");
}

TEST_CASE("the next standard rating up, and the step above it") {
    const auto rating = [](double required) {
        TestDesk desk;
        return overcurrent_rating(desk, amps(required))->value.value;
    };
    CHECK(rating(20) == 20);
    CHECK(rating(20.01) == 25);
    CHECK(rating(1.25 * 16) == 20); // 12.8 A and the like must not miss by a rounding error
    CHECK(rating(1.25 * 64) == 80);
    CHECK(rating(6000) == 6000);
}

TEST_CASE("a rating that was picked carries what is required, however little it misses a step") {
    // What arithmetic may leave over is 20 A to both; half a millionth of an ampere is to neither.
    for (const auto& [required, picked] :
         {std::pair{20.0, 20.0}, {20 * (1 + 1e-12), 20.0}, {20.0000005, 25.0}}) {
        TestDesk desk, check;
        const auto rating = overcurrent_rating(desk, amps(required));
        CHECK(rating->value == Amps{picked});
        CHECK(check_overcurrent_rating(check, *rating, amps(required)));
    }
}

TEST_CASE("the rating's line shows required and used") {
    TestDesk desk;
    overcurrent_rating(desk, amps(14.2, "I_req"));
    const Derivation& line = desk.line("rating");
    CHECK(line.symbol == "I_X");
    CHECK(line.formula == "next standard rating ≥ I_req");
    CHECK(line.figures == "next standard rating ≥ 14.20 A");
    CHECK(line.result == "15 A");
    CHECK(text(line.cite) == "NEC 2023 240.6(A)");
}

TEST_CASE("a rating is taken from those offered") {
    TestDesk desk;
    CHECK(overcurrent_rating(desk, amps(14.2, "I_req"), {Amps{60}, Amps{20}, Amps{30}}, "WC-4G")
              ->value == Amps{20});
    CHECK(desk.line("rating").formula == "smallest offered ≥ I_req");
    CHECK(desk.line("rating").result == "20 A");
    CHECK(desk.line("rating").source == "compatible breakers of WC-4G: 60 A, 20 A, 30 A");
    CHECK(text(desk.line("rating").cite) == "NEC 2023 240.6(A)");
}

TEST_CASE("a rating offered is enough exactly at what is required") {
    const auto rating = [](double required) {
        TestDesk desk;
        return overcurrent_rating(desk, amps(required), {Amps{30}, Amps{20}})->value;
    };
    CHECK(rating(20) == Amps{20});
    CHECK(rating(20.01) == Amps{30});
}

TEST_CASE("nothing large enough is nothing, with a line that shows it") {
    TestDesk offered, standard;
    CHECK_FALSE(overcurrent_rating(offered, amps(20.5), {Amps{15}, Amps{20}}));
    CHECK(offered.line("rating").comparison == "20 A < 20.50 A");
    CHECK(offered.line("rating").verdict == Verdict::fail);
    CHECK_FALSE(overcurrent_rating(standard, amps(6001)));
    CHECK(standard.line("rating").verdict == Verdict::fail);
}

TEST_CASE("a stated rating is judged by what is required and what is standard") {
    const auto passes = [](double stated, double required, Edition edition = Edition::nec2023) {
        TestDesk desk(edition);
        return check_overcurrent_rating(desk, amps(stated, "I_ocpd"), amps(required, "I_req"));
    };
    CHECK(passes(20, 20));
    TestDesk desk;
    check_overcurrent_rating(desk, amps(80, "I_Q7"), amps(89.7, "I_req"), "source.overcurrent");
    CHECK(text(desk.line("rating_sufficient").cite) == "NEC 2023 705.30(B)");
    CHECK(text(desk.line("rating_standard").cite).find("240.6(A)") != std::string::npos);
    CHECK_FALSE(passes(20, 20.01));
    CHECK_FALSE(passes(22, 20));
    CHECK(passes(10, 8, Edition::nec2023));
    CHECK_FALSE(passes(10, 8, Edition::nec2020));
}
