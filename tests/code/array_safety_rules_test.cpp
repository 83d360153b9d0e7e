// Arc-fault and ground-fault protection. Thresholds: notes on the 2025 California Electrical Code
// (690.11), answers on its 2022 edition (690.41), a public index of the 2017 edition (690.41).
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

ProtectionResult arc(Edition edition, ArcFaultInput input, double volts) {
    TestDesk desk(edition);
    input.voltage = given("V_max", Volts{volts});
    return check_arc_fault(desk, input);
}

ProtectionResult ground(Edition edition, GroundFaultInput input, double volts, double current) {
    TestDesk desk(edition);
    input.voltage = given("V_max", Volts{volts});
    input.current = amps(current, "I_max");
    return check_ground_fault(desk, input);
}

} // namespace

TEST_CASE("arc-fault protection from 80 V on") {
    for (const Edition edition : all_editions) {
        CHECK_FALSE(arc(edition, {}, 79.99).required);
        CHECK(arc(edition, {}, 80).required);
        CHECK_FALSE(arc(edition, {}, 80).passes());
        CHECK(arc(edition, {.provided = true}, 80).passes());
    }
    CHECK(arc(Edition::nec2023, {}, 79.99).reason == "79.99 V is below 80 V");
}

TEST_CASE("away from buildings: 2017 lets output circuits go, 2020 every circuit") {
    ArcFaultInput string{.place = ArrayPlace::ground, .method = DcMethod::metal_raceway};
    ArcFaultInput output = string;
    output.output_circuit = true;
    CHECK(arc(Edition::nec2017, string, 600).required);
    CHECK_FALSE(arc(Edition::nec2017, output, 600).required);
    CHECK_FALSE(arc(Edition::nec2020, string, 600).required);
    CHECK_FALSE(arc(Edition::nec2023, string, 600).required);
    output.method = DcMethod::mc_cable;
    CHECK(arc(Edition::nec2017, output, 600).required);
    CHECK_FALSE(arc(Edition::nec2020, output, 600).required);
    output.method = DcMethod::exposed_singles;
    CHECK(arc(Edition::nec2023, output, 600).required);
    output.method = DcMethod::nonmetallic_raceway;
    CHECK(arc(Edition::nec2023, output, 600).required);
    output.method = DcMethod::underground;
    CHECK_FALSE(arc(Edition::nec2017, output, 600).required);
}

TEST_CASE("on a building no method does without arc-fault protection") {
    for (const ArrayPlace place : {ArrayPlace::dwelling, ArrayPlace::building})
        for (const DcMethod method : {DcMethod::metal_raceway, DcMethod::mc_cable,
                                      DcMethod::enclosed_tray, DcMethod::underground})
            CHECK(arc(Edition::nec2023, {.place = place, .output_circuit = true, .method = method},
                      80)
                      .required);
}

TEST_CASE("ground-fault protection above 30 V or 8 A, in 2017 always") {
    for (const Edition edition : {Edition::nec2020, Edition::nec2023}) {
        CHECK_FALSE(ground(edition, {}, 30, 8).required);
        CHECK(ground(edition, {}, 30.01, 8).required);
        CHECK(ground(edition, {}, 30, 8.01).required);
    }
    CHECK(ground(Edition::nec2017, {}, 30, 8).required);
    CHECK(ground(Edition::nec2017, {}, 0, 0).required); // 690.41(B) of 2017 names no threshold
    CHECK(ground(Edition::nec2023, {.provided = true}, 400, 12).passes());
    CHECK_FALSE(ground(Edition::nec2023, {}, 400, 12).passes());
}

TEST_CASE("two solidly grounded circuits away from buildings need none") {
    GroundFaultInput input{.place = ArrayPlace::ground, .parallel = 2, .solidly_grounded = true};
    for (const Edition edition : all_editions) {
        CHECK_FALSE(ground(edition, input, 400, 12).required);
        GroundFaultInput three = input;
        three.parallel = 3;
        CHECK(ground(edition, three, 400, 12).required);
        GroundFaultInput functional = input;
        functional.solidly_grounded = false;
        CHECK(ground(edition, functional, 400, 12).required);
        GroundFaultInput roof = input;
        roof.place = ArrayPlace::building;
        CHECK(ground(edition, roof, 400, 12).required);
    }
}

TEST_CASE("the line says whether, why and by which paragraph") {
    TestDesk desk(Edition::nec2017);
    check_ground_fault(desk, {.voltage = given("V_max", Volts{400}),
                              .current = amps(12, "I_max"),
                              .place = ArrayPlace::ground,
                              .solidly_grounded = true});
    CHECK(desk.line("ground_fault_needed").result ==
          "not required: solidly grounded, not more than 2 circuits, away from buildings");
    CHECK(text(desk.line("ground_fault_needed").cite) == "NEC 2017 690.41(B) Exception");
}
