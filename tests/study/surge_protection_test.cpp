// Surge protection of dwellings, where this work sets service equipment or a panel: see
// tests/code/surge_rules_test.cpp for the sources.
#include "catch.h"

#include "example.h"

using namespace ohmfolio;
using namespace ohmfolio::example;

namespace {

const Change without{"surge_device = { type = \"Type 2\", discharge = \"20 kA\" }\n", ""};
const std::string new_service = "examples/tolliver-bend/ropewalk.toml";

Change with(const std::string& device) {
    return {without.from, "surge_device = { " + device + " }\n"};
}

} // namespace

TEST_CASE("a new panel of a dwelling without a surge-protective device is told") {
    CHECK(Case().finding("surge.feeder") == nullptr);
    const Case bare({without});
    const Finding* finding = bare.finding("surge.feeder", "equipment:BLP");
    REQUIRE(finding != nullptr);
    CHECK(finding->severity == Severity::warning);
    CHECK(finding->section == "NEC 2023 215.18(A)");
    CHECK(bare.finding("surge.service") == nullptr); // the service equipment stays as it was
    CHECK(Case({without}, Edition::nec2020).finding("surge.feeder") == nullptr);
}

TEST_CASE("a shop's panel needs none") {
    const Change shop{"occupancy = \"One-family dwelling, R-3\"", "occupancy = \"Mercantile, M\""};
    CHECK(Case({without, shop}).finding("surge.feeder") == nullptr);
}

TEST_CASE("nominal discharge current of the device") {
    const Case low({with("type = \"Type 2\", discharge = \"9.9 kA\"")});
    REQUIRE(low.finding("surge.feeder.discharge") != nullptr);
    CHECK(low.finding("surge.feeder.discharge")->severity == Severity::violation);
    CHECK(Case({with("type = \"Type 1\", discharge = \"10 kA\"")})
              .finding("surge.feeder.discharge") == nullptr);
    CHECK(Case().study.derivation("BLP.surge_discharge").figures == "20 kA ≥ 10 kA");
    const Case unstated({with("type = \"Type 2\"")});
    REQUIRE(unstated.finding("surge.feeder.discharge") != nullptr);
    CHECK(unstated.finding("surge.feeder.discharge")->severity == Severity::warning);
}

TEST_CASE("new service equipment of a dwelling has a device") {
    CHECK(Case(new_service, {}).finding("surge.service") == nullptr);
    const Case bare(new_service, {without});
    REQUIRE(bare.finding("surge.service", "equipment:MSP") != nullptr);
    CHECK(bare.finding("surge.service")->severity == Severity::warning);
}
