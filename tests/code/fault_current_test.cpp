// Available fault current, what interrupts it, and transformers. Expected values by the formulas of
// the method, worked beside the checks, and the published cases of cases/fault_current.toml.
#include <cmath>

#include "case_runner.h"
#include "catch.h"
#include "code/rule_tables.h"
#include "csv.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

Answers transformer(Desk desk, const Given& g) {
    const auto fault = transformer_fault_current(desk, {.rating = Watts{1000 * g.number("kva")},
                                                        .secondary = Volts{g.number("volts")},
                                                        .phases = g.count_or("phases", 3),
                                                        .impedance = g.number("percent") / 100,
                                                        .least_impedance = g.flag("least")});
    return {{"rated", desk.sheet.find("X.secondary_current")->value},
            {"fault", fault.value.value},
            {"fault_kA", fault.value.value / 1000}};
}

FaultRunInput run_input(const Given& g, double available) {
    FaultRunInput input{.available = amps(available, "I_sc"),
                        .voltage = Volts{g.number("volts")},
                        .length = Feet{g.number("length")},
                        .size = g.wire("size"),
                        .raceway = *parse_raceway_kind(g.text_or("raceway", "EMT")),
                        .sets = g.count_or("sets", 1)};
    const std::string path = g.text_or("path", "lines");
    if (path == "neutral")
        input.path = FaultPath::line_to_neutral;
    if (path == "three phase")
        input.path = FaultPath::three_phase;
    if (g.has("neutral"))
        input.neutral = g.wire("neutral");
    if (g.has("stated_constant"))
        input.stated_constant = FeetPerOhm{g.number("stated_constant")};
    return input;
}

Answers run(Desk desk, const Given& g) {
    const auto result = fault_current_after_run(desk, run_input(g, g.number("available")));
    const Derivation* constant = desk.sheet.find("X.fault_constant");
    return {{"constant", constant == nullptr ? 0 : constant->value},
            {"f", result.f},
            {"m", result.m},
            {"fault", result.current.value.value},
            {"fault_kA", result.current.value.value / 1000}};
}

Answers run_to_neutral(Desk desk, const Given& g) {
    const auto there = fault_to_neutral(desk, amps(g.number("between_lines"), "I_LL"));
    auto input = run_input(g, there.value.value);
    input.path = FaultPath::line_to_neutral;
    return {{"at_transformer", there.value.value},
            {"fault", fault_current_after_run(desk, input).current.value.value}};
}

Answers series(Desk desk, const Given& g) {
    const auto result =
        check_interrupting(desk, {.available = amps(g.number("available"), "I_sc"),
                                  .rating = amps(g.number("rating"), "I_rating"),
                                  .series = SeriesRating{.rating = Amps{g.number("series")},
                                                         .with = "the main breaker",
                                                         .listed = true,
                                                         .marked = true,
                                                         .motors = Amps{g.number("motors")}}});
    return {{"most_motors", desk.sheet.find("X.series_motors_most")->value},
            {"passes", yes_or_no(result.passes)}};
}

Answers transformer_devices(Desk desk, const Given& g) {
    const auto result =
        transformer_protection(desk, {.rating = Watts{1000 * g.number("kva")},
                                      .primary = Volts{g.number("primary")},
                                      .secondary = Volts{g.number("secondary")},
                                      .phases = g.count_or("phases", 3),
                                      .secondary_device = g.flag("secondary_device")});
    return {{"primary_current", result.primary_current.value},
            {"primary_limit", desk.sheet.find("X.primary_limit")->value},
            {"primary_device", result.most_primary.value}};
}

const Procedures procedures = {{"transformer", transformer},
                               {"run", run},
                               {"run_to_neutral", run_to_neutral},
                               {"series", series},
                               {"transformer_devices", transformer_devices}};

Term<Amps> kiloamps(double value, const char* symbol) {
    return given(symbol, Amps{1000 * value}, {}, ShownAs::kiloamps);
}

FaultRunInput feeder() {
    return {.available = kiloamps(10, "I_sc"),
            .length = Feet{50},
            .size = wire("1/0"),
            .raceway = RacewayKind::emt};
}

double fault_after(const FaultRunInput& input) {
    TestDesk desk;
    return fault_current_after_run(desk, input).current.value.value;
}

/// A 100 kVA transformer at 240 V with these devices.
TransformerProtectionInput devices(double primary, double secondary) {
    return {.rating = Watts{24000},
            .primary = Volts{480},
            .secondary = Volts{240},
            .phases = 1,
            .stated_primary = Amps{primary},
            .stated_secondary = Amps{secondary}};
}

bool passes(const TransformerProtectionInput& input, Edition edition = Edition::nec2023) {
    TestDesk desk(edition);
    return transformer_protection(desk, input).passes;
}

} // namespace

TEST_CASE("published worked examples of fault current") {
    CHECK(run_cases("fault_current", procedures) >= 18);
    CHECK(run_cases("fault_current_audit", procedures) >= 1);
}

TEST_CASE("fault current along a run, written out") {
    // 1/0 copper in steel, C = 8925: f = 2 x 50 x 10000 / (8925 x 240) = 0.46685; M = 0.68173.
    TestDesk desk;
    const auto result = fault_current_after_run(desk, feeder());
    CHECK(result.f == Approx(0.466853));
    CHECK(result.m == Approx(1 / 1.466853));
    CHECK(result.current.value.value == Approx(6817.3).epsilon(1e-4));
    CHECK(desk.line("fault_f").formula == "2 × L × I_sc ÷ (C × V)");
    CHECK(desk.line("fault_f").figures == "2 × 50 ft × 10 kA ÷ (8925 ft/Ω × 240 V)");
    CHECK(desk.line("fault_m").formula == "1 ÷ (1 + f)");
    CHECK(desk.line("fault_current").symbol == "I_sc,X");
    CHECK(desk.line("fault_current").formula == "M × I_sc");
    CHECK(desk.line("fault_current").result == "6.82 kA");
    CHECK(desk.line("fault_constant").source == "table of constants, 1/0 AWG CU in steel");
    CHECK(text(desk.line("fault_f").cite) == "point-to-point method");
}

TEST_CASE("fault current: sets in parallel, three phase, and the neutral of its own") {
    TestDesk parallel, three, neutral;
    auto input = feeder();
    input.sets = 2;
    fault_current_after_run(parallel, input);
    CHECK(parallel.line("fault_f").formula == "2 × L × I_sc ÷ (C × n × V)");
    CHECK(parallel.line("fault_f").value == Approx(0.466853 / 2));
    input = feeder();
    input.path = FaultPath::three_phase;
    fault_current_after_run(three, input);
    CHECK(three.line("fault_f").value == Approx(std::sqrt(3.0) * 50 * 10000 / (8925 * 240.0)));
    input.path = FaultPath::line_to_neutral;
    input.neutral = wire("2");
    fault_current_after_run(neutral, input);
    CHECK(neutral.line("fault_neutral_f").formula == "L × I_sc × (1 ÷ C_N + 1 ÷ C_own) ÷ V");
    CHECK(neutral.line("fault_neutral_f").value ==
          Approx(50 * 10000 * (1 / 8925.0 + 1 / 5907.0) / 240));
    // A neutral of the same size is the plain formula.
    input.neutral = wire("1/0");
    CHECK(fault_after(input) == Approx(6817.3).epsilon(1e-4));
}

TEST_CASE("a circuit is followed between lines and to neutral on one sheet") {
    // To neutral from 1.5 x 10000 A at 120 V: f = 2 x 50 x 15000 / (8925 x 120) = 1.40056.
    TestDesk desk;
    auto input = feeder();
    fault_current_after_run(desk, input);
    input.path = FaultPath::line_to_neutral;
    input.voltage = Volts{120};
    input.available = fault_to_neutral(desk, amps(10000, "I_LL"));
    const auto result = fault_current_after_run(desk, input);
    CHECK(result.f == Approx(1.40056));
    CHECK(result.current.value.value == Approx(15000 / 2.40056));
    CHECK(desk.line("fault_neutral_current").formula == "M_N × I_LN");
}

TEST_CASE("sizes without a constant read the next larger one, none is invented") {
    TestDesk desk, none;
    auto input = feeder();
    input.size = wire("700");
    fault_current_after_run(desk, input);
    CHECK(desk.line("fault_constant").value == 24137); // 750 kcmil
    CHECK(desk.line("fault_constant").source ==
          "table of constants, 750 kcmil CU in steel, the next larger to 700 kcmil");
    input.size = wire("1250");
    CHECK_FALSE(fault_current_after_run(none, input).found);
    CHECK(none.line("fault_current").verdict == Verdict::fail);
}

TEST_CASE("constants are those of the published table, row by row") {
    const auto rows = read_csv("fault_constants.csv");
    REQUIRE(rows.size() == 21);
    for (const CsvRow& row : rows) {
        const auto check = [&](const char* column, Material material, RacewayKind raceway) {
            const auto published = csv_number(row, column);
            if (!published)
                return;
            CAPTURE(row.at("size"), column);
            CHECK(fault_constant(wire(row.at("size").c_str()), material, raceway)->value.value ==
                  *published);
        };
        check("cu_steel", Material::copper, RacewayKind::emt);
        check("cu_nonmagnetic", Material::copper, RacewayKind::pvc40);
        check("al_steel", Material::aluminum, RacewayKind::emt);
        check("al_nonmagnetic", Material::aluminum, RacewayKind::pvc40);
    }
}

TEST_CASE("constants of large aluminum follow from those of copper: the reactance is the same") {
    // What the copy lacks and memory gave: 600 to 1000 kcmil, nonmagnetic. Resistances of Table 8
    // at 25 C: (234.5 + 25) / (234.5 + 75) for copper, (228.1 + 25) / (228.1 + 75) for aluminum.
    const CodeBook book(Edition::nec2023);
    for (const char* size : {"400", "500", "600", "750", "1000"}) {
        const auto constant = [&](Material material) {
            return fault_constant(wire(size), material, RacewayKind::pvc40)->value.value;
        };
        const double copper = book.dc_resistance(wire(size), Material::copper)->value * 0.8384;
        const double aluminum = book.dc_resistance(wire(size), Material::aluminum)->value * 0.8350;
        const double whole = 1 / constant(Material::copper);
        const double reactance = std::sqrt(whole * whole - copper * copper);
        INFO(size);
        CHECK(constant(Material::aluminum) ==
              Approx(1 / std::hypot(aluminum, reactance)).epsilon(0.02));
    }
}

TEST_CASE("constants fit the resistance of cold conductors and exceed one over Table 9") {
    // Small sizes: reactance does not count. Copper 10.371 ohm-cmil/ft at 20 C, 0.393 % per degree;
    // aluminum of 61 % conductivity, 0.403 %. At 25 C a constant is the area over the resistivity.
    const CodeBook book(Edition::nec2023);
    const double copper = 10.371 * (1 + 0.00393 * 5);
    const double aluminum = 10.371 / 0.61 * (1 + 0.00403 * 5);
    for (const char* size : {"14", "12", "10", "8"}) {
        const double cmil = book.circular_mils(wire(size))->value;
        const auto constant = [&](Material material) {
            return fault_constant(wire(size), material, RacewayKind::pvc40)->value.value;
        };
        INFO(size);
        CHECK(constant(Material::copper) == Approx(cmil / copper).epsilon(0.005));
        CHECK(constant(Material::aluminum) == Approx(cmil / aluminum).epsilon(0.005));
    }
    // A constant made from Table 9 (75 C) would be lower: fault currents too low, the unsafe side.
    for (const WireSize size : book.listed_sizes(Material::copper))
        for (const RacewayKind raceway : {RacewayKind::emt, RacewayKind::pvc40})
            for (const Material material : {Material::copper, Material::aluminum}) {
                const auto hot = book.ac_impedance(size, material, raceway);
                if (!hot)
                    continue;
                INFO(name(size) << " " << name(material) << " " << name(raceway));
                CHECK(fault_constant(size, material, raceway)->value.value >
                      1 / std::hypot(hot->resistance.value, hot->reactance.value));
            }
}

TEST_CASE("constants grow with the size and are lower in steel") {
    double previous[2][2] = {};
    for (int step = 2; step < 26; ++step)
        for (const int material : {0, 1}) {
            const auto of = [&](RacewayKind kind) {
                return fault_constant(WireSize{step},
                                      material == 0 ? Material::copper : Material::aluminum, kind)
                    ->value.value;
            };
            INFO(name(WireSize{step}));
            CHECK(of(RacewayKind::emt) <= of(RacewayKind::pvc40));
            CHECK(of(RacewayKind::emt) >= previous[material][0]);
            CHECK(of(RacewayKind::pvc40) >= previous[material][1]);
            CHECK(of(RacewayKind::cable) == of(RacewayKind::pvc40));
            previous[material][0] = of(RacewayKind::emt);
            previous[material][1] = of(RacewayKind::pvc40);
        }
}

TEST_CASE("a transformer on the way: what an unlimited source would give is the limit") {
    // f = √3 x I_p x V_p x Z / S. With 20 kA at 480 V and 75 kVA, 2 %: 1.7320508 x 20000 x 480 x
    // 0.02 / 75000 = 4.4341; I_s = 480/208 x 20000 / 5.4341 = 8493.4 A.
    TestDesk desk, unlimited;
    TransformerStepInput input{.available = amps(20000, "I_sc"),
                               .primary = Volts{480},
                               .secondary = Volts{208},
                               .rating = Watts{75000},
                               .impedance = 0.02,
                               .least_impedance = false};
    const auto result = fault_current_after_transformer(desk, input);
    CHECK(result.f == Approx(4.43405));
    CHECK(result.current.value.value == Approx(8493.4).epsilon(1e-4));
    // Physics: the larger the source, the nearer to 75000 / (√3 x 208 x 0.02) = 10,409 A.
    input.available = amps(1e9, "I_sc");
    const auto most = transformer_fault_current(unlimited, {.rating = Watts{75000},
                                                            .secondary = Volts{208},
                                                            .impedance = 0.02,
                                                            .least_impedance = false});
    TestDesk large;
    const auto near = fault_current_after_transformer(large, input).current.value.value;
    CHECK(near == Approx(most.value.value).epsilon(0.001));
    CHECK(near <= most.value.value);
}

TEST_CASE("a transformer's rated current is in amperes, its fault current in kA") {
    // 1500 kVA at 480 V: 1,500,000 / (√3 x 480) = 1804.22 A; over 5 %: 36,084 A.
    TestDesk desk;
    transformer_fault_current(desk, {.rating = Watts{1.5e6},
                                     .secondary = Volts{480},
                                     .impedance = 0.05,
                                     .least_impedance = false});
    CHECK(desk.line("secondary_current").result == "1804.22 A");
    CHECK(desk.line("fault_transformer").figures == "1804.22 A ÷ 5 %");
    CHECK(desk.line("fault_transformer").result == "36.08 kA");
}

TEST_CASE("ratings against faults are in kA, motors beside them in amperes") {
    // 240.86(C): motors up to 1 % of the lower-rated breaker's 100 kA are 1000 A.
    TestDesk desk, low;
    check_interrupting(desk, {.available = kiloamps(110, "I_sc"),
                              .rating = kiloamps(100, "I_rating"),
                              .series = SeriesRating{.rating = Amps{200000},
                                                     .with = "the main breaker",
                                                     .listed = true,
                                                     .marked = true,
                                                     .motors = Amps{1100}}});
    CHECK(desk.line("series_check").comparison == "200 kA ≥ 110 kA");
    CHECK(desk.line("series_motors_most").result == "1000 A");
    CHECK(desk.line("series_motors").comparison == "1100 A > 1000 A");
    const auto result = check_interrupting(
        low, {.available = kiloamps(10.5, "I_sc"), .rating = kiloamps(10, "I_rating")});
    REQUIRE(result.faults.size() == 1);
    CHECK(result.faults[0] == "rating of 10 kA is below the 10.5 kA available");
}

TEST_CASE("sources and motors are added to what the utility feeds") {
    // 8000 + 2 x 48 + 4 x 50 = 8296 A.
    TestDesk desk;
    const auto total = add_fault_contributions(
        desk, amps(8000, "I_sc"), {{"I_PV1", Amps{48}}, {"I_PV2", Amps{48}}}, Amps{50});
    CHECK(total.value == Amps{8296});
    CHECK(desk.line("fault_total").formula == "I_sc + I_PV1 + I_PV2 + 4 × I_motors");
}

TEST_CASE("a device interrupts what is available, to the ampere") {
    const auto passes_at = [](double rating, bool interrupts = true) {
        TestDesk desk;
        const auto result = check_interrupting(desk, {.available = amps(10000, "I_sc"),
                                                      .rating = amps(rating, "I_rating"),
                                                      .interrupts = interrupts});
        CHECK(text(desk.line("interrupting_check").cite) ==
              (interrupts ? "NEC 2023 110.9" : "NEC 2023 110.10"));
        return result.passes;
    };
    CHECK(passes_at(10000));
    CHECK_FALSE(passes_at(9999));
    CHECK(passes_at(10000, false));
    CHECK_FALSE(passes_at(9999, false));
}

TEST_CASE("a series rating passes only as tested, marked, and without larger motors") {
    const SeriesRating good{.rating = Amps{22000},
                            .with = "the main breaker",
                            .listed = true,
                            .marked = true,
                            .motors = Amps{100}};
    const auto judged = [](const SeriesRating& series, double available = 22000) {
        TestDesk desk;
        return check_interrupting(desk, {.available = amps(available, "I_sc"),
                                         .rating = amps(10000, "I_rating"),
                                         .series = series});
    };
    CHECK(judged(good).passes);
    CHECK(judged(good).by_series_rating);
    CHECK_FALSE(judged(good, 22001).passes);
    auto other = good;
    other.listed = false;
    CHECK_FALSE(judged(other).passes);
    other = good;
    other.marked = false;
    CHECK_FALSE(judged(other).passes);
    other = good;
    other.motors = Amps{100.01}; // 1 % of 10,000 A is 100 A
    CHECK(judged(other).faults ==
          std::vector<std::string>{
              "motors of 100.01 A between the series-rated devices are above 100 A"});
    // Fully rated devices do not need it.
    CHECK_FALSE(judged(good, 10000).by_series_rating);
    CHECK(judged(good, 10000).passes);
}

TEST_CASE("fault current is marked on service equipment other than of dwellings") {
    // ecmweb.com code-qa-field-marking-equipment.
    const auto needed = [](FaultMarkingInput input) {
        TestDesk desk;
        const bool result = needs_fault_marking(desk, input);
        CHECK(text(desk.line("fault_marking").cite) == "NEC 2023 110.24(A)");
        return result;
    };
    CHECK(needed({}));
    CHECK_FALSE(needed({.dwelling = true}));
    CHECK_FALSE(needed({.service_equipment = false}));
    CHECK_FALSE(needed({.qualified_industrial = true}));
    TestDesk changed(Edition::nec2017);
    CHECK(needs_fault_marking(changed, {.modified = true}));
    CHECK(text(changed.line("fault_marking").cite) == "NEC 2017 110.24(B)");
}

TEST_CASE("transformer devices: 250 % without rounding up, 125 % with it") {
    // 24 kVA, 480 to 240 V, single phase: 50 A and 100 A. Primary 125 A at most; secondary 125 A.
    CHECK(passes(devices(125, 125)));
    CHECK_FALSE(passes(devices(150, 125)));
    CHECK_FALSE(passes(devices(125, 150)));
    // 25 kVA: 52.08 A and 104.2 A: primary 130.2, not up to 150; secondary 130.2, up to 150.
    auto input = devices(125, 150);
    input.rating = Watts{25000};
    CHECK(passes(input));
    TestDesk desk;
    const auto result = transformer_protection(desk, input);
    CHECK(result.most_primary == Amps{125});
    CHECK(result.most_secondary == Amps{150});
    CHECK(desk.line("primary_most").formula == "largest standard rating ≤ I_p.limit");
    CHECK(desk.line("secondary_most").formula == "next standard rating ≥ I_s.limit");
    input.stated_primary = Amps{150};
    CHECK_FALSE(passes(input));
}

TEST_CASE("transformer protected by its primary device alone: 125, 167 and 300 %") {
    const auto most = [](double rating, DeviceKind kind = DeviceKind::breaker,
                         Edition edition = Edition::nec2023) {
        TestDesk desk(edition);
        return transformer_protection(desk, {.rating = Watts{rating},
                                             .primary = Volts{100},
                                             .secondary = Volts{100},
                                             .phases = 1,
                                             .secondary_device = false,
                                             .device = kind})
            .most_primary.value;
    };
    CHECK(most(900) == 15);                   // 9 A x 1.25 = 11.25 A, up
    CHECK(most(5000) == 70);                  // 50 A x 1.25 = 62.5 A, up
    CHECK(most(890, DeviceKind::fuse) == 10); // 8.9 A x 1.67 = 14.9 A, down
    CHECK(most(890) == 10);                   // a breaker of 10 A since 2023
    CHECK(most(200, DeviceKind::fuse) == 3);  // 2 A x 1.67 = 3.34 A, down
    CHECK(most(199, DeviceKind::fuse) == 3);  // 1.99 A x 3 = 5.97 A, down to 3 A, not 6 A
}

TEST_CASE("shares of the rated current of a transformer, row by row") {
    // Table 450.3(B): lornmac.com low-voltage transformers, sparkshift.app 450.3. Currents of 9 A
    // or more, less than 9 A, less than 2 A.
    const auto share = [](double current, bool both, const char* limit) {
        TestDesk desk;
        transformer_protection(desk, {.rating = Watts{100 * current},
                                      .primary = Volts{100},
                                      .secondary = Volts{100},
                                      .phases = 1,
                                      .secondary_device = both});
        return desk.sheet.find("X." + std::string(limit))->value / current;
    };
    for (const double current : {9.0, 9.5, 100.0}) {
        CHECK(share(current, false, "primary_limit") == Approx(1.25));
        CHECK(share(current, true, "secondary_limit") == Approx(1.25));
    }
    for (const double current : {2.0, 5.0, 8.9})
        CHECK(share(current, false, "primary_limit") == Approx(1.67));
    for (const double current : {0.5, 1.9})
        CHECK(share(current, false, "primary_limit") == Approx(3));
    for (const double current : {0.5, 1.9, 8.9})
        CHECK(share(current, true, "secondary_limit") == Approx(1.67));
    for (const double current : {0.5, 1.9, 8.9, 9.0, 100.0})
        CHECK(share(current, true, "primary_limit") == Approx(2.5));
}

TEST_CASE("a neutral without a constant leaves the fault to it unknown") {
    FaultRunInput input{.available = amps(10000, "I_sc"),
                        .path = FaultPath::line_to_neutral,
                        .voltage = Volts{120},
                        .length = Feet{50},
                        .size = wire("3/0"),
                        .neutral = wire("1250")};
    TestDesk unknown, known;
    const auto result = fault_current_after_run(unknown, input);
    CHECK_FALSE(result.found);
    CHECK(result.current.value == Amps{0});
    input.neutral = wire("1/0");
    CHECK(fault_current_after_run(known, input).found);
}

TEST_CASE("a single-phase transformer on the way has no root of three") {
    // f = I_p x V_p x Z / S = 10000 x 480 x 0.02 / 25000 = 3.84; I_s = 2 x 10000 / 4.84 = 4132.2 A.
    TestDesk desk;
    const auto result = fault_current_after_transformer(desk, {.available = amps(10000, "I_sc"),
                                                               .primary = Volts{480},
                                                               .secondary = Volts{240},
                                                               .rating = Watts{25000},
                                                               .phases = 1,
                                                               .impedance = 0.02,
                                                               .least_impedance = false});
    CHECK(result.f == Approx(3.84));
    CHECK(result.current.value.value == Approx(20000 / 4.84));
}

TEST_CASE("without motors the sources alone are added") {
    TestDesk desk;
    CHECK(add_fault_contributions(desk, amps(8000, "I_sc"), {{"I_PV1", Amps{48}}}).value ==
          Amps{8048});
    CHECK(desk.line("fault_total").formula == "I_sc + I_PV1");
}

TEST_CASE("an unknown fault current is told by the paragraph of the equipment") {
    for (const bool interrupts : {true, false}) {
        TestDesk desk;
        const auto result = check_interrupting(desk, {.available = amps(0, "I_sc"),
                                                      .rating = amps(10000, "I_rating"),
                                                      .interrupts = interrupts});
        CHECK_FALSE(result.passes);
        CHECK(text(desk.line("interrupting_check").cite) ==
              (interrupts ? "NEC 2023 110.9" : "NEC 2023 110.10"));
    }
}

TEST_CASE("a transformer above every standard rating has its share as the limit") {
    // 5 MVA at 480 V, three phases: 6014 A; 125 % = 7518 A, and 240.6(A) ends at 6000 A.
    TestDesk desk;
    const auto result = transformer_protection(desk, {.rating = Watts{5e6},
                                                      .primary = Volts{480},
                                                      .secondary = Volts{208},
                                                      .secondary_device = false});
    CHECK(result.most_primary.value == Approx(1.25 * 5e6 / (std::sqrt(3.0) * 480)));
    CHECK(desk.line("primary_most").source == "no standard rating");
}
