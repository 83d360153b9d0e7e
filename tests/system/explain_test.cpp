/// explain: how any number came about.
#include "catch.h"
#include "packet.h"

using namespace ohmfolio::test;

namespace {

std::string explained(const std::string& id) {
    const Outcome outcome = run_ohmfolio({"explain", ashgrove().string(), id});
    CAPTURE(id, outcome.err);
    CHECK(outcome.exit_code == 0);
    CHECK(outcome.err.empty());
    return flattened(outcome.out);
}

void check_holds(const std::string& id, const std::vector<std::string>& parts) {
    const std::string text = explained(id);
    CAPTURE(text);
    for (const std::string& part : parts) {
        CAPTURE(part);
        CHECK(text.find(flattened(part)) != std::string::npos);
    }
}

} // namespace

// Figures by hand from the description and catalogue of the example.

TEST_CASE("explain a conductor: current, 125 %, cable, ground, down to the nameplate") {
    // Six microinverters of 1.42 A.
    check_holds("C3", {"C3: PV-3 to JB-2", "6 × 1.42 A = 8.52 A", "1.25 × 8.52 A = 10.65 A",
                       "10.65 A ≤ 20 A", "NEC 2023 705.28(B)", "NEC 2023 690.8(A)(1)(c)",
                       "Wickhollow WM-340, nameplate", "Table 250.122"});
}

TEST_CASE("explain a conductor in a raceway down to rows of tables") {
    // All 28 microinverters: 39.76 A. 8 AWG copper has 50 A at 75 °C in Table 310.16.
    check_holds("C10", {"11.36 A + 11.36 A + 8.52 A + 8.52 A = 39.76 A", "1.25 × 39.76 A = 49.70 A",
                        "Table 310.16", "8 AWG", "NEC 2023 110.14(C)(1)(a)", "NEC 2023 310.15"});
}

TEST_CASE("explain a breaker") {
    check_holds("Q2", {"8 × 1.42 A = 11.36 A", "1.25 × 11.36 A = 14.20 A", "20 A",
                       "NEC 2023 240.6(A)", "NEC 2023 705.30(B)"});
}

TEST_CASE("explain a panel: every rule of connection that was tried") {
    // Loads 50 A and 40 A, the device 100 A: 190 A on a bus of 200 A.
    check_holds("MSP", {"NEC 2023 705.12(B)(1)", "NEC 2023 705.12(B)(2)", "NEC 2023 705.12(B)(3)",
                        "190 A ≤ 200 A", "Dunmere DP-200, nameplate"});
}

TEST_CASE("explain a raceway down to its tables") {
    check_holds("R3", {"R3: CP-1 to SW-1", "÷", "NEC 2023 Ch. 9 Table 1", "Table 5", "Table 4"});
}

TEST_CASE("explain one derivation by its id") {
    check_holds("C3.current", {"N × I_inv = 6 × 1.42 A = 8.52 A", "NEC 2023 690.8(A)(1)(c)"});
}

TEST_CASE("every tag and derivation of the report can be explained (at length)") {
    const Json& report = example_packet().report();
    std::vector<std::string> ids{"C1", "Q8"};
    for (const char* kind : {"circuits", "breakers", "raceways"}) {
        for (const Json& part : report.at(kind)) {
            ids.push_back(part.at("tag"));
        }
    }
    for (const Json& equipment : report.at("equipment")) {
        ids.push_back(equipment.at("id"));
    }
    // Each twentieth: a run of the program each.
    for (std::size_t i = 0; i < report.at("derivations").size(); i += 20) {
        ids.push_back(report.at("derivations")[i].at("id"));
    }
    for (const std::string& id : ids) {
        CAPTURE(id);
        CHECK(has_word(explained(id), flattened(id)));
    }
}

TEST_CASE("what nothing is called, and the nearest that something is") {
    for (const auto& [wrong, near] : std::vector<std::pair<std::string, std::string>>{
             {"C33", "C3"}, {"MSQ", "MSP"}, {"C3.curent", "C3.current"}}) {
        const Outcome outcome = run_ohmfolio({"explain", ashgrove().string(), wrong});
        CAPTURE(wrong, outcome.err);
        CHECK(outcome.exit_code == 2);
        CHECK(outcome.out.empty());
        CHECK(outcome.err.find("\"" + wrong + "\"") != std::string::npos);
        CHECK(outcome.err.find("did you mean \"" + near) != std::string::npos);
    }
    const Outcome nameless = run_ohmfolio({"explain", ashgrove().string(), ""});
    CHECK(nameless.exit_code == 2);
    CHECK(nameless.out.empty());
}
