#include "base/line_break.h"

#include "catch.h"

using namespace ohmfolio;

using Pieces = std::vector<std::string_view>;

// Common practice, no source: a value is written on one line with its unit.
TEST_CASE("a line does not break between a number and its unit") {
    CHECK(line_pieces("120 % of the busbar") == Pieces{"120 %", "of", "the", "busbar"});
    CHECK(line_pieces("within 250 ft, at -9 °C.") == Pieces{"within", "250 ft,", "at", "-9 °C."});
    CHECK(line_pieces("(2) 12 AWG (30 A)") == Pieces{"(2)", "12 AWG", "(30 A)"});
    CHECK(line_pieces("-0.26 %/°C") == Pieces{"-0.26 %/°C"});
    CHECK(line_pieces("in all cases, A or V") == Pieces{"in", "all", "cases,", "A", "or", "V"});
}

TEST_CASE("a line does not break between the code and its edition") {
    CHECK(line_pieces("NEC 2023 705.11") == Pieces{"NEC 2023", "705.11"});
    CHECK(line_pieces("of the NEC (NEC 2023)") == Pieces{"of", "the", "NEC", "(NEC 2023)"});
}

TEST_CASE("a line does not break within a count, nor before what numbers the last word") {
    CHECK(line_pieces("Cut sheet, 1 of 12") == Pieces{"Cut", "sheet,", "1 of 12"});
    CHECK(line_pieces("input of 64 A") == Pieces{"input", "of", "64 A"});
    CHECK(line_pieces("PV AC disconnect 2") == Pieces{"PV", "AC", "disconnect 2"});
    CHECK(line_pieces("2 boxes in panel 1 there") ==
          Pieces{"2", "boxes", "in", "panel", "1", "there"});
    CHECK(line_pieces("no less than 100") == Pieces{"no", "less", "than", "100"});
    CHECK(line_pieces("12") == Pieces{"12"});
}

TEST_CASE("pieces of a line leave out the blanks between them") {
    CHECK(line_pieces("  two   blanks ") == Pieces{"two", "blanks"});
    CHECK(line_pieces("") == Pieces{});
    CHECK(line_pieces(" ") == Pieces{});
}
