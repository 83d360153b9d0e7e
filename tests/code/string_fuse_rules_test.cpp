// Overcurrent devices of strings. Expected values worked by hand; rules of 690.9 from
// iaeimagazine.org 2018-02-20 (2017) and notes on the 2025 California Electrical Code.
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

/// Strings of so many amperes by 690.8(A) behind one input.
StringFuseInput strings(double current, int parallel, double module_fuse) {
    return {.string_current = amps(current, "I_max"),
            .parallel = parallel,
            .module_fuse = Amps{module_fuse}};
}

StringFuseResult sized(const StringFuseInput& input, Edition edition = Edition::nec2023) {
    TestDesk desk(edition);
    return size_string_fuse(desk, input);
}

} // namespace

TEST_CASE("a single string needs no device") {
    const auto result = sized(strings(17.375, 1, 15));
    CHECK_FALSE(result.needed);
    CHECK(result.reason == "nothing can feed back into a single string");
    CHECK(result.fuses == 0);
    CHECK(result.passes());
}

TEST_CASE("the label of the module decides, exactly at its rating and above") {
    CHECK_FALSE(sized(strings(15, 2, 15)).needed);
    CHECK(sized(strings(15.01, 2, 15)).needed);
    CHECK_FALSE(sized(strings(7.5, 3, 15)).needed);
    CHECK(sized(strings(7.51, 3, 15)).needed);
    CHECK(sized(strings(6.25, 4, 15)).needed); // 3 × 6.25 = 18.75 A
    CHECK(sized(strings(6.25, 4, 15)).reason ==
          "18.75 A can flow back, above the 15 A of the module's label");
}

TEST_CASE("what the inverter feeds back counts") {
    StringFuseInput input = strings(10, 2, 15);
    input.backfeed = Amps{5};
    CHECK_FALSE(sized(input).needed);
    input.backfeed = Amps{5.01};
    CHECK(sized(input).needed);
    StringFuseInput single = strings(10, 1, 15);
    single.backfeed = Amps{15.01};
    CHECK(sized(single).needed);
}

TEST_CASE("strings that differ: what the others carry together") {
    StringFuseInput input = strings(10, 3, 20);
    input.others = amps(8, "I_2") + amps(12, "I_3");
    CHECK_FALSE(sized(input).needed);
    input.others = amps(8.01, "I_2") + amps(12, "I_3");
    CHECK(sized(input).needed);
    TestDesk desk;
    size_string_fuse(desk, input);
    CHECK(desk.line("backfeed").formula == "I_2 + I_3");
}

TEST_CASE("conductors decide as well") {
    StringFuseInput input = strings(12, 2, 25);
    input.conductor_ampacity = Amps{12};
    CHECK_FALSE(sized(input).needed);
    input.conductor_ampacity = Amps{11.99};
    CHECK(sized(input).needed);
    CHECK(sized(input).reason == "12 A can flow back, above the ampacity of 11.99 A");
}

TEST_CASE("without a label nothing is permitted to flow back") {
    StringFuseInput input = strings(12, 2, 0);
    input.module_fuse.reset();
    CHECK(sized(input).needed);
    CHECK(sized(input).reason == "12 A can flow back, and the module's label states no device");
    input.parallel = 1;
    CHECK_FALSE(sized(input).needed);
}

TEST_CASE("the line shows the current that flows back") {
    TestDesk desk;
    StringFuseInput input = strings(6.25, 4, 15);
    input.backfeed = Amps{2};
    size_string_fuse(desk, input);
    CHECK(desk.line("backfeed").formula == "(N_p − 1) × I_max + I_backfeed");
    CHECK(desk.line("backfeed").figures == "(4 − 1) × 6.25 A + 2 A");
    CHECK(desk.line("backfeed").result == "20.75 A");
    CHECK(text(desk.line("device_needed").cite) == "NEC 2023 690.9(A)(1)");
}

TEST_CASE("the next standard fuse up, within the label") {
    // Isc 9.6 A: 1.25 × 9.6 = 12 A; 1.25 × 12 = 15 A exactly (city's list of conditions).
    CHECK(sized(strings(12, 4, 20)).rating->value == Amps{15});
    CHECK(sized(strings(12.01, 4, 20)).rating->value == Amps{20});
    CHECK(sized(strings(12.01, 4, 20)).passes());
    CHECK(sized(strings(12, 4, 15)).passes());
    CHECK(sized(strings(12, 4, 15)).fuses == 4);
}

TEST_CASE("no fuse fits both the string and the module") {
    const auto result = sized(strings(12.01, 4, 15)); // needs 20 A, module takes 15 A
    CHECK(result.needed);
    CHECK(result.conflict);
    CHECK_FALSE(result.passes());
    CHECK(verdict_of(result.verdicts, "pv.overcurrent.module")->statement == "20 A > 15 A");
}

TEST_CASE("small fuses are standard, 10 A for breakers only since 2023") {
    CHECK(sized(strings(4.8, 4, 10), Edition::nec2017).rating->value == Amps{6});
    CHECK(sized(strings(4.81, 4, 10), Edition::nec2017).rating->value == Amps{10});
    CHECK(sized(strings(2.4, 12, 10), Edition::nec2020).rating->value == Amps{3});
    TestDesk breaker(Edition::nec2017);
    CHECK(overcurrent_rating(breaker, amps(6.01))->value == Amps{15});
}

TEST_CASE("a fuse among those that the combiner takes") {
    StringFuseInput input = strings(8, 4, 15); // needs 10 A
    input.offered = {Amps{15}, Amps{12}, Amps{20}};
    const auto result = sized(input);
    CHECK(result.rating->value == Amps{12});
    CHECK(result.passes());
    input.offered = {Amps{20}, Amps{25}};
    CHECK(sized(input).conflict); // 20 A is above the label
    input.offered = {Amps{8}};
    const auto none = sized(input);
    CHECK(none.conflict);
    CHECK_FALSE(none.rating);
    CHECK_FALSE(none.passes());
}

TEST_CASE("a stated fuse is judged, needed or not") {
    StringFuseInput input = strings(12, 4, 20);
    input.stated = Amps{15};
    CHECK(sized(input).passes());
    input.stated = Amps{14.99};
    CHECK_FALSE(verdict_of(sized(input).verdicts, "pv.overcurrent")->passes);
    input.stated = Amps{20};
    CHECK(sized(input).passes());
    input.stated = Amps{25};
    CHECK_FALSE(verdict_of(sized(input).verdicts, "pv.overcurrent.module")->passes);
    CHECK_FALSE(sized(input).conflict);
    input.parallel = 1;
    CHECK_FALSE(sized(input).needed);
    CHECK_FALSE(sized(input).passes());
    input.stated = Amps{16};
    CHECK(verdict_of(sized(input).verdicts, "overcurrent.standard")->statement ==
          "16 A is no standard rating, which fuses are permitted to have");
    CHECK(sized(input).passes());
    input.offered = {Amps{15}, Amps{20}};
    CHECK_FALSE(verdict_of(sized(input).verdicts, "equipment.limit")->passes);
}

TEST_CASE("one polarity throughout, and listed for PV") {
    StringFuseInput input = strings(12, 4, 15);
    CHECK(sized(input).fuses == 4);
    input.poles = FusedPoles::both;
    CHECK(sized(input).fuses == 8);
    CHECK(sized(input).passes());
    input.poles = FusedPoles::mixed;
    CHECK_FALSE(verdict_of(sized(input).verdicts, "pv.overcurrent.polarity")->passes);
    input.poles = FusedPoles::one;
    input.listed_for_pv = false;
    CHECK_FALSE(verdict_of(sized(input).verdicts, "pv.overcurrent.listed")->passes);
}

TEST_CASE("an assembly listed for its full rating takes 100 %") {
    StringFuseInput input = strings(15, 4, 15);
    input.assembly_at_full_rating = true;
    CHECK(sized(input).rating->value == Amps{15});
    CHECK(sized(input).passes());
    input.assembly_at_full_rating = false;
    CHECK(sized(input).conflict); // 18.75 A
}

TEST_CASE("most strings without fuses") {
    CHECK(most_strings_without_fuses(strings(7.5, 1, 15)) == 3); // two others: 15 A
    CHECK(most_strings_without_fuses(strings(7.51, 1, 15)) == 2);
    CHECK(most_strings_without_fuses(strings(15.01, 1, 15)) == 1);
    StringFuseInput input = strings(7.5, 1, 15);
    input.backfeed = Amps{7.5};
    CHECK(most_strings_without_fuses(input) == 2);
    input.backfeed = Amps{15}; // just the label: a string alone, with no other beside it
    CHECK(most_strings_without_fuses(input) == 1);
    input.backfeed = Amps{15.01};
    CHECK(most_strings_without_fuses(input) == 0);
    input.module_fuse.reset();
    CHECK(most_strings_without_fuses(input) == 0);
    input.backfeed.reset();
    CHECK(most_strings_without_fuses(input) == 1);
}

TEST_CASE("the paragraph of the exception by edition") {
    const auto cite = [](Edition edition) {
        TestDesk desk(edition);
        size_string_fuse(desk, strings(12, 2, 15));
        return text(desk.line("device_needed").cite);
    };
    CHECK(cite(Edition::nec2017) == "NEC 2017 690.9(A) Exception");
    CHECK(cite(Edition::nec2020) == "NEC 2020 690.9(A)(1)");
}

TEST_CASE("a string above all standard fuses finds none") {
    // 690.9(B): 1.25 x 5000 A = 6250 A; 240.6(A) ends at 6000 A.
    const auto result = sized(strings(5000, 3, 15));
    CHECK(result.conflict);
    CHECK_FALSE(result.passes());
    CHECK(first_fault(result.verdicts)->statement ==
          "no fuse offered carries 6250 A; standard fuses");
}

TEST_CASE("strings without fuses: the lesser of label and conductors is what there is room for") {
    StringFuseInput input = strings(10, 1, 30);
    CHECK(most_strings_without_fuses(input) == 4); // 3 others of 10 A
    input.conductor_ampacity = Amps{25};
    CHECK(most_strings_without_fuses(input) == 3);
    input.conductor_ampacity = Amps{40};
    CHECK(most_strings_without_fuses(input) == 4);
    input.backfeed = Amps{31};
    CHECK(most_strings_without_fuses(input) == 0);
    // Neither label nor current: one string, unless something else feeds into it.
    input.module_fuse.reset();
    CHECK(most_strings_without_fuses(input) == 0);
    input.backfeed = Amps{0};
    CHECK(most_strings_without_fuses(input) == 1);
    input.backfeed.reset();
    CHECK(most_strings_without_fuses(input) == 1);
    CHECK(most_strings_without_fuses(strings(0, 1, 30)) == 1);
}

TEST_CASE("a device that is needed and has no rating does not pass") {
    StringFuseResult result;
    result.needed = true;
    CHECK_FALSE(result.passes());
    result.needed = false;
    CHECK(result.passes());
    result.conflict = true;
    CHECK_FALSE(result.passes());
}
