// Bonding jumpers, separately derived systems, knockouts. Areas by hand.
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

BondingJumperInput jumper(const char* phase, int sets = 1) {
    return {.use = JumperUse::main, .phase = wire(phase), .parallel_sets = sets};
}

BondingJumperResult sized(const BondingJumperInput& input) {
    TestDesk desk;
    return size_bonding_jumper(desk, input);
}

} // namespace

TEST_CASE("by the table up to its end, by 12.5 % of the area beyond") {
    CHECK(sized(jumper("2")).size == wire("8"));
    CHECK(sized(jumper("1")).size == wire("6"));
    CHECK(sized(jumper("500", 2)).size == wire("2/0")); // 1000 kcmil
    // 2 x 600 = 1200 kcmil x 0.125 = 150 000 cmil: 3/0 AWG has 167 800.
    TestDesk desk;
    CHECK(size_bonding_jumper(desk, jumper("600", 2)).size == wire("3/0"));
    CHECK(desk.line("main_bonding_jumper_area").figures == "0.125 × 2 × 600000 cmil");
    CHECK(text(desk.line("main_bonding_jumper").cite) == "NEC 2023 Table 250.102(C)(1), Note 1");
    // 6 x 500 = 3000 kcmil: 375 000 cmil: 400 kcmil.
    CHECK(sized(jumper("500", 6)).size == wire("400"));
    // 16 x 500 = 8000 kcmil: 1000 kcmil just does; one more set is beyond the sizes listed.
    CHECK(sized(jumper("500", 16)).size == wire("1000"));
    CHECK_FALSE(sized(jumper("500", 17)).passes);
}

TEST_CASE("beyond the table with two materials: as if of the jumper's") {
    // 3 x 750 kcmil aluminum (385 A at 75 C); copper of that ampacity is 600 kcmil (420 A; 500 has
    // 380). 0.125 x 3 x 600 000 = 225 000 cmil: 250 kcmil.
    auto input = jumper("750", 3);
    input.phase_material = Material::aluminum;
    TestDesk desk;
    CHECK(size_bonding_jumper(desk, input).size == wire("250"));
    CHECK(desk.line("main_bonding_jumper_phase_area").source ==
          "as 600 kcmil CU of equal ampacity");
    // In its own material: 0.125 x 2 250 000 = 281 250 cmil: 300 kcmil.
    input.material = Material::aluminum;
    CHECK(sized(input).size == wire("300"));
}

TEST_CASE("beyond the table with two materials: the same ampacity is equal") {
    // 1 AWG aluminum carries 100 A at 75 C, 3 AWG copper (52 620 cmil) just that. 22 sets have
    // 1 841 180 cmil, beyond the table; 0.125 x 22 x 52 620 = 144 705 cmil: 3/0 AWG.
    auto input = jumper("1", 22);
    input.phase_material = Material::aluminum;
    TestDesk desk;
    CHECK(size_bonding_jumper(desk, input).size == wire("3/0"));
    CHECK(desk.line("main_bonding_jumper_phase_area").source == "as 3 AWG CU of equal ampacity");
}

TEST_CASE("no size of the jumper's material may have the ampacity of the conductors") {
    // 700 kcmil copper carries 460 A at 75 C, 1000 kcmil aluminum 445 A.
    auto input = jumper("700", 2);
    input.material = Material::aluminum;
    TestDesk desk;
    CHECK_FALSE(size_bonding_jumper(desk, input).passes);
    CHECK(desk.line("main_bonding_jumper").comparison ==
          "no listed size of AL has the ampacity of the conductors: 2 × 700 kcmil CU");
}

TEST_CASE("raceways: one jumper for each, or one for all") {
    // 3 x 400 kcmil: each by 400 kcmil, 1/0; one for all by 1200 kcmil: 150 000 cmil, 3/0.
    auto input = jumper("400", 3);
    input.use = JumperUse::supply_side;
    CHECK(sized(input).size == wire("3/0"));
    input.by_raceway = true;
    const auto each = sized(input);
    CHECK(each.size == wire("1/0"));
    CHECK(each.count == 3);
    TestDesk desk;
    size_bonding_jumper(desk, input);
    CHECK(text(desk.line("supply_bonding_jumper").cite) == "NEC 2023 250.102(C)(2)");
}

TEST_CASE("grounded conductor on the supply side") {
    auto input = jumper("4/0");
    input.use = JumperUse::grounded_conductor;
    TestDesk old_letters(Edition::nec2017), new_letters(Edition::nec2023);
    CHECK(size_bonding_jumper(old_letters, input).size == wire("2"));
    CHECK(text(old_letters.line("grounded_conductor").cite) == "NEC 2017 250.24(C)(1)");
    size_bonding_jumper(new_letters, input);
    CHECK(new_letters.line("grounded_conductor").cite.unverified);
    // It need not be larger than the conductors that bring the current.
    input.phase = wire("10");
    CHECK(sized(input).size == wire("10"));
}

TEST_CASE("a stated jumper is judged") {
    auto input = jumper("3/0");
    input.stated = wire("4");
    CHECK(sized(input).passes);
    input.stated = wire("6");
    CHECK_FALSE(sized(input).passes);
    CHECK(sized(input).needed == wire("4"));
}

TEST_CASE("equipment bonding jumper goes by the device") {
    TestDesk desk, beyond;
    CHECK(size_equipment_bonding_jumper(desk, amps(200, "I_ocpd"), Material::copper) == wire("6"));
    CHECK(text(desk.line("equipment_bonding_jumper").cite) == "NEC 2023 250.102(D)");
    CHECK_FALSE(size_equipment_bonding_jumper(beyond, amps(6001, "I_ocpd"), Material::copper));
}

TEST_CASE("a generator whose neutral is switched is separately derived, else not") {
    DerivedSystemInput input{.neutral_switched = true,
                             .bonded_at_source = true,
                             .phase = wire("3/0"),
                             .electrodes = {"rod"}};
    TestDesk derived, twice, nowhere, solid, bonded;
    auto result = check_derived_system(derived, input);
    CHECK(result.separately_derived);
    CHECK(all_pass(result.verdicts));
    CHECK(result.jumper->size == wire("4"));
    CHECK(result.electrode->size == wire("6"));
    input.bonded_at_disconnect = true;
    CHECK(fails(check_derived_system(twice, input).verdicts, "derived.single_point"));
    input.bonded_at_source = false;
    input.bonded_at_disconnect = false;
    CHECK(fails(check_derived_system(nowhere, input).verdicts, "derived.single_point"));
    CHECK(derived.line("derived_bond").comparison == "bonded at the source only");
    CHECK(twice.line("derived_bond").comparison == "bonded at the source and at the disconnect");
    CHECK(nowhere.line("derived_bond").comparison == "bonded nowhere");
    // A neutral that stays connected: the bond of the service serves.
    input.neutral_switched = false;
    result = check_derived_system(solid, input);
    CHECK_FALSE(result.separately_derived);
    CHECK(all_pass(result.verdicts));
    CHECK_FALSE(result.jumper);
    CHECK_FALSE(result.electrode);
    input.bonded_at_source = true;
    CHECK(fails(check_derived_system(bonded, input).verdicts, "derived.unbonded"));
}

TEST_CASE("a transformer is separately derived by itself") {
    TestDesk desk;
    const auto result = check_derived_system(
        desk,
        {.isolated = true, .bonded_at_disconnect = true, .phase = wire("500"), .parallel_sets = 4});
    CHECK(result.separately_derived);
    CHECK(all_pass(result.verdicts));
    CHECK(desk.line("derived_bond").comparison == "bonded at the first disconnect only");
    CHECK(result.jumper->size == wire("250")); // 0.125 x 2 000 000
    CHECK(result.electrode->size == wire("3/0"));
}

TEST_CASE("ringed knockouts above 250 V to ground") {
    const auto checked = [](const KnockoutInput& input) {
        TestDesk desk;
        return check_knockout(desk, input);
    };
    CHECK(all_pass(checked({.to_ground = Volts{250}, .ringed = true})));
    CHECK_FALSE(all_pass(checked({.to_ground = Volts{250.5}, .ringed = true}))); // 250.97: over 250
    CHECK_FALSE(all_pass(checked({.to_ground = Volts{277}, .ringed = true})));
    CHECK(all_pass(checked({.to_ground = Volts{277}, .ringed = true, .listed = true})));
    CHECK(all_pass(checked({.to_ground = Volts{277}, .ringed = true, .jumper = true})));
    CHECK(all_pass(checked({.to_ground = Volts{277}})));
}

TEST_CASE("conductors whose area or ampacity no table lists have no jumper, whatever its use") {
    // 1250 kcmil has no area here.
    for (const JumperUse use : {JumperUse::main, JumperUse::system, JumperUse::supply_side,
                                JumperUse::grounded_conductor})
        for (const bool by_raceway : {false, true}) {
            auto input = jumper("1250", by_raceway ? 2 : 1);
            input.use = use;
            input.by_raceway = by_raceway;
            const auto result = sized(input);
            CHECK_FALSE(result.passes);
            CHECK_FALSE(result.needed);
        }
    // 500 x 14 AWG aluminum = 2 055 000 cmil is beyond the table, and Table 310.16 lists no
    // aluminum of 14 AWG that copper could be compared with.
    auto input = jumper("14", 500);
    input.phase_material = Material::aluminum;
    TestDesk desk;
    CHECK_FALSE(size_bonding_jumper(desk, input).passes);
    CHECK(desk.line("main_bonding_jumper").comparison ==
          "no listed size of CU has the ampacity of the conductors: 500 × 14 AWG AL");
}

TEST_CASE("in a single raceway the neutral is that of one set, with no floor of parallel sets") {
    auto input = jumper("3/0");
    input.use = JumperUse::grounded_conductor;
    input.by_raceway = true;
    CHECK(sized(input).size == wire("4")); // Table 250.102(C)(1), over 1/0 through 3/0
    input.parallel_sets = 2;
    CHECK(sized(input).size == wire("1/0")); // 250.24(C)(2): 1/0 AWG in parallel
}

TEST_CASE("one set of conductors is not counted in words") {
    TestDesk one, two;
    size_bonding_jumper(one, jumper("3/0"));
    CHECK(one.line("main_bonding_jumper").source ==
          "Table 250.102(C)(1), conductors of 3/0 AWG CU");
    size_bonding_jumper(two, jumper("3/0", 2));
    CHECK(two.line("main_bonding_jumper").source ==
          "Table 250.102(C)(1), conductors of 2 × 3/0 AWG CU");
}

TEST_CASE(
    "a neutral as large as the conductors, or as the least of parallel ones, is the table's") {
    // Table 250.102(C)(1): to 2 AWG copper, 8 AWG; over 350 through 600 kcmil, 1/0 AWG.
    auto input = jumper("8");
    input.use = JumperUse::grounded_conductor;
    TestDesk alike, smaller;
    CHECK(size_bonding_jumper(alike, input).size == wire("8"));
    CHECK(alike.line("grounded_conductor").governs == "supply conductors govern");
    input.phase = wire("10");
    size_bonding_jumper(smaller, input);
    CHECK(smaller.line("grounded_conductor").governs ==
          "need not be larger than the ungrounded conductors");
    input = jumper("400", 2);
    input.use = JumperUse::grounded_conductor;
    input.by_raceway = true;
    TestDesk least, below;
    CHECK(size_bonding_jumper(least, input).size == wire("1/0"));
    CHECK(least.line("grounded_conductor").governs == "supply conductors govern");
    input.phase = wire("350"); // 2 AWG
    size_bonding_jumper(below, input);
    CHECK(below.line("grounded_conductor").governs ==
          "1/0 AWG is the smallest in parallel raceways");
}
