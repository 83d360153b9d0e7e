// Loads, standard and adjustable ratings, voltage over several runs.
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

TEST_CASE("standard ratings: fuses of 1, 3, 6, 10 and 601 A") {
    for (const Edition edition : all_editions) {
        const CodeBook book(edition);
        for (const double rating : {1, 3, 6, 10, 601})
            CHECK(book.is_standard_rating(Amps{rating}, DeviceKind::fuse));
        for (const double rating : {1, 3, 6, 601})
            CHECK_FALSE(book.is_standard_rating(Amps{rating}));
        CHECK(book.is_standard_rating(Amps{10}) == (edition == Edition::nec2023));
        CHECK(book.standard_rating_down(Amps{109}) == Amps{100});
        CHECK(book.standard_rating_down(Amps{110}) == Amps{110});
        CHECK_FALSE(book.standard_rating_down(Amps{9}));
    }
}

TEST_CASE("an adjustable trip counts as its setting only behind restricted access") {
    const auto rating = [](TripAccess access, Edition edition = Edition::nec2023) {
        TestDesk desk(edition);
        return adjustable_rating(desk,
                                 {.largest = Amps{400}, .setting = Amps{320}, .access = access})
            .value.value;
    };
    CHECK(rating(TripAccess::open) == 400);
    CHECK(rating(TripAccess::sealed_cover) == 320);
    CHECK(rating(TripAccess::bolted_door) == 320);
    CHECK(rating(TripAccess::locked_door) == 320);
    // electricallicenserenewal.com sectionID=848: passwords since 2020.
    CHECK(rating(TripAccess::password, Edition::nec2017) == 400);
    CHECK(rating(TripAccess::password, Edition::nec2020) == 320);
    CHECK(rating(TripAccess::password, Edition::nec2023) == 320);
}

TEST_CASE("loads: 125 % of the continuous part, the sum where listed for 100 %") {
    TestDesk desk(Edition::nec2017), full(Edition::nec2017);
    const LoadInput load{.continuous = amps(200, "I_cont"),
                         .noncontinuous = amps(100, "I_noncont")};
    CHECK(required_for_load(desk, load, "feeder.conductor.continuous").value == Amps{350});
    CHECK(desk.line("conductor_continuous").formula == "1.25 × I_cont + I_noncont");
    CHECK(required_for_load(full,
                            {.continuous = amps(200, "I_cont"),
                             .noncontinuous = amps(100, "I_noncont"),
                             .listed_100 = true},
                            "feeder.overcurrent")
              .value == Amps{300});
    CHECK(full.line("overcurrent").formula == "I_cont + I_noncont");
    CHECK(text(full.line("overcurrent").cite) == "NEC 2017 215.3 Exception No. 1");
    // Every pair of rules exists in every edition.
    for (const Edition edition : all_editions)
        for (const char* rule :
             {"branch.conductor.continuous", "branch.overcurrent", "feeder.conductor.continuous",
              "feeder.overcurrent", "service.conductor.continuous"}) {
            TestDesk any(edition);
            CHECK(
                required_for_load(any, {.continuous = amps(80, "I_cont"), .listed_100 = true}, rule)
                    .value == Amps{80});
        }
}

TEST_CASE("voltage: several runs together within 5 %, each within 3 %") {
    const auto total = [](double first, double second) {
        TestDesk desk;
        return combine_voltage_changes(
            desk,
            {{"Feeder", given("V_d,F", Volts{first})}, {"Branch", given("V_d,B", Volts{second})}},
            Volts{240});
    };
    CHECK(total(7.2, 4.8).each_within); // 3 % and 2 % of 240 V
    CHECK(total(7.2, 4.8).total_within);
    CHECK_FALSE(total(7.21, 4.7).each_within);
    CHECK(total(7.21, 4.7).total_within);
    CHECK_FALSE(total(7.2, 4.81).total_within);
    CHECK(total(7.2, 4.8).fraction == Approx(0.05));
    TestDesk desk;
    combine_voltage_changes(
        desk, {{"Feeder", given("V_d,F", Volts{7.2})}, {"Branch", given("V_d,B", Volts{4.8})}},
        Volts{240});
    CHECK(desk.line("voltage_total").formula == "V_d,F + V_d,B");
    CHECK(desk.line("total_check").comparison == "5 % ≤ 5 %");
}

TEST_CASE("voltage: sets in parallel share the current") {
    TestDesk one, two;
    VoltageChangeInput input{.current = amps(200), .one_way = Feet{100}, .size = wire("1/0")};
    const auto single = voltage_change(one, input).volts;
    input.sets = 2;
    CHECK(voltage_change(two, input).volts.value == Approx(single.value / 2));
    CHECK(two.line("voltage_change").formula == "2 × I ÷ n × R × L");
}

TEST_CASE("voltage: the constant K of textbooks agrees with Table 8") {
    // V = 2 x K x I x L / cmil with K = 12.9 (copper) and 21.2 (aluminum) ohm-cmil/ft at 75 C, as
    // in Electrical Wiring Residential, 19th ed.; stranded conductors of Table 8 within 2 %.
    const CodeBook book(Edition::nec2023);
    for (const WireSize size : book.listed_sizes(Material::aluminum))
        for (const auto& [material, k] :
             {std::pair{Material::copper, 12.9}, std::pair{Material::aluminum, 21.2}}) {
            TestDesk desk;
            const auto volts = voltage_change(desk, {.current = amps(10),
                                                     .one_way = Feet{100},
                                                     .size = size,
                                                     .material = material,
                                                     .dc = true})
                                   .volts.value;
            INFO(name(size) << " " << name(material));
            CHECK(volts ==
                  Approx(2 * k * 10 * 100 / book.circular_mils(size)->value).epsilon(0.02));
        }
}

TEST_CASE("voltage: direct current in a size that Table 8 lacks reads the next smaller one") {
    // 1000 kcmil copper has 0.0129 ohm/kft: 2 x 100 ft x 0.0000129 x 100 A = 0.258 V.
    TestDesk desk;
    const auto change = voltage_change(desk, {.current = amps(100),
                                              .one_way = Feet{100},
                                              .size = wire("1250"),
                                              .nominal = Volts{400},
                                              .dc = true});
    CHECK(change.volts.value == Approx(0.258));
}

TEST_CASE("voltage: away from conduits the column of PVC serves, and says so") {
    for (const RacewayKind kind : {RacewayKind::pvc40, RacewayKind::free_air, RacewayKind::cable}) {
        TestDesk desk;
        voltage_change(
            desk, {.current = amps(20), .one_way = Feet{50}, .size = wire("10"), .raceway = kind});
        std::string sources;
        for (const Derivation& line : desk.sheet.all())
            sources += line.source;
        INFO(sources);
        CHECK((sources.find("an approximation") != std::string::npos) ==
              (kind != RacewayKind::pvc40));
    }
}

TEST_CASE("voltage: no runs, no change") {
    TestDesk desk;
    const auto total = combine_voltage_changes(desk, {}, Volts{240});
    CHECK(total.volts == Volts{0});
    CHECK(total.total_within);
    CHECK(desk.sheet.all().empty());
}
