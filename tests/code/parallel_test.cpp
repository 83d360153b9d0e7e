// Conductors in parallel. Ampacities by hand from the published table in tests/data.
#include <algorithm>

#include "catch.h"
#include "try_conductor.h"

using namespace ohmfolio;

TEST_CASE("parallel: 1/0 AWG is the smallest") {
    auto input = load(100, 125);
    input.sets_in_parallel = 2;
    CHECK(sized(input).size == wire("1/0"));
    CHECK(sized(input).governs == "smallest size in parallel governs");
    input.stated = wire("1/0");
    CHECK(sized(input).passes);
    input.stated = wire("1");
    const auto small = sized(input);
    CHECK(small.fault_rules == std::vector<std::string>{"conductor.parallel"});
    CHECK(small.faults == std::vector<std::string>{"1 AWG in parallel is smaller than 1/0 AWG"});
    CHECK(small.smallest_that_complies == wire("1/0"));
    // One set may be as small as it likes.
    input.sets_in_parallel = 1;
    input.stated = wire("1");
    CHECK_FALSE(fails(sized(input), "conductor.parallel"));
}

TEST_CASE("parallel: the sets carry the current together, each under its own factors") {
    // 600 A of 480 A continuous: two sets of 350 kcmil copper have 2 x 310 = 620 A at 75 C; with
    // six in one raceway 2 x 350 x 0.8 = 560 A: 600 A is the next rating above. 300 kcmil has 570.
    TestDesk desk(Edition::nec2020);
    auto input = load(480, 600);
    input.sets_in_parallel = 2;
    input.current_carrying = 6;
    const auto result = size_conductor(desk, input);
    CHECK(result.size == wire("350"));
    CHECK(result.ampacity == Amps{560});
    CHECK(desk.line("terminals_check").formula == "2 × I_term ≥ I_req");
    CHECK(desk.line("terminals_check").figures == "2 × 310 A ≥ 600 A");
    CHECK(desk.line("corrected_check").formula == "2 × I_cor ≥ I_cont");
    CHECK(desk.line("ampacity_each").formula == "lesser of I_cor and I_term");
    CHECK(desk.line("ampacity").formula == "2 × I_each");
    CHECK(desk.line("largest_device").result == "600 A");
    CHECK(desk.line("size").result == "2 sets of 350 kcmil CU");
    CHECK(text(desk.line("parallel_check").cite) == "NEC 2020 310.10(G)");
}

TEST_CASE("parallel: above 800 A the ampacity is not rounded up") {
    // Three sets of 500 kcmil: 1140 A, below a device of 1200 A; of 600 kcmil: 1260 A.
    auto input = load(900, 1200);
    input.required = amps(1125, "I_req");
    input.sets_in_parallel = 3;
    input.stated = wire("500");
    CHECK(sized(input).fault_rules == std::vector<std::string>{"conductor.protection.large"});
    input.stated = wire("600");
    CHECK(sized(input).passes);
    // Two sets of 500 kcmil, 760 A: 800 A is the last that may be rounded up to.
    input = load(600, 800);
    input.sets_in_parallel = 2;
    input.stated = wire("500");
    CHECK(sized(input).passes);
    input.overcurrent = amps(801, "I_ocpd");
    CHECK_FALSE(sized(input).passes);
}

TEST_CASE("parallel: an equipment ground of the full size in each raceway") {
    // engineerboards.com 4390: by the device, in each raceway. 400 A: 3 AWG copper.
    TestDesk desk(Edition::nec2017), large;
    const auto result = size_equipment_ground(desk, {.overcurrent = amps(400, "I_ocpd"),
                                                     .phase_needed = wire("3/0"),
                                                     .phase_installed = wire("3/0"),
                                                     .parallel_sets = 2,
                                                     .separate_raceways = true});
    CHECK(result.size == wire("3"));
    CHECK(result.count == 2);
    CHECK(desk.line("equipment_ground").title ==
          "Equipment grounding conductor, one in each of 2 raceways");
    CHECK(text(desk.line("equipment_ground").cite) == "NEC 2017 250.122(F)");
    // 2000 A of ten sets of 3/0: 250 kcmil, though each phase conductor is smaller.
    CHECK(size_equipment_ground(large, {.overcurrent = amps(2000, "I_ocpd"),
                                        .phase_needed = wire("3/0"),
                                        .phase_installed = wire("3/0"),
                                        .parallel_sets = 10,
                                        .separate_raceways = true})
              .size == wire("250"));
}
