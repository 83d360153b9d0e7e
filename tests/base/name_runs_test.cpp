#include "base/name_runs.h"

#include "catch.h"

using namespace ohmfolio;

TEST_CASE("numbered names that count up are written as first and last") {
    CHECK(runs({"Q1", "Q2", "Q3", "Q4"}, "-") == "Q1-Q4");
    CHECK(runs({"PV-9", "PV-10", "PV-11"}, " to ") == "PV-9 to PV-11");
    CHECK(runs({"C1", "C2"}, "-") == "C1, C2");
    CHECK(runs({"C1", "C3", "C5"}, "-") == "C1, C3, C5");
    CHECK(runs({"C16 (E)"}, "-") == "C16 (E)");
    CHECK(runs({}, "-").empty());
}

TEST_CASE("names past a few pieces are counted") {
    CHECK(runs({"C1", "C3", "C5", "C7", "C9", "C11", "C13"}, "-") == "C1, C3, C5, and 4 more");
    CHECK(runs({"PV-1", "PV-3", "PV-5", "PV-17", "PV-19"}, "-") == "PV-1, PV-3, PV-5, and 2 more");
}

TEST_CASE("numbers that do not follow on stay apart") {
    CHECK(runs({"A1", "B2", "C3"}, "-") == "A1, B2, C3");
    CHECK(runs({"A01", "A02", "A03"}, "-") == "A01, A02, A03"); // not how such names are counted
}

TEST_CASE("names of several stems are put in counting order") {
    CHECK(runs({"A-1", "B-1", "A-2", "B-2", "A-3", "B-3"}, " to ") == "A-1 to A-3, B-1 to B-3");
    CHECK(runs({"C10", "C8", "C9"}, "-") == "C8-C10");
}

TEST_CASE("names are not counted where telling them is as short, nor one alone") {
    CHECK(runs({"C1", "C3", "C5", "C7"}, "-") == "C1, C3, C5, C7");
    CHECK(runs({"C1", "C3", "C5", "C7", "C9"}, "-") == "C1, C3, C5, C7, C9");
    CHECK(runs({"A1", "A2", "A3", "C1", "C3", "C5"}, "-") == "A1-A3, C1, C3, C5");
    CHECK(runs({"ROOF-1", "ROOF-3", "ROOF-5", "ROOF-10007"}, "-") ==
          "ROOF-1, ROOF-3, ROOF-5, ROOF-10007");
}
