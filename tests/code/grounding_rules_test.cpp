// Equipment grounding conductors. Rows by hand from the published tables in tests/data.
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

EquipmentGroundInput ground(double device, const char* needed, const char* installed) {
    return {.overcurrent = amps(device, "I_ocpd"),
            .phase_needed = wire(needed),
            .phase_installed = wire(installed)};
}

WireSize size_of(const EquipmentGroundInput& input) {
    TestDesk desk;
    return size_equipment_ground(desk, input).size;
}

} // namespace

TEST_CASE("equipment ground by device") {
    CHECK(size_of(ground(20, "12", "12")) == wire("12"));
    CHECK(size_of(ground(60, "6", "6")) == wire("10"));
    CHECK(size_of(ground(61, "4", "4")) == wire("8"));
    CHECK(size_of(ground(100, "3", "3")) == wire("8"));
    CHECK(size_of(ground(200, "3/0", "3/0")) == wire("6"));
}

TEST_CASE("equipment ground grows with the phase conductors, by area") {
    // 60 A, 10 AWG (10 380 cmil). Phases 6 to 4 AWG: x 41 740 / 26 240 = 16 512 cmil; 8 AWG has
    // 16 510, two circular mils less: 6 AWG. The ratio that 8 AWG allows is 1.5906, ours 1.5907.
    CHECK(size_of(ground(60, "6", "4")) == wire("6"));
    // Phases 8 to 6 AWG: x 26 240 / 16 510 = 16 497 cmil: 8 AWG.
    CHECK(size_of(ground(60, "8", "6")) == wire("8"));
    TestDesk desk;
    size_equipment_ground(desk, ground(60, "8", "6"));
    CHECK(desk.line("equipment_ground_area").formula == "A_base × A_used ÷ A_needed");
    CHECK(desk.line("equipment_ground_area").figures == "10380 cmil × 26240 cmil ÷ 16510 cmil");
    CHECK(desk.line("equipment_ground").governs == "increase of the phase conductors governs");
    CHECK(desk.line("equipment_ground").result == "8 AWG CU");
}

TEST_CASE("equipment ground need not be larger than the phase conductors") {
    CHECK(size_of(ground(100, "10", "10")) == wire("10"));
    CHECK(size_of(ground(20, "12", "6")) == wire("6"));
}

TEST_CASE("equipment ground of a PV circuit does not grow with the phases") {
    auto input = ground(20, "12", "6");
    input.pv_circuit = true;
    TestDesk desk;
    CHECK(size_equipment_ground(desk, input).size == wire("12"));
    CHECK(text(desk.line("equipment_ground").cite) == "NEC 2023 690.45");
}

TEST_CASE("a stated equipment ground is judged") {
    auto input = ground(60, "6", "6");
    input.stated = wire("10");
    TestDesk enough;
    CHECK(size_equipment_ground(enough, input).passes);
    CHECK(enough.line("equipment_ground_check").comparison == "10 AWG is not smaller than 10 AWG");
    input.stated = wire("12");
    TestDesk small;
    CHECK_FALSE(size_equipment_ground(small, input).passes);
    CHECK(small.line("equipment_ground_check").comparison == "12 AWG is smaller than 10 AWG");
}

TEST_CASE("a device above the table is not guessed at") {
    TestDesk desk;
    CHECK_FALSE(size_equipment_ground(desk, ground(6001, "1000", "1000")).passes);
    CHECK(desk.line("equipment_ground").verdict == Verdict::fail);
}

TEST_CASE("2017 counts the increase from the smallest before adjustment") {
    // 40 A: 8 AWG before, 6 AWG after adjustment for many conductors, 6 AWG used.
    auto input = ground(40, "6", "6");
    input.phase_before_factors = wire("8");
    TestDesk before(Edition::nec2017), since(Edition::nec2020);
    // 10 380 x 26 240 / 16 510 = 16 497 cmil: 8 AWG.
    CHECK(size_equipment_ground(before, input).size == wire("8"));
    CHECK(before.line("equipment_ground_area_needed").title ==
          "Area of the phase conductors needed, before adjustment");
    CHECK(size_equipment_ground(since, input).size == wire("10"));
    // Where it is not known, 2017 counts from the size that complies as well.
    input.phase_before_factors.reset();
    TestDesk unknown(Edition::nec2017);
    CHECK(size_equipment_ground(unknown, input).size == wire("10"));
}

TEST_CASE("since 2020 a qualified person may size it instead of the increase") {
    auto input = ground(20, "12", "6");
    input.sized_by = "calculation 4";
    TestDesk since(Edition::nec2020), before(Edition::nec2017);
    CHECK(size_equipment_ground(since, input).size == wire("12"));
    CHECK(since.line("equipment_ground_person").comparison == "stated: calculation 4");
    CHECK(text(since.line("equipment_ground_person").cite) == "NEC 2020 250.122(B) Exception");
    CHECK(size_equipment_ground(before, input).size == wire("6"));
    CHECK_FALSE(before.has("equipment_ground_person"));
    // Where nothing was increased there is nothing to say.
    input = ground(20, "12", "12");
    input.sized_by = "calculation 4";
    TestDesk plain;
    size_equipment_ground(plain, input);
    CHECK_FALSE(plain.has("equipment_ground_person"));
}

TEST_CASE("parallel raceways hold a full conductor each") {
    // 800 A: 1/0 AWG copper in each of two raceways with 500 kcmil.
    auto input = ground(800, "500", "500");
    input.parallel_sets = 2;
    input.separate_raceways = true;
    TestDesk desk;
    const auto result = size_equipment_ground(desk, input);
    CHECK(result.size == wire("1/0"));
    CHECK(result.count == 2);
    CHECK(text(desk.line("equipment_ground").cite) == "NEC 2023 250.122(F)");
    CHECK(desk.line("equipment_ground").title ==
          "Equipment grounding conductor, one in each of 2 raceways");
    // One set does not limit it: 2000 A asks for 250 kcmil beside 4/0 AWG.
    input = ground(2000, "4/0", "4/0");
    input.parallel_sets = 9;
    input.separate_raceways = true;
    CHECK(size_of(input) == wire("250"));
    // In one raceway one conductor does.
    input.separate_raceways = false;
    TestDesk one;
    CHECK(size_equipment_ground(one, input).count == 1);
}

TEST_CASE("one conductor for all circuits of a raceway") {
    TestDesk desk;
    const auto shared = size_shared_equipment_ground(
        desk, {ground(20, "12", "12"), ground(100, "3", "3"), ground(60, "6", "6")});
    CHECK(shared.size == wire("8"));
    CHECK(shared.governs == 1);
    CHECK(shared.passes);
    CHECK(desk.line("equipment_ground_shared").title == "One conductor for 3 circuits");
    // An increase may make a smaller device decide: 20 A on 4 AWG asks for 4 AWG.
    TestDesk grown;
    CHECK(size_shared_equipment_ground(grown, {ground(20, "12", "4"), ground(100, "3", "3")})
              .governs == 0);
    TestDesk beyond;
    CHECK_FALSE(
        size_shared_equipment_ground(beyond, {ground(20, "12", "12"), ground(6001, "1000", "1000")})
            .passes);
}

namespace {

RacewayGroundInput raceway(RacewayKind kind, const char* trade, double device, double length) {
    return {.kind = kind,
            .trade = *parse_trade_size(trade),
            .overcurrent = amps(device, "I_ocpd"),
            .flexible_length = Feet{length},
            .listed_fittings = true};
}

bool may_ground(const RacewayGroundInput& input, Edition edition = Edition::nec2023) {
    TestDesk desk(edition);
    return all_pass(check_raceway_ground(desk, input));
}

} // namespace

TEST_CASE("raceways as equipment grounding conductors") {
    for (const Edition edition : all_editions) {
        CHECK(may_ground(raceway(RacewayKind::emt, "2", 400, 100), edition));
        CHECK(may_ground(raceway(RacewayKind::rmc, "4", 1000, 100), edition));
        CHECK_FALSE(may_ground(raceway(RacewayKind::pvc40, "1", 20, 1), edition));
        CHECK_FALSE(may_ground(raceway(RacewayKind::lfnc, "1", 20, 1), edition));
        // Flexible metal: 20 A, 6 ft, 1-1/4.
        CHECK(may_ground(raceway(RacewayKind::fmc, "1-1/4", 20, 6), edition));
        CHECK_FALSE(may_ground(raceway(RacewayKind::fmc, "1-1/2", 20, 6), edition));
        CHECK_FALSE(may_ground(raceway(RacewayKind::fmc, "1", 25, 6), edition));
        CHECK_FALSE(may_ground(raceway(RacewayKind::fmc, "1", 20, 6.1), edition));
        // Liquidtight: 20 A to 1/2, 60 A to 1-1/4.
        CHECK(may_ground(raceway(RacewayKind::lfmc, "1/2", 20, 6), edition));
        CHECK_FALSE(may_ground(raceway(RacewayKind::lfmc, "1/2", 25, 6), edition));
        CHECK(may_ground(raceway(RacewayKind::lfmc, "3/4", 60, 6), edition));
        CHECK_FALSE(may_ground(raceway(RacewayKind::lfmc, "1-1/4", 70, 6), edition));
        CHECK_FALSE(may_ground(raceway(RacewayKind::lfmc, "1-1/2", 20, 6), edition));
        // 250.118(5) and (6): 20 or 60 amperes or less, and 6 ft, not a little more.
        CHECK_FALSE(may_ground(raceway(RacewayKind::fmc, "1", 20.5, 6), edition));
        CHECK_FALSE(may_ground(raceway(RacewayKind::lfmc, "1/2", 20.5, 6), edition));
        CHECK_FALSE(may_ground(raceway(RacewayKind::lfmc, "1/2", 20, 6.1), edition));
        CHECK_FALSE(may_ground(raceway(RacewayKind::lfmc, "1", 60.5, 6), edition));
        CHECK_FALSE(may_ground(raceway(RacewayKind::lfmc, "1", 60, 6.1), edition));
    }
}

TEST_CASE("flexible raceways that move, or end in unknown fittings, need a wire") {
    auto input = raceway(RacewayKind::lfmc, "3/4", 60, 6);
    input.moves = true;
    CHECK_FALSE(may_ground(input));
    input.moves = false;
    input.listed_fittings = false;
    CHECK_FALSE(may_ground(input));
    input.listed_fittings = true;
    input.smaller_in_path = true;
    CHECK_FALSE(may_ground(input));
    // In a 1/2 in one there is no smaller limit to fall below.
    input = raceway(RacewayKind::lfmc, "1/2", 20, 6);
    input.smaller_in_path = true;
    CHECK(may_ground(input));
}

TEST_CASE("a PV circuit's equipment ground is 14 AWG at least, 690.45") {
    // 16 AWG conductors behind 10 A: not larger than the circuit conductors, 250.122(A), would be
    // 16 AWG.
    auto input = ground(10, "16", "16");
    CHECK(size_of(input) == wire("16"));
    input.pv_circuit = true;
    TestDesk desk;
    CHECK(size_equipment_ground(desk, input).size == wire("14"));
    CHECK(desk.line("equipment_ground").governs == "overcurrent device governs"); // 15 A row: 14
}

TEST_CASE("phase conductors without an area ask for no increase that could be worked out") {
    // Table 8 ends at 1000 kcmil here. 1200 A: 3/0 AWG by Table 250.122.
    CHECK(size_of(ground(1200, "1250", "1250")) == wire("3/0"));
    CHECK(size_of(ground(1200, "1000", "1250")) == wire("3/0"));
    // 6000 A: 1250 kcmil aluminum, of which there is no area to increase, and no larger size.
    auto input = ground(6000, "500", "600");
    input.material = Material::aluminum;
    input.parallel_sets = 16;
    CHECK(size_of(input) == wire("1250"));
}

TEST_CASE("one conductor for several circuits fails where the table ends below one device") {
    TestDesk desk;
    const auto result =
        size_shared_equipment_ground(desk, {ground(6001, "500", "500"), ground(20, "12", "12")});
    CHECK_FALSE(result.passes);
}

TEST_CASE("an equipment ground that is the smallest of a PV circuit by itself is the table's") {
    // Table 250.122: 15 A, 14 AWG copper, which is the floor of 690.45 too.
    auto input = ground(15, "10", "10");
    input.pv_circuit = true;
    TestDesk desk;
    CHECK(size_equipment_ground(desk, input).size == wire("14"));
    CHECK(desk.line("equipment_ground").governs == "overcurrent device governs");
    CHECK(desk.line("equipment_ground").title == "Equipment grounding conductor");
    // 60 A, 10 AWG, beside conductors of 14 AWG: cut down to them, and not below the floor.
    input = ground(60, "14", "14");
    input.pv_circuit = true;
    TestDesk capped;
    CHECK(size_equipment_ground(capped, input).size == wire("14"));
    CHECK(capped.line("equipment_ground").governs ==
          "need not be larger than the circuit conductors");
}

TEST_CASE("an equipment ground that grew to the size of the circuit conductors is not cut down") {
    // 20 A, 12 AWG; phases 12 to 6 AWG make 6 AWG of it.
    TestDesk desk;
    CHECK(size_equipment_ground(desk, ground(20, "12", "6")).size == wire("6"));
    CHECK(desk.line("equipment_ground").governs == "increase of the phase conductors governs");
}

TEST_CASE("of circuits that ask for the same equipment ground the first one governs") {
    TestDesk desk;
    CHECK(size_shared_equipment_ground(desk, {ground(20, "12", "12"), ground(20, "12", "12")})
              .governs == 0);
}

TEST_CASE("a PV circuit is spared the increase for the voltage alone") {
    // 690.45: notes on the 2025 California Electrical Code (no increase to address voltage drop);
    // an increase for another reason counts by 250.122(B). 15 A: 14 AWG, phases 14 to 12 AWG.
    auto input = ground(15, "14", "12");
    input.pv_circuit = true;
    CHECK(size_of(input) == wire("14"));
    input.for_voltage = false;
    CHECK(size_of(input) == wire("12"));
}
