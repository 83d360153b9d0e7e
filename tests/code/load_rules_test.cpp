// The service under a load, loads by record, loads under management, vehicles. By hand: 24 kVA at
// 240 V are 100 A.
#include "catch.h"
#include "code/load_terms.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

Term<Watts> va(double value, const char* name = "load") {
    return nameplate_load(name, Watts{value});
}

ServiceInput service(double rating) { return {.rating = amps(rating, "I_service")}; }

/// Nothing is added, so that the load is 125 % of the record.
LoadResult by_record(TestDesk& desk, double load, const ServiceInput& input) {
    return load_by_record(desk, {.peak = va(load / 1.25, "peak"), .added = va(0)}, input);
}

MeteredInput thirty_days() {
    return {.peak = va(8000, "peak"),
            .one_year = false,
            .days = 30,
            .season_adjusted = true,
            .added = va(1000)};
}

} // namespace

TEST_CASE("a service carries the load in whole amperes, and not one more") {
    // 220.5(B): fractions under one half are dropped.
    for (const auto& [load, passes] :
         {std::pair{36000.0, true}, {36119.0, true}, {36120.0, false}}) {
        TestDesk desk;
        INFO(load);
        CHECK(by_record(desk, load, service(150)).passes == passes);
    }
    TestDesk desk;
    CHECK(by_record(desk, 36120, service(150)).reason == "150 A < 151 A");
    CHECK(desk.line("metered_amps").result == "151 A");
    CHECK(desk.line("metered_amps").rounding == "150.50 A, to the whole ampere");
}

TEST_CASE("the service of a one-family dwelling is rated 100 A at least") {
    TestDesk one, other, stated;
    CHECK(by_record(one, 2400, service(99)).passes == false);
    CHECK(text(one.line("metered_service").cite) == "NEC 2023 230.79(C)");
    CHECK(by_record(other, 2400, {.one_family = false, .rating = amps(10)}).passes);
    CHECK(by_record(stated, 2400, service(100)).passes);
    TestDesk exact; // a load of 100 A speaks for itself
    by_record(exact, 24000, service(100));
    CHECK(text(exact.line("metered_service").cite) == text(exact.book.cite("load.service")));
}

TEST_CASE("without a rating the least standard one is given and nothing fails") {
    TestDesk desk;
    const auto result = by_record(desk, 24240, {}); // 101 A
    CHECK(result.passes);
    CHECK(result.reason == "the rating of the service is not stated");
    CHECK(result.standard_rating == Amps{110});
}

TEST_CASE("three phases share the load") {
    TestDesk desk; // 36 kVA ÷ (√3 × 208 V) = 99.9 A
    const auto result =
        by_record(desk, 36000,
                  {.voltage = Volts{208}, .three_phase = true, .rating = amps(100, "I_service")});
    CHECK(result.amps.value == Amps{100});
    CHECK(result.passes);
}

TEST_CASE("125 % of the record and what is added, by the smallest step") {
    for (const Edition edition : all_editions) {
        // 1.25 × 9.6 kVA + 12 kVA = 24 kVA = 100 A; half an ampere more is 120 VA.
        TestDesk fits(edition), above(edition);
        CHECK(load_by_record(fits, {.peak = va(9600, "peak"), .added = va(12000)}, service(100))
                  .passes);
        CHECK_FALSE(
            load_by_record(above, {.peak = va(9600, "peak"), .added = va(12120)}, service(100))
                .passes);
        CHECK(text(fits.line("metered_load").cite) == name(edition) + " 220.87");
        CHECK(fits.line("metered_existing").formula == "1.25 × S_peak");
    }
}

TEST_CASE("a short record is of 30 days, of a building in use, beside no source") {
    const auto applies = [](const MeteredInput& input) {
        TestDesk desk;
        return load_by_record(desk, input, service(100)).applies;
    };
    CHECK(applies(thirty_days()));
    MeteredInput input = thirty_days();
    input.days = 29;
    CHECK_FALSE(applies(input));
    input = thirty_days();
    input.season_adjusted = false;
    CHECK_FALSE(applies(input));
    input = thirty_days();
    input.variable_source = true;
    CHECK_FALSE(applies(input));
    // The bar stands in the exception: a year's record is still allowed, with a word of warning.
    input.one_year = true;
    CHECK(applies(input));
    TestDesk desk;
    CHECK(load_by_record(desk, input, service(100)).reason ==
          "100 A ≥ 100 A; the record must be of the load, not of its difference from a source");
    input = thirty_days();
    input.peak_shaving = true;
    CHECK_FALSE(applies(input));
    TestDesk barred;
    const auto result = load_by_record(barred, input, service(100));
    CHECK_FALSE(result.passes);
    CHECK(result.reason == "a record of less than a year is barred beside peak shaving");
}

TEST_CASE("a setting replaces the sum of what it holds, and never raises it") {
    TestDesk desk, small, before;
    const ManagedInput input{.loads = {va(11520, "EV"), va(9600, "dryer")},
                             .setting = amps(40, "I_set")};
    const auto held = managed_load(desk, input); // 240 V × 40 A
    CHECK(held.applies);
    CHECK(held.load.value == Watts{9600});
    CHECK(held.required.value == Amps{50});
    CHECK(desk.line("managed_load").formula == "lesser of S_EV + S_dryer and V × I_set");
    CHECK(text(desk.line("managed_load").cite) == "NEC 2023 220.70, 750.30");
    const auto less = managed_load(small, {.loads = {va(2400)}, .setting = amps(40, "I_set")});
    CHECK(less.load.value == Watts{2400});
    // 2017 has no such rule for loads in general, but one for vehicles (625.42).
    TestDesk in_2017(Edition::nec2017), vehicles(Edition::nec2017);
    const auto none = managed_load(in_2017, input);
    CHECK_FALSE(none.applies);
    CHECK(none.load.value == Watts{21120});
    CHECK(none.reason == "not in NEC 2017: the loads count whole");
    ManagedInput charging = input;
    charging.vehicles_only = true;
    CHECK(managed_load(vehicles, charging).load.value == Watts{9600});
    CHECK(text(vehicles.line("managed_load").cite) == "NEC 2017 625.42");
}

TEST_CASE("vehicle equipment counts 7200 VA at least from 2023 on") {
    const auto load = [](double nameplate, Edition edition) {
        TestDesk desk(edition);
        return vehicle_load(desk, {.nameplate = amps(nameplate, "I_EV")}).value.value;
    };
    CHECK(load(29.9, Edition::nec2023) == Approx(7200)); // 7176 VA
    CHECK(load(30.1, Edition::nec2023) == Approx(7224));
    CHECK(load(29.9, Edition::nec2020) == Approx(7176));
    CHECK(load(29.9, Edition::nec2017) == Approx(7176));
    for (const Edition edition : {Edition::nec2017, Edition::nec2020})
        CHECK(CodeBook(edition).number("vehicle.least") == 0); // 220.57 is new in 2023
    TestDesk managed;
    const VehicleInput input{.nameplate = amps(48, "I_EV"), .managed = amps(20, "I_set")};
    CHECK(vehicle_load(managed, input).value == Watts{4800});
}

TEST_CASE("the circuit of a vehicle") {
    TestDesk desk;
    const auto circuit = vehicle_circuit(desk, {.current = amps(40, "I_EV")});
    CHECK(circuit.required.value == Amps{50});
    CHECK(all_pass(circuit.verdicts));
    const auto fails = [](const VehicleCircuitInput& input, Edition edition) {
        TestDesk scratch(edition);
        return !all_pass(vehicle_circuit(scratch, input).verdicts);
    };
    // 16 A at 120 V may share its circuit from 2023 on; a little more may not.
    VehicleCircuitInput input{
        .current = amps(16, "I_EV"), .voltage = Volts{120}, .shares_circuit = true};
    CHECK_FALSE(fails(input, Edition::nec2023));
    CHECK(fails(input, Edition::nec2020));
    CHECK(fails(input, Edition::nec2017));
    input.voltage = Volts{120.5}; // 625.40 of 2023: 16 A or 120 V at most
    CHECK(fails(input, Edition::nec2023));
    input.voltage = Volts{120};
    input.current = amps(16.1, "I_EV");
    CHECK(fails(input, Edition::nec2023));
    // Before, each outlet, however small: 625.40 of 2017 has no figure.
    input.voltage = Volts{0};
    input.current = amps(0.5, "I_EV");
    CHECK(fails(input, Edition::nec2020));
    input.voltage = Volts{0.5};
    input.current = amps(0, "I_EV");
    CHECK(fails(input, Edition::nec2020));
    input.voltage = Volts{240};
    input.current = amps(16.1, "I_EV");
    input.managed = true;
    CHECK_FALSE(fails(input, Edition::nec2023));
    input = {.current = amps(32, "I_EV"), .receptacle = true};
    CHECK(fails(input, Edition::nec2023));
    input.ground_fault_protected = true;
    CHECK_FALSE(fails(input, Edition::nec2023));
    input = {.current = amps(32, "I_EV"), .exports = true};
    CHECK(fails(input, Edition::nec2020));
    input.listed_for_export = true;
    CHECK_FALSE(fails(input, Edition::nec2020));
}

TEST_CASE("one line with its motors") {
    TestDesk desk; // 78 + 6 + 0.25 × 6 = 85.5
    CHECK(line_load(desk, "A", {amps(78, "I_1"), amps(6, "I_2")}, amps(6, "I_2")).value ==
          Amps{85.5});
    CHECK(desk.line("line_A").formula == "I_1 + I_2 + 0.25 × I_2");
}

TEST_CASE("paragraphs of load calculations moved in 2023") {
    // forums.mikeholt.com 2578409 and 2586350; electricallicenserenewal.com sectionID=1441.
    const auto paragraphs = [](const char* rule) {
        std::vector<std::string> result;
        for (const Edition edition : all_editions)
            result.push_back(CodeBook(edition).cite(rule).section);
        return result;
    };
    using Sections = std::vector<std::string>;
    CHECK(paragraphs("load.floor") == Sections{"220.12", "220.14(J)", "220.41"});
    CHECK(paragraphs("load.lighting") == Sections{"220.42", "220.42", "220.45"});
    CHECK(paragraphs("load.optional") == Sections{"220.82(B)", "220.82(B)", "220.82(B)"});
    CHECK(paragraphs("load.managed") == Sections{"", "750.30", "220.70, 750.30"});
    CHECK(paragraphs("vehicle.load") == Sections{"", "", "220.57"});
    CHECK(paragraphs("vehicle.setting") == Sections{"625.42", "625.42", "625.42(A)"});
}

TEST_CASE("a year's record behind a source, or with its peaks shaved, is told to be of the load") {
    const auto warned = [](bool source, bool shaving) {
        TestDesk desk;
        const auto result = load_by_record(desk,
                                           {.peak = va(8000, "peak"),
                                            .variable_source = source,
                                            .peak_shaving = shaving,
                                            .added = va(1000)},
                                           service(100));
        CHECK(result.applies);
        return result.reason.find("must be of the load") != std::string::npos;
    };
    CHECK_FALSE(warned(false, false));
    CHECK(warned(true, false));
    CHECK(warned(false, true));
}

TEST_CASE("no loads are 0 VA, and every band is counted to its end") {
    CHECK(sum_of({}).value == Watts{0});
    // 3 kVA whole, to 10 kVA at 35 %, the rest at 25 %.
    const std::vector<DemandBand> bands = {
        {Watts{3000}, 1.0}, {Watts{10000}, 0.35}, {std::nullopt, 0.25}};
    CHECK(banded(va(2000), bands).value.value == Approx(2000));
    CHECK(banded(va(5000), bands).value.value == Approx(3000 + 0.35 * 2000));
    CHECK(banded(va(12000), bands).value.value == Approx(3000 + 0.35 * 7000 + 0.25 * 2000));
    // A table whose last band ended would leave load uncounted.
    CHECK_THROWS_AS(banded(va(12000), {{Watts{3000}, 1.0}}), std::logic_error);
}
