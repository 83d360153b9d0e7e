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

TEST_CASE("pieces of a line leave out the blanks between them") {
    CHECK(line_pieces("  two   blanks ") == Pieces{"two", "blanks"});
    CHECK(line_pieces("") == Pieces{});
    CHECK(line_pieces(" ") == Pieces{});
}
