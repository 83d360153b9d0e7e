// The standard method for dwellings, part by part. Arithmetic by hand.
#include <random>

#include "catch.h"
#include "code/demand_tables.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

Term<Watts> va(double value, const char* name = "load") {
    return nameplate_load(name, Watts{value});
}

double lighting(double floor) {
    TestDesk desk;
    return lighting_demand(desk, {.floor = SquareFeet{floor}}).value.value;
}

double appliances(const std::vector<double>& values, Edition edition = Edition::nec2023) {
    TestDesk desk(edition);
    std::vector<Term<Watts>> loads;
    for (const double value : values)
        loads.push_back(va(value));
    return appliance_demand(desk, loads).value.value;
}

double cooking(const std::vector<double>& values) {
    TestDesk desk;
    std::vector<Term<Watts>> loads;
    for (const double value : values)
        loads.push_back(va(value));
    return cooking_demand(desk, loads).value.value;
}

double climate(const StandardInput& input, Edition edition) {
    TestDesk desk(edition);
    return climate_demand(desk, input)->value.value;
}

} // namespace

TEST_CASE("lighting: 3 kVA whole, to 120 kVA at 35 %, the rest at 25 %") {
    // The circuits bring 4500 VA, so 38 500 ft² make 120 kVA.
    CHECK(lighting(0) == Approx(3525));           // 3000 + 0.35 × 1500
    CHECK(lighting(38500) == Approx(43950));      // 3000 + 0.35 × 117 000
    CHECK(lighting(38600) == Approx(43950 + 75)); // and 25 % of 300
    TestDesk desk;
    lighting_demand(desk, {.floor = SquareFeet{38600}});
    CHECK(desk.line("standard_lighting_demand").formula ==
          "3 kVA + 0.35 × (120 kVA − 3 kVA) + 0.25 × (S_whole − 120 kVA)");
    CHECK(desk.line("standard_lighting_demand").source == "Table 220.45");
    TestDesk full; // 120 kVA is the end of its band
    lighting_demand(full, {.floor = SquareFeet{38500}});
    CHECK(full.line("standard_lighting_demand").formula == "3 kVA + 0.35 × (S_whole − 3 kVA)");
    TestDesk two(Edition::nec2017);
    lighting_demand(two, {.floor = SquareFeet{1000}, .dwelling_units = 2});
    CHECK(two.line("standard_lighting").figures == "2 × (3 kVA + 4.5 kVA)");
    CHECK(two.line("standard_lighting_demand").source == "Table 220.42");
}

TEST_CASE("appliances: three whole, four at 75 %") {
    CHECK(appliances({1000, 1000, 1000}) == Approx(3000));
    CHECK(appliances({1000, 1000, 1000, 1000}) == Approx(3000));
    // From 2020 on an appliance under 500 VA does not make the fourth.
    CHECK(appliances({1000, 1000, 1000, 499}) == Approx(3499));
    CHECK(appliances({1000, 1000, 1000, 500}) == Approx(2625));
    CHECK(appliances({1000, 1000, 1000, 499}, Edition::nec2020) == Approx(3499));
    CHECK(appliances({1000, 1000, 1000, 499}, Edition::nec2017) == Approx(0.75 * 3499));
    CHECK(appliances({1000, 1000, 1000, 0.5}, Edition::nec2017) == Approx(0.75 * 3000.5));
}

TEST_CASE("dryers: 5000 VA at least, and the table") {
    const auto dryers = [](int count, double value) {
        TestDesk desk;
        return dryer_demand(desk, std::vector<Term<Watts>>(std::size_t(count), va(value)))
            .value.value;
    };
    CHECK(dryers(1, 4999) == Approx(5000));
    TestDesk exact;
    dryer_demand(exact, {va(5000)});
    CHECK(exact.line("standard_dryers").formula == "S_load");
    CHECK(dryers(1, 5001) == Approx(5001));
    CHECK(dryers(4, 5000) == Approx(20000));
    CHECK(dryers(5, 5000) == Approx(21250));
    CHECK(dryers(12, 5000) == Approx(12 * 5000 * 0.46));
    CHECK(dryers(23, 5000) == Approx(23 * 5000 * 0.35));
    CHECK(dryers(24, 5000) == Approx(24 * 5000 * 0.345));
    CHECK(dryers(43, 5000) == Approx(43 * 5000 * 0.25));
}

TEST_CASE("cooking: column C and its notes") {
    CHECK(cooking({12000}) == Approx(8000));
    CHECK(cooking({12400}) == Approx(8000)); // under half a kilowatt above
    CHECK(cooking({12500}) == Approx(8400)); // a major fraction counts as one
    CHECK(cooking({27000}) == Approx(8000 * 1.75));
    CHECK(cooking({27100}) == Approx(27100)); // the table ends: the nameplate
    CHECK(cooking({27000.5}) == Approx(27000.5));
    CHECK(cooking({1750}) == Approx(1750)); // not above 1 3/4 kW: neither
    CHECK(cooking({1750.5}) == Approx(0.8 * 1750.5));
    CHECK(cooking({1800}) == Approx(1440)); // column A, 80 %
    CHECK(cooking({3499}) == Approx(0.8 * 3499));
    CHECK(cooking({3500, 3500}) == Approx(0.65 * 7000)); // column B
    CHECK(cooking({8750}) == Approx(7000));              // column B goes through 8 3/4 kW
    CHECK(cooking({8751}) == Approx(8000));              // column C
    // 4 kW oven and 16 kW range: column C for two, average (12 + 16) ÷ 2 = 14, 11 × 1.1 = 12.1 kW;
    // apart 0.8 × 4 + 8 × 1.2 = 12.8 kW.
    CHECK(cooking({4000, 16000}) == Approx(12100));
    // 2 kW and 12 kW: column C for two 11 kW; apart 1.6 + 8 = 9.6 kW.
    CHECK(cooking({2000, 12000}) == Approx(9600));
}

TEST_CASE("cooking: ranges of 12 kW on average are not above the basis of column C") {
    TestDesk exact, above;
    cooking_demand(exact, {va(12000)});
    CHECK_FALSE(exact.has("standard_cooking_above"));
    CHECK(exact.line("standard_cooking_table").source == "Table 220.55, column C, 1 appliance");
    cooking_demand(above, {va(12001)});
    CHECK(above.line("standard_cooking_above").result == "0");
    TestDesk two;
    cooking_demand(two, {va(12000), va(12000)});
    CHECK(two.line("standard_cooking_table").source == "Table 220.55, column C, 2 appliances");
}

TEST_CASE("cooking: the table, where its rows change") {
    const CodeBook book(Edition::nec2023);
    CHECK(cooking_row(book, 25).column_c == Watts{40000});
    CHECK(cooking_row(book, 26).column_c == Watts{41000}); // 15 + 26
    CHECK(cooking_row(book, 40).column_c == Watts{55000});
    CHECK(cooking_row(book, 41).column_c == Watts{55750}); // 25 + 0.75 × 41
    CHECK(cooking_row(book, 61).share_b == 0.16);
    for (int count = 1; count < 100; ++count) {
        INFO(count);
        const CookingRow row = cooking_row(book, count), next = cooking_row(book, count + 1);
        CHECK(next.column_c >= row.column_c);
        CHECK(next.share_a <= row.share_a);
        CHECK(next.share_b <= row.share_b);
    }
}

TEST_CASE("cooking on one circuit") {
    TestDesk range, together, alone;
    CHECK(cooking_circuit_load(range, CookingCircuit::range, {va(12000)}).value == Watts{8000});
    // A 6 kW cooktop and two 4 kW ovens as one range of 14 kW: 8 kW × 1.1.
    CHECK(cooking_circuit_load(together, CookingCircuit::cooktop_with_ovens,
                               {va(6000), va(4000), va(4000)})
              .value.value == Approx(8800));
    CHECK(cooking_circuit_load(alone, CookingCircuit::single_unit, {va(4000)}).value ==
          Watts{4000});
}

TEST_CASE("heating or cooling, with the largest motor that then runs") {
    const StandardInput near{.heating = va(10000, "heat"),
                             .cooling = va(9000, "cool"),
                             .largest_motor = va(1000, "pump")};
    // 10 000 + 250 against 9000 + 2250: before 2020 nameplates alone are compared.
    CHECK(climate(near, Edition::nec2017) == Approx(10250));
    CHECK(climate(near, Edition::nec2020) == Approx(11250));
    CHECK(climate(near, Edition::nec2023) == Approx(11250));
    const StandardInput smaller{.heating = va(10000, "heat"), .cooling = va(8000, "cool")};
    CHECK(climate(smaller, Edition::nec2023) == Approx(10000)); // 8000 × 1.25: equal
    TestDesk equal;
    climate_demand(equal, smaller);
    CHECK(equal.line("standard_climate").formula == "S_heat.case");
    const StandardInput motor{.largest_motor = va(1000, "pump")};
    CHECK(climate(motor, Edition::nec2023) == Approx(250));
    TestDesk desk;
    CHECK_FALSE(climate_demand(desk, {}).has_value());
}

TEST_CASE("neutral: cooking and drying at 70 %, and so what is beyond 200 A") {
    const auto neutral = [](double light) {
        TestDesk desk;
        return neutral_load(desk, {.lighting = va(light, "light")}).amps.value.value;
    };
    CHECK(neutral(48000) == Approx(200));
    CHECK(neutral(72000) == Approx(200 + 0.7 * 100));
    TestDesk exact; // nothing of 200 A is beyond 200 A
    neutral_load(exact, {.lighting = va(48000, "light")});
    CHECK_FALSE(exact.has("neutral_beyond"));
}

TEST_CASE("the standard load is the sum of its parts") {
    TestDesk desk;
    const auto result = standard_dwelling_load(desk,
                                               {.floor = SquareFeet{1500},
                                                .dryers = {va(5500, "dryer")},
                                                .cooking = {va(12000, "range")},
                                                .vehicles = {va(7200, "EV")},
                                                .others = {va(1000, "hot tub")}},
                                               {.rating = amps(125, "I_service")});
    CHECK(result.load.value.value == Approx(18600 + 7200 + 1000)); // Annex D1(a) and the two
    CHECK(desk.line("standard_load").formula == "S_light + S_dry + S_cook + S_EV + S_hot.tub");
    CHECK(result.passes); // 111.7 A
    CHECK(result.standard_rating == Amps{125});
}

TEST_CASE("a larger nameplate never lowers the demand") {
    // A further appliance may: the fourth brings 75 % for all. So the number is kept.
    std::mt19937 engine{55};
    const auto step = [&engine](int most) {
        return 100.0 * static_cast<double>(engine() % unsigned(most));
    };
    for (int i = 0; i < 300; ++i) {
        StandardInput input{.floor = SquareFeet{step(40)},
                            .appliances = {va(500 + step(40)), va(600), va(700), va(800)},
                            .dryers = {va(step(80))},
                            .cooking = {va(1800 + step(200))},
                            .heating = va(step(200)),
                            .cooling = va(step(100)),
                            .largest_motor = va(step(20))};
        const Edition edition = all_editions[std::size_t(i % 3)];
        const auto load = [&] {
            TestDesk desk(edition);
            return standard_dwelling_load(desk, input, {}).load.value.value;
        };
        const double before = load();
        const auto more = va(step(20));
        const std::vector<std::vector<Term<Watts>>*> lists = {&input.appliances, &input.dryers};
        for (auto* list : lists)
            list->front() = list->front() + more;
        // In 2017 heating that overtakes cooling drops the motor of the cooling with it.
        if (edition != Edition::nec2017)
            input.heating = *input.heating + more;
        CHECK(load() >= before);
        const double between = load();
        input.cooling = *input.cooling + more;
        input.largest_motor = *input.largest_motor + more;
        CHECK(load() >= between);
    }
}

TEST_CASE("small appliances beside four large ones count whole") {
    // 220.53 of 2023: those of 500 VA or more; 0.75 x 4 x 1000 + 400.
    CHECK(appliances({1000, 1000, 1000, 1000}) == Approx(3000));
    CHECK(appliances({1000, 1000, 1000, 1000, 400}) == Approx(3400));
    CHECK(appliances({1000, 1000, 1000, 400}) == Approx(3400)); // three: none at 75 %
}

TEST_CASE("cooling without heating is a load of the climate") {
    CHECK(climate({.cooling = va(4000)}, Edition::nec2023) == Approx(1.25 * 4000));
    CHECK(climate({.heating = va(4000)}, Edition::nec2023) == Approx(4000));
    TestDesk desk;
    CHECK_FALSE(climate_demand(desk, {}));
}
