// The optional methods for dwellings, step by step. Arithmetic by hand.
#include <random>

#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

Term<Watts> va(double value, const char* name = "load") {
    return nameplate_load(name, Watts{value});
}

ServiceInput service(double rating) { return {.rating = amps(rating, "I_service")}; }

/// 1000 ft² and two small-appliance circuits: 3000 + 4500 = 7500 VA, and what the appliances add.
GeneralLoads house(double appliances) {
    return {.floor = SquareFeet{1000}, .appliances = {va(appliances)}};
}

double optional_load(const OptionalInput& input, Edition edition = Edition::nec2023) {
    TestDesk desk(edition);
    return optional_dwelling_load(desk, input, {}).load.value.value;
}

double existing_load(const ExistingInput& input) {
    TestDesk desk;
    return existing_dwelling_load(desk, input, {}).load.value.value;
}

} // namespace

TEST_CASE("optional method: the first 10 kVA whole, then 40 %") {
    for (const Edition edition : all_editions) {
        CHECK(optional_load({.general = house(2500)}, edition) == Approx(10000)); // 10 000 exactly
        CHECK(optional_load({.general = house(2600)}, edition) == Approx(10040)); // + 0.4 × 100
        CHECK(optional_load({.general = house(1000)}, edition) == Approx(8500));
    }
    TestDesk desk;
    optional_dwelling_load(desk, {.general = house(2600)}, service(100));
    CHECK(desk.line("optional_demand").formula == "10 kVA + 0.4 × (S_general − 10 kVA)");
    CHECK(desk.line("optional_demand").figures == "10 kVA + 0.4 × (10.1 kVA − 10 kVA)");
    CHECK(desk.line("optional_floor").figures == "3 VA/ft² × 1000 ft²");
    CHECK(text(desk.line("optional_floor").cite) == "NEC 2023 220.41");
    CHECK(desk.line("optional_circuits").figures == "1.5 kVA × (2 + 1)");
}

TEST_CASE("optional method: its conditions") {
    const auto applies = [](OptionalInput input, double rating) {
        TestDesk desk;
        return optional_dwelling_load(desk, input, service(rating)).applies;
    };
    CHECK(applies({.general = house(0)}, 100));
    CHECK_FALSE(applies({.general = house(0)}, 99));
    CHECK_FALSE(applies({.general = house(0), .one_dwelling_unit = false}, 200));
    CHECK_FALSE(applies({.general = house(0), .three_wire = false}, 200));
    TestDesk desk;
    const auto result = optional_dwelling_load(desk, {.general = house(0)}, service(90));
    CHECK(result.reason == "the optional method is for 100 A or more: 90 A < 100 A");
    CHECK_FALSE(result.passes);
}

TEST_CASE("optional method: the six ways of heating and cooling") {
    const auto climate = [](const ClimateLoads& loads) {
        return optional_load({.general = house(0), .climate = loads}) - 7500;
    };
    CHECK(climate({}) == Approx(0));
    CHECK(climate({.cooling = va(5000)}) == Approx(5000));
    CHECK(climate({.heat_pump = va(6000)}) == Approx(6000));
    // 6000 + 0.65 × 10 000; the compressor alone where the two cannot run together.
    CHECK(climate({.heat_pump = va(6000), .supplemental_heat = va(10000)}) == Approx(12500));
    CHECK(climate({.heat_pump = va(6000),
                   .supplemental_heat = va(10000),
                   .compressor_locked_out = true}) == Approx(6500));
    CHECK(climate({.heat_pump = va(6000),
                   .supplemental_heat = va(5000),
                   .compressor_locked_out = true}) == Approx(6000));
    // Three units at 65 %, four at 40 %.
    CHECK(climate({.space_heating = va(10000), .space_heating_units = 3}) == Approx(6500));
    CHECK(climate({.space_heating = va(10000), .space_heating_units = 4}) == Approx(4000));
    CHECK(climate({.thermal_storage = va(7000)}) == Approx(7000));
    // The largest counts, by the smallest step.
    CHECK(climate({.cooling = va(6499), .space_heating = va(10000)}) == Approx(6500));
    CHECK(climate({.cooling = va(6501), .space_heating = va(10000)}) == Approx(6501));
}

TEST_CASE("optional method: vehicles among the appliances or whole") {
    GeneralLoads general = house(2500);
    general.vehicles = {va(7200, "EV")};
    CHECK(optional_load({.general = general}) == Approx(10000 + 0.4 * 7200));
    general.vehicles_whole = true;
    CHECK(optional_load({.general = general}) == Approx(10000 + 7200));
}

TEST_CASE("existing dwelling: the first 8 kVA whole, then 40 %") {
    CHECK(existing_load({.general = house(500)}) == Approx(8000));
    CHECK(existing_load({.general = house(600)}) == Approx(8040));
    TestDesk desk;
    existing_dwelling_load(desk, {.general = house(600)}, service(100));
    CHECK(text(desk.line("existing_demand").cite) == "NEC 2023 220.83(A)");
}

TEST_CASE("existing dwelling: heating and cooling that is there, and that is added") {
    const ClimateLoads climate{.cooling = va(5000), .space_heating = va(4000)};
    // (A): the larger of the two is an appliance: 8000 + 0.4 × (7500 + 5000 − 8000).
    CHECK(existing_load({.general = house(0), .climate = climate}) == Approx(9800));
    // (B): it counts whole beside the rest: 7500 + 5000.
    CHECK(existing_load({.general = house(0), .climate = climate, .climate_added = true}) ==
          Approx(12500));
    TestDesk desk;
    existing_dwelling_load(desk, {.general = house(0), .climate = climate, .climate_added = true},
                           service(100));
    CHECK(text(desk.line("existing_load").cite) == "NEC 2023 220.83(B)");
    // Four units and more are other loads: 8000 + 0.4 × (7500 + 9000 − 8000).
    const ClimateLoads rooms{.space_heating = va(9000), .space_heating_units = 4};
    CHECK(existing_load({.general = house(0), .climate = rooms, .climate_added = true}) ==
          Approx(11400));
    const ClimateLoads fewer{.space_heating = va(9000), .space_heating_units = 3};
    CHECK(existing_load({.general = house(0), .climate = fewer, .climate_added = true}) ==
          Approx(16500));
    // A heat pump with its supplement, together or locked out: 7500 + 6000 + 4000; 7500 + 6000.
    ClimateLoads pump{.heat_pump = va(6000), .supplemental_heat = va(4000)};
    CHECK(existing_load({.general = house(0), .climate = pump, .climate_added = true}) ==
          Approx(17500));
    pump.compressor_locked_out = true;
    CHECK(existing_load({.general = house(0), .climate = pump, .climate_added = true}) ==
          Approx(13500));
}

TEST_CASE("existing dwelling: the service by the smallest step") {
    // 8000 + 0.4 × (7500 + X − 8000) = 24 000 at X = 40 500; 120 VA more round to 101 A.
    TestDesk fits, above;
    CHECK(existing_dwelling_load(fits, {.general = house(40500)}, service(100)).passes);
    CHECK_FALSE(existing_dwelling_load(above, {.general = house(40800)}, service(100)).passes);
}

TEST_CASE("a load that is added never lowers the demand, a larger service never fails") {
    std::mt19937 engine{220};
    const auto tens = [&engine](int most) {
        return 10.0 * static_cast<double>(engine() % unsigned(most));
    };
    for (int i = 0; i < 300; ++i) {
        GeneralLoads general{.floor = SquareFeet{tens(400)}, .appliances = {va(tens(3000))}};
        const ClimateLoads climate{.cooling = va(tens(1000)),
                                   .space_heating = va(tens(2000)),
                                   .space_heating_units = 1 + i % 6};
        const bool added = i % 2 == 0;
        const OptionalInput one{.general = general, .climate = climate};
        const ExistingInput other{.general = general, .climate = climate, .climate_added = added};
        OptionalInput one_more = one;
        ExistingInput other_more = other;
        const auto extra = va(tens(1200), "extra");
        one_more.general.appliances.push_back(extra);
        other_more.general.appliances.push_back(extra);
        CHECK(optional_load(one_more) >= optional_load(one));
        CHECK(existing_load(other_more) >= existing_load(other));
        one_more.climate.cooling = *climate.cooling + extra;
        other_more.climate.cooling = *climate.cooling + extra;
        CHECK(optional_load(one_more) >= optional_load(one));
        CHECK(existing_load(other_more) >= existing_load(other));
        TestDesk smaller, larger;
        const double rating = 100 + tens(20);
        if (optional_dwelling_load(smaller, one, service(rating)).passes)
            CHECK(optional_dwelling_load(larger, one, service(rating + tens(10))).passes);
    }
}

TEST_CASE("supplemental heat that cannot run with the compressor counts alone") {
    // 220.82(C)(4): with the heat pump locked out only the supplemental heat, at 65 %.
    OptionalInput input{.general = house(2500),
                        .climate = {.heat_pump = va(5000), .supplemental_heat = va(10000)}};
    CHECK(optional_load(input) == Approx(10000 + 5000 + 6500));
    input.climate.compressor_locked_out = true;
    CHECK(optional_load(input) == Approx(10000 + 6500));
    // Electric heat without a heat pump before it.
    input.climate = {.supplemental_heat = va(10000)};
    CHECK(optional_load(input) == Approx(10000 + 6500));
}

TEST_CASE("vehicles whole are those that there are") {
    OptionalInput input{.general = house(2500)};
    input.general.vehicles_whole = true;
    CHECK(optional_load(input) == Approx(10000));
    input.general.vehicles = {va(7200, "car")};
    CHECK(optional_load(input) == Approx(17200));
}

TEST_CASE("existing dwelling: its conditions, and heating that stores") {
    // 220.83: 8 kVA whole, the rest at 40 %. 7500 + 500 = 8000 VA; 4 kVA of stored heat at 100 %
    // on top where it is added, at 40 % of it where it was there.
    ExistingInput input{.general = house(500), .climate = {.thermal_storage = va(4000)}};
    CHECK(existing_load(input) == Approx(8000 + 0.4 * 4000));
    input.climate_added = true;
    CHECK(existing_load(input) == Approx(8000 + 4000));
    input.three_wire = false;
    TestDesk desk;
    const auto result = existing_dwelling_load(desk, input, service(200));
    CHECK_FALSE(result.applies);
    CHECK(result.reason == "the method is for a 3-wire service of 120/240 V or 208Y/120 V");
}

TEST_CASE("existing dwelling: supplemental heat locked out, with and without a heat pump") {
    ExistingInput input{.general = house(500),
                        .climate = {.heat_pump = va(5000),
                                    .supplemental_heat = va(10000),
                                    .compressor_locked_out = true},
                        .climate_added = true};
    CHECK(existing_load(input) == Approx(8000 + 10000)); // the larger of the two
    input.climate.heat_pump.reset();
    CHECK(existing_load(input) == Approx(8000 + 10000)); // nothing to lock out
}

TEST_CASE("existing dwelling: many units of space heating, of which there is no load") {
    ExistingInput input{.general = house(500),
                        .climate = {.cooling = va(3000), .space_heating_units = 4},
                        .climate_added = true};
    CHECK(existing_load(input) == Approx(8000 + 3000));
    input.climate.space_heating = va(10000); // four units or more stay among the other loads
    CHECK(existing_load(input) == Approx(8000 + 0.4 * 10000 + 3000));
}
