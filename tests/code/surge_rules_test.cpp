// Surge protection of dwellings. 230.67 is new in 2020, 215.18 and the 10 kA are new in 2023:
// electricallicenserenewal.com sectionID=1440, expertce.com (2023), mynfpa70.com 215-18,
// nyeia.com 3364.
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

TEST_CASE("a dwelling's service has a surge-protective device since 2020") {
    TestDesk old(Edition::nec2017), desk(Edition::nec2020), bare(Edition::nec2020);
    CHECK_FALSE(check_surge_device(old, SurgePlace::service, ""));
    const auto there = check_surge_device(desk, SurgePlace::service, "Type 2, in MSP");
    REQUIRE(there);
    CHECK(there->passes);
    CHECK(text(desk.line("surge_device").cite) == "NEC 2020 230.67(A)");
    const auto missing = check_surge_device(bare, SurgePlace::service, "");
    REQUIRE(missing);
    CHECK_FALSE(missing->passes);
    CHECK(missing->statement == "no surge-protective device is stated");
}

TEST_CASE("what a feeder supplies has one since 2023") {
    TestDesk old(Edition::nec2020), desk, bare;
    CHECK_FALSE(check_surge_device(old, SurgePlace::feeder, ""));
    CHECK(check_surge_device(desk, SurgePlace::feeder, "Type 1, in BLP")->passes);
    CHECK_FALSE(check_surge_device(bare, SurgePlace::feeder, "")->passes);
    CHECK(text(bare.line("surge_device").cite) == "NEC 2023 215.18(A)");
}

TEST_CASE("its nominal discharge current is at least 10 kA since 2023") {
    for (const SurgePlace place : {SurgePlace::service, SurgePlace::feeder}) {
        TestDesk old(Edition::nec2020), exact, below, unstated;
        CHECK_FALSE(check_surge_discharge(old, place, amps(5'000, "I_n")));
        CHECK(check_surge_discharge(exact, place, amps(10'000, "I_n"))->passes);
        CHECK_FALSE(check_surge_discharge(below, place, amps(9'999, "I_n"))->passes);
        const auto verdict = check_surge_discharge(unstated, place, {});
        REQUIRE(verdict);
        CHECK_FALSE(verdict->passes);
        CHECK(verdict->statement == "its nominal discharge current is not stated");
        CHECK(exact.line("surge_discharge").comparison == "10 kA ≥ 10 kA");
        CHECK(below.line("surge_discharge").comparison == "9.999 kA < 10 kA");
        CHECK(text(exact.line("surge_discharge").cite) ==
              (place == SurgePlace::service ? "NEC 2023 230.67(E)" : "NEC 2023 215.18(E)"));
    }
}
