// Sources on the supply side of the service disconnect. By hand.
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

/// A 60 A disconnect for 48 A on a 200 A service, everything stated.
SupplySideInput connection() {
    return {.route = SupplyRoute::ahead_of_disconnect,
            .service = amps(200, "I_service"),
            .sources = amps(48, "I_src"),
            .connected = amps(48, "I_src"),
            .conductor = wire("6"),
            .ampacity = amps(65, "I_z"),
            .device = amps(60, "I_d"),
            .place = {.length = Feet{10}, .readily_accessible = true, .with_disconnect = true},
            .connectors_suitable = true,
            .service_rated = true,
            .opens_all = true,
            .bonded_as_service = true};
}

RuleVerdicts checked(const SupplySideInput& input, Edition edition = Edition::nec2023) {
    TestDesk desk(edition);
    return check_supply_side(desk, input);
}

} // namespace

TEST_CASE("a supply-side connection with everything stated passes in every edition") {
    for (const Edition edition : all_editions) {
        INFO(name(edition));
        CHECK(all_pass(checked(connection(), edition)));
    }
}

TEST_CASE("sources of the service do not exceed it") {
    auto input = connection();
    input.sources = amps(200, "I_src");
    for (const Edition edition : all_editions)
        CHECK(all_pass(checked(input, edition)));
    input.sources = amps(200.1, "I_src");
    for (const Edition edition : all_editions)
        CHECK(fails(checked(input, edition), "supply.sum"));
}

TEST_CASE("6 AWG copper and 4 AWG aluminum since 2020") {
    auto input = connection();
    input.connected = amps(20, "I_src");
    input.device = amps(25, "I_d");
    input.conductor = wire("8");
    CHECK_FALSE(fails(checked(input, Edition::nec2017), "supply.conductor"));
    CHECK(fails(checked(input, Edition::nec2020), "supply.conductor"));
    CHECK(fails(checked(input, Edition::nec2023), "supply.conductor"));
    input.conductor = wire("6");
    CHECK_FALSE(fails(checked(input, Edition::nec2020), "supply.conductor"));
    input.material = Material::aluminum;
    CHECK(fails(checked(input, Edition::nec2023), "supply.conductor"));
    input.conductor = wire("4");
    CHECK_FALSE(fails(checked(input, Edition::nec2023), "supply.conductor"));
    CHECK_FALSE(smallest_supply_conductor(CodeBook(Edition::nec2017), Material::copper));
}

TEST_CASE("conductors and device carry 125 % of the sources") {
    auto input = connection();
    input.connected = amps(48.1, "I_src"); // 60.1 A
    CHECK(fails(checked(input), "source.overcurrent"));
    input.connected = amps(48, "I_src");
    input.ampacity = amps(59.9, "I_z");
    CHECK(fails(checked(input), "source.conductor.continuous"));
    input.ampacity = amps(60, "I_z");
    CHECK(all_pass(checked(input)));
}

TEST_CASE("distance of the device: 10 ft, in 2020 16.5 ft outside dwellings, since 2023 none") {
    auto input = connection();
    const auto at = [&](double feet, bool dwelling, Edition edition) {
        input.place.length = Feet{feet};
        input.dwelling = dwelling;
        return !fails(checked(input, edition), "supply.distance");
    };
    CHECK(at(10, true, Edition::nec2017));
    CHECK_FALSE(at(10.1, true, Edition::nec2017));
    CHECK(at(10, false, Edition::nec2017));
    CHECK_FALSE(at(10.1, false, Edition::nec2017));
    CHECK(at(10, true, Edition::nec2020));
    CHECK_FALSE(at(10.1, true, Edition::nec2020));
    CHECK(at(16.5, false, Edition::nec2020));
    CHECK_FALSE(at(16.6, false, Edition::nec2020));
    CHECK(at(100, true, Edition::nec2023));
}

TEST_CASE("farther by limiters in 2017, under supervision in 2020") {
    auto input = connection();
    input.dwelling = false;
    input.place.length = Feet{66};
    input.place.limiters = true;
    CHECK(all_pass(checked(input, Edition::nec2017)));
    CHECK_FALSE(all_pass(checked(input, Edition::nec2020)));
    input.place.limiters = false;
    input.place.engineered_by = "study 12";
    CHECK(all_pass(checked(input, Edition::nec2020)));
    CHECK_FALSE(all_pass(checked(input, Edition::nec2017)));
    input.place.length = Feet{66.1};
    CHECK(fails(checked(input, Edition::nec2020), "supply.distance.engineered"));
    input.place.length = Feet{66};
    input.dwelling = true; // not for dwellings
    CHECK(fails(checked(input, Edition::nec2020), "supply.distance"));
}

TEST_CASE("a connection outside asks for a place since 2020, the 2023 edition for the disconnect") {
    auto input = connection();
    input.place = {.length = Feet{40}, .connection_outside = true, .readily_accessible = true};
    CHECK(fails(checked(input, Edition::nec2017), "supply.distance"));
    CHECK(all_pass(checked(input, Edition::nec2020)));
    CHECK(fails(checked(input, Edition::nec2023), "supply.device"));
    input.place.readily_accessible = false;
    CHECK(fails(checked(input, Edition::nec2020), "supply.distance.outside"));
    input.place.with_disconnect = true;
    CHECK(all_pass(checked(input, Edition::nec2023)));
}

TEST_CASE("what is not stated is told") {
    auto input = connection();
    input.route = SupplyRoute::not_stated;
    input.connectors_suitable = false;
    input.service_rated = false;
    input.bonded_as_service = false;
    const auto result = checked(input);
    CHECK(fails(result, "supply.route"));
    CHECK(fails(result, "supply.disconnect"));
    CHECK(fails(result, "supply.bonding"));
    CHECK(fails(result, "supply.connection"));
    CHECK_FALSE(fails(checked(input, Edition::nec2017), "supply.connection"));
    CHECK(first_fault(result)->statement == "not stated: how the sources reach the service");
    TestDesk desk;
    check_supply_side(desk, connection());
    CHECK(text(desk.line("supply_disconnect_service").cite) == "NEC 2023 705.11(D)");
    CHECK(desk.line("supply_route").comparison ==
          "stated: on the supply side of the service disconnect, 230.82(6)");
}

TEST_CASE("a meter-socket adapter is a supply-side connection with a rating of its own") {
    auto input = connection();
    input.adapter = amps(60, "I_adapter");
    input.adapter_listed = true;
    CHECK(all_pass(checked(input)));
    input.adapter = amps(50, "I_adapter");
    CHECK(fails(checked(input), "supply.adapter"));
    input.adapter = amps(60, "I_adapter");
    input.adapter_listed = false;
    CHECK(fails(checked(input), "supply.adapter"));
}

TEST_CASE("the three ways to the service, each with its paragraph") {
    // 705.11(A) of 2023 sends to 230.82(6), 230.2(A) and 230.40 Exception No. 5.
    const auto told = [](SupplyRoute route) {
        auto input = connection();
        input.route = route;
        const auto verdicts = checked(input);
        const auto* verdict = verdict_of(verdicts, "supply.route");
        REQUIRE(verdict);
        CHECK(verdict->passes == (route != SupplyRoute::not_stated));
        return verdict->statement;
    };
    const auto ends = [&](SupplyRoute route, const char* end) {
        return told(route).ends_with(end);
    };
    CHECK(ends(SupplyRoute::ahead_of_disconnect, "230.82(6)"));
    CHECK(ends(SupplyRoute::new_service, "a service of their own, 230.2(A)"));
    CHECK(ends(SupplyRoute::own_entrance_conductors, "230.40 Exception No. 5"));
    CHECK(ends(SupplyRoute::not_stated, "how the sources reach the service"));
}
