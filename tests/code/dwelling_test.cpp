// Service and feeder conductors of dwellings against the printed table and its conditions.
#include "catch.h"
#include "csv.h"
#include "try_conductor.h"

using namespace ohmfolio;

TEST_CASE("dwelling: 83 % at 75 C gives the printed table, row by row") {
    const auto rows = read_csv("table_310_12.csv");
    REQUIRE(rows.size() == 11);
    for (const Edition edition : all_editions)
        for (const CsvRow& row : rows)
            for (const auto& [material, column] :
                 {std::pair{Material::copper, "cu"}, std::pair{Material::aluminum, "al"}}) {
                auto input = load(0, *csv_number(row, "rating"));
                input.dwelling_service = true;
                input.material = material;
                INFO(row.at("rating") << " A " << name(material));
                CHECK(sized(input, edition).size == wire(row.at(column).c_str()));
            }
}

TEST_CASE("dwelling: the share is for 100 to 400 A, the whole load, and its systems") {
    const auto applies = [](DwellingShareInput input) {
        TestDesk desk;
        return dwelling_share(desk, input).applies;
    };
    CHECK(applies({.rating = amps(100)}));
    CHECK(applies({.rating = amps(400)}));
    CHECK_FALSE(applies({.rating = amps(99)}));
    CHECK_FALSE(applies({.rating = amps(401)}));
    CHECK_FALSE(applies({.rating = amps(200), .whole_load = false}));
    CHECK_FALSE(applies({.supply = DwellingSupply::other, .rating = amps(200)}));
    // 208Y/120 V: feeders, since 2017 (electricallicenserenewal.com sectionID=278), not services.
    CHECK(applies({.supply = DwellingSupply::lines_of_a_wye, .rating = amps(200), .feeder = true}));
    CHECK_FALSE(applies({.supply = DwellingSupply::lines_of_a_wye, .rating = amps(200)}));
    // Beyond the ratings the ordinary rules hold: 450 A needs its next size, and the line says so.
    TestDesk desk;
    auto input = load(340, 450);
    input.dwelling_service = true;
    CHECK(size_conductor(desk, input).size == wire("700")); // 460 A at 75 C, 425 A required
    CHECK(desk.line("dwelling_share").result == "does not apply");
    CHECK(desk.line("dwelling_share").governs == "450 A is not within 100 A to 400 A");
}

TEST_CASE("dwelling: a feeder need not exceed the service conductors") {
    // Service of 200 A on 2/0 copper, 175 A; a feeder device of 225 A would ask for 186.75 A: 3/0.
    auto input = load(0, 225);
    input.dwelling_service = true;
    input.dwelling_feeder = true;
    CHECK(sized(input).size == wire("3/0"));
    input.service_ampacity = amps(175, "I_service");
    CHECK(sized(input).size == wire("2/0"));
    TestDesk desk(Edition::nec2020);
    size_conductor(desk, input);
    CHECK(text(desk.line("service_share").cite) == "NEC 2020 310.12(B)");
    CHECK(text(desk.line("feeder_most").cite) == "NEC 2020 310.12(C)");
}
