// Line currents of sources between two lines of a wye. Published: three heaters of 11 A, connected
// one by one between the lines of a three-phase supply, as a tradesman walks through it
// (electrical-contractor.net/forums, thread 128354): 11 A, then about 19 A in the line that two
// share, then about 19 A in each. Otherwise phasors by their components, written out.
#include <cmath>

#include "catch.h"
#include "code/phase_rules.h"

using namespace ohmfolio;

namespace {

struct Bench {
    Worksheet sheet;
    CodeBook book{Edition::nec2023};
    Desk desk{sheet, book, "circuit:C9"};
};

std::optional<Term<Amps>> amps(double value) { return constant(Amps{value}); }

} // namespace

TEST_CASE("three heaters of 11 A between the lines, connected one by one") {
    Bench one, two, three;
    PhaseSources sources;
    sources.between[0] = amps(11);
    auto lines = line_currents(one.desk, sources);
    CHECK(lines[0].value.value == Approx(11));
    CHECK(lines[1].value.value == Approx(11));
    CHECK(lines[2].value.value == 0);
    sources.between[1] = amps(11);
    lines = line_currents(two.desk, sources);
    CHECK(lines[0].value.value == Approx(11));
    CHECK(lines[1].value.value == Approx(19).margin(0.06)); // "about 19", 86.6 % of 22
    CHECK(lines[2].value.value == Approx(11));
    sources.between[2] = amps(11);
    CHECK(greatest_line_current(three.desk, sources).value.value == Approx(19).margin(0.06));
    CHECK(three.sheet.all().back().title == "Current of each line");
}

TEST_CASE("unequal sources meet at 60 degrees") {
    // In line A: 10 A of A-B at 30 degrees and 20 A of C-A, away from A, at -30 degrees.
    const double half_root = std::sqrt(3.0) / 2;
    const double a = std::hypot(10 * half_root + 20 * half_root, 10 * 0.5 - 20 * 0.5);
    Bench bench;
    PhaseSources sources;
    sources.between[0] = amps(10);
    sources.between[2] = amps(20);
    const auto lines = line_currents(bench.desk, sources);
    CHECK(lines[0].value.value == Approx(a));
    CHECK(lines[1].value.value == Approx(10));
    CHECK(lines[2].value.value == Approx(20));
    Bench other;
    CHECK(greatest_line_current(other.desk, sources).value.value == Approx(a));
    CHECK(other.sheet.all().back().governs == "line A governs");
}

TEST_CASE("three-phase sources and sources to neutral add to what lies between the lines") {
    // The true sum of 30 A at 0 degrees, 12 A between A and B at 30 degrees and 5 A to neutral at
    // 0: never more than what is counted.
    const double true_a = std::hypot(30 + 5 + 12 * std::sqrt(3.0) / 2, 12 * 0.5);
    Bench bench;
    PhaseSources sources;
    sources.three_phase = amps(30);
    sources.between[0] = amps(12);
    sources.to_neutral[0] = amps(5);
    const auto lines = line_currents(bench.desk, sources);
    CHECK(lines[0].value.value == Approx(47));
    CHECK(lines[0].value.value >= true_a);
    CHECK(lines[1].value.value == Approx(42));
    CHECK(lines[2].value.value == Approx(30));
}

TEST_CASE("a line that no source reaches carries nothing, and the greatest is named") {
    // Between B and C: line A carries nothing, B and C the same; B comes first.
    Bench between;
    PhaseSources sources;
    sources.between[1] = amps(10);
    CHECK(greatest_line_current(between.desk, sources).value.value == Approx(10));
    CHECK(between.sheet.all().back().governs == "line B governs");
    CHECK(between.sheet.find("C9.line_a")->value == 0);
    // From C to the neutral alone.
    Bench neutral;
    sources = {};
    sources.to_neutral[2] = amps(7);
    CHECK(greatest_line_current(neutral.desk, sources).value.value == Approx(7));
    CHECK(neutral.sheet.all().back().governs == "line C governs");
    // A over B, yet under C.
    Bench three;
    sources.to_neutral[0] = amps(5);
    CHECK(greatest_line_current(three.desk, sources).value.value == Approx(7));
    CHECK(three.sheet.all().back().governs == "line C governs");
    // A and B alike, C more: not balanced.
    Bench last;
    sources.to_neutral[1] = amps(5);
    CHECK(greatest_line_current(last.desk, sources).value.value == Approx(7));
    CHECK(last.sheet.all().back().governs == "line C governs");
    // Between A and B alone: A and B carry the same and C nothing, which is no balance either.
    Bench open;
    PhaseSources pair;
    pair.between[0] = amps(10);
    CHECK(greatest_line_current(open.desk, pair).value.value == Approx(10));
    CHECK(open.sheet.all().back().governs == "line A governs");
    // The same between C and A: A comes first.
    Bench around;
    pair = {};
    pair.between[2] = amps(10);
    CHECK(greatest_line_current(around.desk, pair).value.value == Approx(10));
    CHECK(around.sheet.all().back().governs == "line A governs");
}

TEST_CASE("sources without a current load no line, and are no balance") {
    Bench bench;
    PhaseSources sources;
    sources.three_phase = amps(0);
    CHECK(greatest_line_current(bench.desk, sources).value.value == 0);
    CHECK(bench.sheet.all().back().title == "Current of the line that carries most");
}

TEST_CASE("sources add up line by line") {
    PhaseSources sum;
    CHECK_FALSE(sum.any());
    PhaseSources more;
    more.three_phase = amps(30);
    sum.add(more);
    CHECK(sum.any());
    CHECK_FALSE(sum.single_phase());
    more = {};
    more.between[1] = amps(12);
    sum.add(more);
    CHECK(sum.single_phase());
    more.to_neutral[2] = amps(5);
    sum.add(more);
    CHECK(sum.three_phase->value == Amps{30});
    CHECK(sum.between[1]->value == Amps{24}); // 12 + 12
    CHECK(sum.to_neutral[2]->value == Amps{5});
    CHECK_FALSE(sum.between[0]);
    CHECK_FALSE(sum.to_neutral[0]);
    PhaseSources neutral_alone;
    neutral_alone.to_neutral[0] = amps(5);
    CHECK(neutral_alone.single_phase());
    CHECK(neutral_alone.any());
}
