// Conductors of alternating-current circuits: terminations at both ends, sets in parallel, what
// counts for bundling, dwellings, taps and secondaries, loads, voltage over several runs. Published
// cases in cases/ac_conductors.toml; the rest worked beside the checks.
#include <cmath>

#include "base/text.h"
#include "case_runner.h"
#include "catch.h"
#include "csv.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

ConductorInput load(double continuous, double device) {
    return {.continuous = amps(continuous, "I_cont"),
            .required = amps(1.25 * continuous, "I_req"),
            .overcurrent = amps(device, "I_ocpd")};
}

ConductorResult sized(const ConductorInput& input, Edition edition = Edition::nec2023) {
    TestDesk desk(edition);
    return size_conductor(desk, input);
}

Material material_of(const Given& g) { return *parse_material(g.text_or("material", "copper")); }

Answers ampacity(Desk desk, const Given& g) {
    auto input = load(1, 15);
    input.stated = g.wire("size");
    input.ambient = Celsius{g.number_or("ambient", 30)};
    input.current_carrying = g.count_or("current_carrying", 3);
    const auto result = size_conductor(desk, input);
    return {{"bundling", result.bundling_factor}, {"corrected", result.ampacity_corrected.value}};
}

Answers smallest(Desk desk, const Given& g) {
    const auto result = size_conductor(desk, {.continuous = amps(g.number("continuous"), "I_cont"),
                                              .required = amps(g.number("required"), "I_req"),
                                              .overcurrent = amps(g.number("device"), "I_ocpd"),
                                              .ambient = Celsius{g.number_or("ambient", 30)},
                                              .current_carrying = g.count_or("current_carrying", 3),
                                              .sets_in_parallel = g.count_or("sets", 1)});
    return {{"size", name(result.size)}, {"ampacity", result.ampacity.value}};
}

Answers parallel(Desk desk, const Given& g) {
    auto device = amps(g.number_or("device", 0), "I_ocpd");
    if (g.has("setting"))
        device = adjustable_rating(desk, {.largest = Amps{g.number("largest_setting")},
                                          .setting = Amps{g.number("setting")},
                                          .access = TripAccess::sealed_cover});
    auto input = load(1, 0);
    input.overcurrent = device;
    input.stated = g.wire("size");
    input.sets_in_parallel = g.count_or("sets", 1);
    const auto result = size_conductor(desk, input);
    const Derivation* largest = desk.sheet.find("X.largest_device");
    return {{"ampacity", result.ampacity.value},
            {"device", device.value.value},
            {"largest_device", largest == nullptr ? 0 : largest->value},
            {"passes", yes_or_no(result.passes)}};
}

Answers dwelling(Desk desk, const Given& g) {
    auto input = load(0, g.number("rating"));
    input.dwelling_service = true;
    input.material = material_of(g);
    const auto result = size_conductor(desk, input);
    return {{"share", desk.sheet.find("X.service_share")->value}, {"size", name(result.size)}};
}

CircuitWiring wiring(const std::string& words) {
    if (words == "two wire")
        return CircuitWiring::two_wire;
    if (words == "split phase")
        return CircuitWiring::split_phase;
    return words == "two lines of wye" ? CircuitWiring::two_lines_of_wye
                                       : CircuitWiring::three_phase_neutral;
}

Answers count(Desk desk, const Given& g) {
    const auto count_in = [&](Desk where, const char* key) {
        std::vector<CountedCircuit> circuits;
        for (const std::string& words : g.texts(key))
            circuits.push_back({.wiring = wiring(words), .nonlinear = g.flag("nonlinear")});
        return count_current_carrying(where, circuits).value.value;
    };
    Worksheet aside;
    return {{"count", count_in(desk, "circuits")},
            {"instead", count_in({aside, desk.book, desk.subject}, "instead")}};
}

/// The smallest copper conductor that a tap rule is content with.
std::string size_for(const Desk& desk, const TapResult& result, double device) {
    Worksheet aside;
    auto input = load(1, device);
    input.other_protection = OtherProtection{given("I_least", result.least), result.rule_id};
    return name(size_conductor({aside, desk.book, desk.subject}, input).size);
}

TapEnd end_of(const Given& g) {
    return {.device = amps(g.number("device"), "I_end"),
            .outdoors = g.flag("outdoors"),
            .disconnect_at_entrance = g.flag("outdoors")};
}

Answers tap(Desk desk, const Given& g) {
    TapInput input{.feeder = amps(g.number("feeder"), "I_feeder"),
                   .ampacity = amps(0, "I_z"),
                   .length = Feet{g.number("length")},
                   .end = end_of(g)};
    const auto result = check_tap(desk, input);
    Answers answers{{"least", result.least.value},
                    {"rule", result.rule_id},
                    {"paragraph", desk.book.cite(result.rule_id).section},
                    {"size", size_for(desk, result, g.number("device"))}};
    if (g.has("size_tried")) {
        Worksheet aside;
        input.ampacity =
            given("I_z", *desk.book.ampacity(g.wire("size_tried"), Material::copper, 75));
        input.end.device = amps(g.number("device_tried"), "I_end");
        answers["tried"] = yes_or_no(check_tap({aside, desk.book, desk.subject}, input).passes);
    }
    return answers;
}

Answers secondary(Desk desk, const Given& g) {
    const auto result =
        check_secondary(desk, {.primary_device = amps(g.number("primary_device"), "I_primary"),
                               .primary = Volts{g.number("primary")},
                               .secondary = Volts{g.number("secondary")},
                               .ampacity = amps(0, "I_z"),
                               .length = Feet{g.number("length")},
                               .end = end_of(g)});
    return {{"least", result.least.value},
            {"rule", result.rule_id},
            {"size", size_for(desk, result, g.number("device"))}};
}

Answers required(Desk desk, const Given& g) {
    const auto result = required_for_load(
        desk, {.continuous = amps(g.number("continuous"), "I_cont")}, g.text("rule"));
    return {{"required", result.value.value}};
}

Answers voltage(Desk desk, const Given& g) {
    const auto result = voltage_change(desk, {.current = amps(g.number("current")),
                                              .one_way = Feet{g.number("length")},
                                              .size = g.wire("size"),
                                              .material = material_of(g),
                                              .nominal = Volts{g.number("nominal")},
                                              .phases = g.count_or("phases", 1),
                                              .power_factor = g.number_or("power_factor", 1)});
    return {{"volts", result.volts.value}, {"percent", 100 * result.fraction}};
}

const Procedures procedures = {
    {"ampacity", ampacity},   {"smallest", smallest}, {"parallel", parallel},
    {"dwelling", dwelling},   {"count", count},       {"tap", tap},
    {"secondary", secondary}, {"load", required},     {"voltage", voltage}};

bool fails(const ConductorResult& result, const char* rule) {
    return std::find(result.fault_rules.begin(), result.fault_rules.end(), rule) !=
           result.fault_rules.end();
}

} // namespace

TEST_CASE("published worked examples of conductors") {
    CHECK(run_cases("ac_conductors", procedures) >= 25);
}

TEST_CASE("terminations: the lower of both ends, by marking or by rating") {
    const auto column = [](std::vector<Termination> ends, double device = 60) {
        auto input = load(10, device);
        input.stated = wire("1/0");
        input.terminations = std::move(ends);
        return sized(input).terminal_column;
    };
    const Termination marked_75{.at = "panel", .marked = Celsius{75}};
    const Termination unmarked{.at = "switch"};
    CHECK(column({marked_75, marked_75}) == 75);
    CHECK(column({marked_75, unmarked}) == 60);
    CHECK(column({unmarked, marked_75}) == 60);
    // 110.14(C)(1): to 100 A and above; terminals marked for 14-1 AWG stay small beyond 100 A.
    CHECK(column({unmarked}, 100) == 60);
    CHECK(column({unmarked}, 110) == 75);
    CHECK(column({{.at = "switch", .sizes = MarkedSizes::to_1_awg}}, 110) == 60);
    CHECK(column({{.at = "switch", .marked = Celsius{75}, .sizes = MarkedSizes::to_1_awg}}, 110) ==
          75);
    CHECK(column({{.at = "switch", .sizes = MarkedSizes::above_1_awg}}, 100) == 75);
    // Equipment marked for 90 C is still held to 75 C; a connector of its own is not.
    const Termination marked_90{.at = "panel", .marked = Celsius{90}};
    CHECK(column({marked_90}) == 75);
    CHECK(column({{.at = "splice", .marked = Celsius{90}, .separate_connector = true}}) == 90);
    CHECK(column({{.at = "splice", .separate_connector = true}, marked_75}) == 60);
}

TEST_CASE("terminations: the calculation names the end that decides") {
    TestDesk desk;
    auto input = load(30, 50);
    input.terminations = {{.at = "panel P1", .marked = Celsius{75}}, {.at = "switch Q2"}};
    size_conductor(desk, input);
    CHECK(desk.line("ampacity_terminals").source ==
          "Table 310.16, 6 AWG CU, 60 °C column; terminations 60 °C, lowest at switch Q2");
    CHECK(text(desk.line("ampacity_terminals").cite) == "NEC 2023 110.14(C)(1)(a)");
}

TEST_CASE("ambient by the equation: between the steps of the table, and beyond its end") {
    auto input = load(10, 20);
    input.stated = wire("10");
    input.ambient_by_equation = true;
    input.ambient = Celsius{33};
    // √((90 - 33) / 60) = 0.97468; the table takes 0.96 from 31 to 35 C.
    CHECK(sized(input).ambient_factor == Approx(0.974679));
    input.ambient = Celsius{86}; // √(4 / 60); the table ends at 85 C
    CHECK(sized(input).ambient_factor == Approx(0.258199));
    input.ambient = Celsius{90};
    CHECK_FALSE(sized(input).passes);
    input.ambient = Celsius{33};
    TestDesk desk(Edition::nec2020);
    size_conductor(desk, input);
    CHECK(desk.line("ambient_factor").source == "√((90 °C − 33 °C) ÷ (90 °C − 30 °C))");
}

TEST_CASE("bundling: no adjustment in a nipple to 24 in") {
    auto input = load(10, 20);
    input.stated = wire("10");
    input.current_carrying = 9;
    input.bundled_length = Feet{2};
    CHECK(sized(input).bundling_factor == 1);
    input.bundled_length = Feet{2.01};
    CHECK(sized(input).bundling_factor == 0.7);
    TestDesk desk(Edition::nec2017);
    input.bundled_length = Feet{1.5};
    size_conductor(desk, input);
    CHECK(text(desk.line("bundling_factor").cite) == "NEC 2017 310.15(B)(3)(a)(2)");
    CHECK(desk.line("bundling_factor").source == "together for 18 in, not over 24 in");
}

TEST_CASE("current-carrying conductors of each kind of circuit") {
    // 310.15(E) and its two predecessors; forums.mikeholt.com 2562113, 2586528.
    const auto of = [](CircuitWiring wiring, bool nonlinear = false) {
        return current_carrying_of({.wiring = wiring, .nonlinear = nonlinear});
    };
    CHECK(of(CircuitWiring::two_wire) == 2);
    CHECK(of(CircuitWiring::direct_current) == 2);
    CHECK(of(CircuitWiring::split_phase) == 2);
    CHECK(of(CircuitWiring::two_lines_of_wye) == 3);
    CHECK(of(CircuitWiring::three_phase) == 3);
    CHECK(of(CircuitWiring::three_phase_neutral) == 3);
    CHECK(of(CircuitWiring::three_phase_neutral, true) == 4);
    CHECK(of(CircuitWiring::high_leg_delta) == 3);
    TestDesk desk(Edition::nec2017);
    const auto sum =
        count_current_carrying(desk, {{.wiring = CircuitWiring::split_phase, .sets = 2},
                                      {.wiring = CircuitWiring::two_lines_of_wye}});
    CHECK(sum.value.value == 7);
    CHECK(desk.line("current_carrying").formula == "2 × N_1 + N_2");
    CHECK(text(desk.line("counted_1").cite) == "NEC 2017 310.15(B)(5)(a)");
    CHECK(text(desk.line("counted_2").cite) == "NEC 2017 310.15(B)(5)(b)");
    TestDesk none;
    CHECK(count_current_carrying(none, {}).value.value == 0);
}

TEST_CASE("the neutral of two lines of a wye carries about the current of a line") {
    // Currents A and B, 120 degrees apart: √(A² + B² - A x B), which is A when A = B.
    const auto neutral = [](double a, double b) { return std::sqrt(a * a + b * b - a * b); };
    CHECK(neutral(40, 40) == Approx(40));
    CHECK(neutral(40, 0) == Approx(40));
}

TEST_CASE("parallel: 1/0 AWG is the smallest") {
    auto input = load(100, 125);
    input.sets_in_parallel = 2;
    CHECK(sized(input).size == wire("1/0"));
    CHECK(sized(input).governs == "smallest size in parallel governs");
    input.stated = wire("1/0");
    CHECK(sized(input).passes);
    input.stated = wire("1");
    const auto small = sized(input);
    CHECK(small.fault_rules == std::vector<std::string>{"conductor.parallel"});
    CHECK(small.faults == std::vector<std::string>{"1 AWG in parallel is smaller than 1/0 AWG"});
    CHECK(small.smallest_that_complies == wire("1/0"));
    // One set may be as small as it likes.
    input.sets_in_parallel = 1;
    input.stated = wire("1");
    CHECK_FALSE(fails(sized(input), "conductor.parallel"));
}

TEST_CASE("parallel: the sets carry the current together, each under its own factors") {
    // 600 A of 480 A continuous: two sets of 350 kcmil copper have 2 x 310 = 620 A at 75 C; with
    // six in one raceway 2 x 350 x 0.8 = 560 A: 600 A is the next rating above. 300 kcmil has 570.
    TestDesk desk(Edition::nec2020);
    auto input = load(480, 600);
    input.sets_in_parallel = 2;
    input.current_carrying = 6;
    const auto result = size_conductor(desk, input);
    CHECK(result.size == wire("350"));
    CHECK(result.ampacity == Amps{560});
    CHECK(desk.line("terminals_check").formula == "2 × I_term ≥ I_req");
    CHECK(desk.line("terminals_check").figures == "2 × 310 A ≥ 600 A");
    CHECK(desk.line("corrected_check").formula == "2 × I_cor ≥ I_cont");
    CHECK(desk.line("ampacity_each").formula == "lesser of I_cor and I_term");
    CHECK(desk.line("ampacity").formula == "2 × I_each");
    CHECK(desk.line("largest_device").result == "600 A");
    CHECK(desk.line("size").result == "2 sets of 350 kcmil CU");
    CHECK(text(desk.line("parallel_check").cite) == "NEC 2020 310.10(G)");
}

TEST_CASE("parallel: above 800 A the ampacity is not rounded up") {
    // Three sets of 500 kcmil: 1140 A, below a device of 1200 A; of 600 kcmil: 1260 A.
    auto input = load(900, 1200);
    input.required = amps(1125, "I_req");
    input.sets_in_parallel = 3;
    input.stated = wire("500");
    CHECK(sized(input).fault_rules == std::vector<std::string>{"conductor.protection.large"});
    input.stated = wire("600");
    CHECK(sized(input).passes);
    // Two sets of 500 kcmil, 760 A: 800 A is the last that may be rounded up to.
    input = load(600, 800);
    input.sets_in_parallel = 2;
    input.stated = wire("500");
    CHECK(sized(input).passes);
    input.overcurrent = amps(801, "I_ocpd");
    CHECK_FALSE(sized(input).passes);
}

TEST_CASE("parallel: an equipment ground of the full size in each raceway") {
    // engineerboards.com 4390: by the device, in each raceway. 400 A: 3 AWG copper.
    TestDesk desk(Edition::nec2017), large;
    const auto result = size_equipment_ground(desk, {.overcurrent = amps(400, "I_ocpd"),
                                                     .phase_needed = wire("3/0"),
                                                     .phase_installed = wire("3/0"),
                                                     .raceways = 2});
    CHECK(result.size == wire("3"));
    CHECK(desk.line("equipment_ground").result == "3 AWG CU in each of 2 raceways");
    CHECK(text(desk.line("equipment_ground").cite) == "NEC 2017 250.122(F)");
    // 2000 A of ten sets of 3/0: 250 kcmil, though each phase conductor is smaller.
    CHECK(size_equipment_ground(large, {.overcurrent = amps(2000, "I_ocpd"),
                                        .phase_needed = wire("3/0"),
                                        .phase_installed = wire("3/0"),
                                        .raceways = 10})
              .size == wire("250"));
}

TEST_CASE("protection: no next size up for portable loads; fuses know 601 A") {
    // 8 AWG at 50 C of six: 55 x 0.82 x 0.8 = 36.08 A, next 40 A.
    auto input = load(30, 40);
    input.required = amps(37, "I_req");
    input.ambient = Celsius{50};
    input.current_carrying = 6;
    input.stated = wire("8");
    CHECK(sized(input).passes);
    input.portable_loads = true;
    CHECK(sized(input).fault_rules == std::vector<std::string>{"conductor.protection.portable"});
    input.overcurrent = amps(35, "I_ocpd");
    CHECK(sized(input).passes);
    // Two sets of 400 kcmil at 52.55 C by the equation: 2 x 380 x √(37.45 / 60) = 600.4 A: a fuse
    // of 601 A is next, or a breaker of 700 A.
    input = load(450, 601);
    input.sets_in_parallel = 2;
    input.stated = wire("400");
    input.ambient_by_equation = true;
    input.ambient = Celsius{52.55};
    TestDesk fuse, breaker;
    size_conductor(breaker, input);
    CHECK(breaker.line("largest_device").value == 700);
    input.device = DeviceKind::fuse;
    size_conductor(fuse, input);
    CHECK(fuse.line("largest_device").value == 601);
}

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

TEST_CASE("taps: 10 ft, by its end, its load and a tenth of the device ahead") {
    const auto tap = [](double ampacity, double length, TapEnd end) {
        TestDesk desk;
        return check_tap(desk, {.feeder = amps(400, "I_feeder"),
                                .ampacity = amps(ampacity, "I_z"),
                                .length = Feet{length},
                                .end = std::move(end)});
    };
    const TapEnd to_100{.device = amps(100, "I_end")};
    CHECK(tap(100, 10, to_100).passes);
    CHECK(tap(100, 10, to_100).rule_id == "tap.10_ft");
    CHECK_FALSE(tap(99.9, 10, to_100).passes);
    CHECK_FALSE(tap(100, 10.01, to_100).passes); // 25 ft asks for 133.3 A
    CHECK(tap(40, 10, {.device = amps(30, "I_end")}).passes);
    CHECK_FALSE(tap(39.9, 10, {.device = amps(30, "I_end")}).passes);
    // Within the enclosure of the connection the tenth is not asked.
    CHECK(tap(30, 10, {.device = amps(30, "I_end"), .leaves_enclosure = false}).passes);
    CHECK_FALSE(tap(60, 10, {.load = amps(61, "I_load"), .device = amps(30, "I_end")}).passes);
    CHECK(tap(200, 10, {.equipment = amps(200, "I_eq"), .single_device = false}).passes);
    CHECK_FALSE(tap(199, 10, {.equipment = amps(200, "I_eq"), .single_device = false}).passes);
    CHECK_FALSE(
        tap(100, 10, {.device = amps(100, "I_end"), .protected_from_damage = false}).passes);
    CHECK_FALSE(tap(100, 10, {}).passes); // nothing is known of its end
}

TEST_CASE("taps: 25 ft, a third of the device ahead and one device at the end") {
    const auto tap = [](double ampacity, double length, TapEnd end) {
        TestDesk desk(Edition::nec2017);
        return check_tap(desk, {.feeder = amps(600, "I_feeder"),
                                .ampacity = amps(ampacity, "I_z"),
                                .length = Feet{length},
                                .end = std::move(end)});
    };
    CHECK(tap(200, 25, {.device = amps(175, "I_end")}).passes);
    CHECK_FALSE(tap(199.9, 25, {.device = amps(175, "I_end")}).passes);
    CHECK_FALSE(tap(200, 25.1, {.device = amps(175, "I_end")}).passes);
    // 240.4(B) is out: a device above the ampacity is one too many, by whatever little.
    CHECK(tap(200, 25, {.device = amps(200, "I_end")}).passes);
    CHECK_FALSE(tap(200, 25, {.device = amps(201, "I_end")}).passes);
    CHECK_FALSE(tap(200, 25, {.device = amps(175, "I_end"), .single_device = false}).passes);
    CHECK_FALSE(
        tap(200, 25, {.device = amps(175, "I_end"), .protected_from_damage = false}).passes);
    // Outdoors the length is free.
    const TapEnd outside{
        .device = amps(150, "I_end"), .outdoors = true, .disconnect_at_entrance = true};
    CHECK(tap(150, 300, outside).passes);
    CHECK(tap(150, 300, outside).rule_id == "tap.outdoors");
    CHECK_FALSE(tap(149.9, 300, outside).passes);
    auto without = outside;
    without.disconnect_at_entrance = false;
    CHECK_FALSE(tap(150, 300, without).passes);
}

TEST_CASE("taps: every rule is listed with its comparison or why it does not apply") {
    TestDesk desk(Edition::nec2017);
    const auto result = check_tap(desk, {.feeder = amps(100, "I_feeder"),
                                         .ampacity = amps(35, "I_z"),
                                         .length = Feet{20},
                                         .end = {.device = amps(30, "I_end")}});
    REQUIRE(result.options.size() == 3);
    CHECK(result.options[0].reason == "20 ft is over 10 ft");
    CHECK(result.options[1].reason == "35 A ≥ 33.33 A; 35 A ≥ 30 A");
    CHECK(result.options[2].reason == "the conductors are not outdoors up to their end");
    CHECK(desk.line("tap_25_ft_share").formula == "I_feeder ÷ 3");
    CHECK(text(desk.line("tap_25_ft_share").cite) == "NEC 2017 240.21(B)(2)");
    CHECK(result.options[1].steps.size() == 3);
}

TEST_CASE("taps: a transformer tapped from a feeder") {
    // 300 A ahead, 480 to 240 V: primary 100 A; secondary 100 x 2 = 200 A; 25 ft together.
    const auto tap = [](double primary, double secondary, double length, double device = 200) {
        TestDesk desk;
        return check_transformer_tap(desk, {.feeder = amps(300, "I_feeder"),
                                            .primary_ampacity = amps(primary, "I_p"),
                                            .secondary_ampacity = amps(secondary, "I_s"),
                                            .primary = Volts{480},
                                            .secondary = Volts{240},
                                            .length = Feet{length},
                                            .end = {.device = amps(device, "I_end")}})
            .passes;
    };
    CHECK(tap(100, 200, 25));
    CHECK_FALSE(tap(99.9, 200, 25));
    CHECK_FALSE(tap(100, 199.9, 25));
    CHECK_FALSE(tap(100, 200, 25.1));
    CHECK_FALSE(tap(100, 200, 25, 201));
}

TEST_CASE("secondaries: 10 ft, 25 ft, and protection by the primary device") {
    // Primary device of 100 A, 480 to 240 V: 200 A as seen from the secondary.
    const auto check = [](double ampacity, double length, double device, bool simple = false) {
        TestDesk desk;
        return check_secondary(desk, {.primary_device = amps(100, "I_primary"),
                                      .primary = Volts{480},
                                      .secondary = Volts{240},
                                      .simple_winding = simple,
                                      .ampacity = amps(ampacity, "I_z"),
                                      .length = Feet{length},
                                      .end = {.device = amps(device, "I_end")}});
    };
    CHECK(check(50, 10, 50).rule_id == "tap.secondary.10_ft");
    CHECK(check(50, 10, 50).passes);
    CHECK_FALSE(check(49.9, 10, 50).passes);
    CHECK(check(20, 10, 15).passes); // a tenth of 200 A
    CHECK_FALSE(check(19.9, 10, 15).passes);
    CHECK(check(66.67, 25, 60).passes); // a third
    CHECK(check(66.67, 25, 60).rule_id == "tap.secondary.25_ft");
    CHECK_FALSE(check(66.66, 25, 60).passes);
    CHECK_FALSE(check(66.67, 25.1, 60).passes);
    // Two-wire, or delta of a delta: 100 A x 480 / 240.
    CHECK(check(200, 300, 200, true).rule_id == "tap.secondary.by_primary");
    CHECK(check(200, 300, 200, true).passes);
    CHECK_FALSE(check(199.9, 300, 200, true).passes);
    CHECK_FALSE(check(200, 300, 200).passes);
}

TEST_CASE("a tap's conductor is sized by its rule, without rounding up and without 240.4(D)") {
    auto input = load(10, 100);
    input.required = amps(12.5, "I_req");
    input.other_protection = OtherProtection{amps(115, "I_least"), "tap.25_ft"};
    CHECK(sized(input).size == wire("2")); // 115 A at 75 C, equal to what is asked
    input.other_protection->least = amps(115.01, "I_least");
    CHECK(sized(input).size == wire("1"));
    CHECK(sized(input).governs == "protection at the end of the tap governs");
    input.other_protection->least = amps(20, "I_least");
    CHECK(sized(input).size == wire("12"));
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
