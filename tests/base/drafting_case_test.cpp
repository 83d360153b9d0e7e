#include "catch.h"

#include "base/drafting_case.h"

using ohmfolio::drafting_case;

TEST_CASE("lettering is upper case but for units") {
    CHECK(drafting_case("Array of 11.34 kW DC, 20.16 kWh") == "ARRAY OF 11.34 kW DC, 20.16 kWh");
    CHECK(drafting_case("250 kcmil, 22 kAIC/10kA") == "250 kcmil, 22 kAIC/10kA");
    CHECK(drafting_case("37 °C, 46 ft, 0.304 in²") == "37 °C, 46 ft, 0.304 in²");
}

TEST_CASE("in is a unit behind a number and a word elsewhere") {
    CHECK(drafting_case("1 in above roof") == "1 in ABOVE ROOF");
    CHECK(drafting_case("4.0 x 2.0 in, capitals 3/16 in") == "4.0 X 2.0 in, CAPITALS 3/16 in");
    CHECK(drafting_case("30 s is within 30 s") == "30 s IS WITHIN 30 s");
    CHECK(drafting_case("shared in R1, Q7 in MSP") == "SHARED IN R1, Q7 IN MSP");
    CHECK(drafting_case("80 A in all") == "80 A IN ALL");
}

TEST_CASE("quantities of a module keep their letters") {
    CHECK(drafting_case("Voc 37.2 V, Isc 13.85 A (Vmp, Imp)") ==
          "Voc 37.2 V, Isc 13.85 A (Vmp, Imp)");
}

TEST_CASE("paragraph letters keep their case") {
    CHECK(drafting_case("NEC 2023 690.8(A)(1)(c)") == "NEC 2023 690.8(A)(1)(c)");
    CHECK(drafting_case("705.12(b)") == "705.12(b)");
    CHECK(drafting_case("equipment (e) stays") == "EQUIPMENT (E) STAYS");
}
