// Grounding of arrays. Sources: solarprofessional.com practical application of 2017, page 5; a
// public index of the 2017 edition (690.41); Table 250.122.
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

TEST_CASE("only a solidly grounded array has a white conductor and an electrode conductor") {
    using enum ArrayGrounding;
    for (const ArrayGrounding kind :
         {functional, bipolar, through_inverter, ungrounded, equivalent}) {
        TestDesk desk(Edition::nec2017);
        const auto result = array_grounding(desk, kind);
        CHECK_FALSE(result.solidly_grounded);
        CHECK(result.poles_to_open == 2);
        CHECK(result.poles_with_devices == 1);
        CHECK_FALSE(result.white_conductor);
        CHECK_FALSE(result.electrode_conductor);
        CHECK(text(desk.line("array_electrode").cite) == "NEC 2017 690.47(A)(1)");
    }
    TestDesk desk(Edition::nec2017);
    const auto result = array_grounding(desk, solid);
    CHECK(result.solidly_grounded);
    CHECK(result.poles_to_open == 1);
    CHECK(result.white_conductor);
    CHECK(result.electrode_conductor);
    CHECK(text(desk.line("array_grounding").cite) == "NEC 2017 690.41(A)");
    CHECK(desk.line("array_grounding").result == "solidly grounded");
}

TEST_CASE("modules are bonded by what is listed for it") {
    const auto passes = [](const ModuleBonding& input) {
        TestDesk desk;
        return all_pass(check_module_bonding(desk, input));
    };
    CHECK(passes({true, true, true, true}));
    CHECK_FALSE(passes({true, false, true, true}));
    CHECK_FALSE(passes({true, true, false, true}));
    CHECK_FALSE(passes({true, true, true, false}));
    CHECK(passes({.metal_exposed = false}));
}

TEST_CASE("equipment ground by the device, or by one that is assumed") {
    const auto size = [](double current, std::optional<double> device) {
        TestDesk desk;
        ArrayGroundInput input{.current = amps(current, "I_max"),
                               .phase_needed = wire("8"),
                               .phase_installed = wire("8")};
        if (device)
            input.device = amps(*device, "I_ocpd");
        return size_array_ground(desk, input).size;
    };
    CHECK(size(12, 15) == wire("14"));
    CHECK(size(12, 20) == wire("12"));
    CHECK(size(12, 25) == wire("10"));
    CHECK(size(12, std::nullopt) == wire("14"));    // 1.25 × 12 = 15 A
    CHECK(size(12.01, std::nullopt) == wire("12")); // 15.01 A: 20 A
    CHECK(size(16, std::nullopt) == wire("12"));    // 20 A
    CHECK(size(16.01, std::nullopt) == wire("10")); // 25 A
    CHECK(size(3, std::nullopt) == wire("14"));     // never smaller
}

TEST_CASE("an assumed device is shown, and voltage does not enlarge the ground") {
    TestDesk desk;
    const auto result = size_array_ground(desk, {.current = amps(17.375, "I_max"),
                                                 .phase_needed = wire("12"),
                                                 .phase_installed = wire("6")});
    // 1.25 × 17.375 = 21.72 A: 25 A, 10 AWG; 6 AWG in place of 12 AWG changes nothing.
    CHECK(result.size == wire("10"));
    CHECK(desk.line("assumed_device").figures == "next standard rating ≥ 1.25 × 17.38 A");
    CHECK(desk.line("assumed_device").result == "25 A");
    CHECK(text(desk.line("assumed_device").cite) == "NEC 2023 690.45");
}

TEST_CASE("a stated equipment ground fails by one size") {
    const auto passes = [](const char* stated) {
        TestDesk desk;
        return size_array_ground(desk, {.current = amps(17.375, "I_max"),
                                        .phase_needed = wire("10"),
                                        .phase_installed = wire("10"),
                                        .stated = wire(stated)})
            .passes;
    };
    CHECK(passes("10"));
    CHECK_FALSE(passes("12"));
}

TEST_CASE("below 6 AWG the ground of an array is protected from damage") {
    const auto passes = [](const char* size, bool exposed, bool raceway) {
        TestDesk desk;
        return check_array_ground_protection(desk, wire(size), exposed, raceway).passes;
    };
    CHECK(passes("6", true, false));
    CHECK_FALSE(passes("8", true, false));
    CHECK(passes("8", true, true));
    CHECK(passes("8", false, false));
}

TEST_CASE("no device is assumed where none is made") {
    // 1.25 x 4801 A is above 6000 A, the last of 240.6(A).
    TestDesk desk, last;
    CHECK_THROWS_AS(size_array_ground(desk, {.current = amps(4801, "I_max"),
                                             .phase_needed = wire("500"),
                                             .phase_installed = wire("500")}),
                    std::logic_error);
    CHECK(size_array_ground(last, {.current = amps(4800, "I_max"),
                                   .phase_needed = wire("1000"),
                                   .phase_installed = wire("1000")})
              .size == wire("800")); // Table 250.122, 6000 A
}
