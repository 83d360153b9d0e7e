// Standby sources, each rule with the smallest step that passes and fails. By hand.
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

Term<Watts> va(double value, const char* name = "load") {
    return nameplate_load(name, Watts{value});
}

RuleVerdict capacity(const StandbyInput& input, Edition edition = Edition::nec2023) {
    TestDesk desk(edition);
    return standby_capacity(desk, input);
}

std::string paragraph(const StandbyInput& input, Edition edition) {
    return CodeBook(edition).cite(capacity(input, edition).rule).section;
}

std::vector<std::string> failing(const RuleVerdicts& verdicts) {
    std::vector<std::string> result;
    for (const RuleVerdict& one : verdicts)
        if (!one.passes)
            result.push_back(one.rule);
    return result;
}

using Ids = std::vector<std::string>;

} // namespace

TEST_CASE("capacity by manual transfer: what the user selects") {
    for (const TransferKind kind : {TransferKind::interlock, TransferKind::manual_switch}) {
        StandbyInput input{.transfer = kind,
                           .capacity = va(7600, "source"),
                           .selected = va(7600, "selected"),
                           .full = va(20000, "full")};
        CHECK(capacity(input).passes);
        CHECK(capacity(input).rule == "standby.manual");
        input.selected = va(7601, "selected");
        CHECK_FALSE(capacity(input).passes);
        input.selected.reset();
        CHECK(capacity(input).statement == "the loads to run at one time are not stated");
        CHECK_FALSE(capacity(input).passes);
    }
}

TEST_CASE("capacity by automatic transfer: the full load, or what management connects") {
    for (const TransferKind kind :
         {TransferKind::automatic_switch, TransferKind::interconnect_device}) {
        StandbyInput input{
            .transfer = kind, .capacity = va(11400, "source"), .full = va(11400, "full")};
        CHECK(capacity(input).passes);
        CHECK(capacity(input).rule == "standby.automatic");
        input.full = va(11401, "full");
        CHECK_FALSE(capacity(input).passes);
        CHECK(capacity(input).statement == "11.4 kVA < 11.401 kVA");
        input.managed = va(11400, "managed");
        CHECK(capacity(input).passes);
        CHECK(capacity(input).rule == "standby.managed");
        input.managed = va(11401, "managed");
        CHECK_FALSE(capacity(input).passes);
        input.managed.reset();
        input.full.reset();
        CHECK_FALSE(capacity(input).passes);
    }
}

TEST_CASE("702.4 changed its letter in 2023") {
    StandbyInput manual{.transfer = TransferKind::interlock,
                        .capacity = va(1, "source"),
                        .selected = va(1, "selected")};
    CHECK(paragraph(manual, Edition::nec2017) == "702.4(B)(1)");
    CHECK(paragraph(manual, Edition::nec2020) == "702.4(B)(1)");
    CHECK(paragraph(manual, Edition::nec2023) == "702.4(A)(1)");
    StandbyInput automatic{.capacity = va(1, "source"), .full = va(1, "full")};
    CHECK(paragraph(automatic, Edition::nec2020) == "702.4(B)(2)(a)");
    CHECK(paragraph(automatic, Edition::nec2023) == "702.4(A)(2)(a)");
}

TEST_CASE("alone, the source carries the largest single load") {
    for (const Edition edition : all_editions) {
        TestDesk fits(edition), above(edition);
        CHECK(island_capacity(fits, va(5760, "source"), va(5760, "range"), false).passes);
        CHECK_FALSE(island_capacity(above, va(5760, "source"), va(5761, "range"), false).passes);
        CHECK(fits.line("island_capacity").cite.section == "710.15(A)");
        TestDesk island(edition);
        island_capacity(island, va(5760, "source"), va(5760, "range"), true);
        CHECK(island.line("island_capacity").cite.section ==
              (edition == Edition::nec2017 ? "710.15(A)" : "705.80"));
    }
}

TEST_CASE("inverters at their continuous rating, with the share that is stated to run together") {
    const auto passes_with = [](double load, int count, double share) {
        TestDesk desk;
        return continuous_capacity(desk, {.rating = va(3840, "inv"),
                                          .count = count,
                                          .loads = {va(2000), va(load - 2000)},
                                          .running_share = share})
            .passes;
    };
    CHECK(passes_with(7680, 2, 1));
    CHECK_FALSE(passes_with(7681, 2, 1));
    CHECK(passes_with(7681, 3, 1));
    CHECK(passes_with(9600, 2, 0.8));
    CHECK_FALSE(passes_with(9610, 2, 0.8));
    TestDesk desk;
    continuous_capacity(
        desk,
        {.rating = va(3840, "inv"), .count = 2, .loads = {va(9600, "all")}, .running_share = 0.8});
    CHECK(desk.line("backed_up_load").figures == "0.8 × 9.6 kVA");
    CHECK(desk.line("backed_up_load").title ==
          "Backed-up loads, the stated share that runs together");
    TestDesk whole;
    continuous_capacity(whole, {.rating = va(3840, "inv"), .loads = {va(2000, "all")}});
    CHECK(whole.line("backed_up_load").title == "Backed-up loads");
    CHECK(whole.line("backed_up_load").figures == "2 kVA");
    CHECK(desk.line("continuous_capacity").figures == "2 × 3.84 kVA ≥ 7.68 kVA");
    CHECK(text(desk.line("continuous_capacity").cite) == "common practice");
}

TEST_CASE("starting current: nameplate, then code letter, then running current") {
    const auto start = [](const MotorInput& motor) {
        TestDesk desk;
        const auto current = starting_current(desk, motor);
        return current ? current->value.value : 0;
    };
    const MotorInput all{.locked_rotor = Amps{95},
                         .code_letter = "H",
                         .horsepower = 3,
                         .running = amps(15, "I_run")};
    CHECK(start(all) == 95);
    TestDesk stated; // a value taken over is no formula: not "I_LR = I_LR"
    CHECK(starting_current(stated, all)->symbols == "I_LR");
    CHECK(stated.line("locked_rotor").formula.empty());
    CHECK(stated.line("locked_rotor").result == "95 A");
    MotorInput letter = all;
    letter.locked_rotor.reset();
    CHECK(start(letter) == Approx(3 * 7090 / 240.0)); // letter H: to 7.09 kVA/hp
    MotorInput running = letter;
    running.code_letter = "V";           // has no upper end
    CHECK(start(running) == Approx(90)); // 6 × 15 A, common practice
    CHECK(start({.code_letter = "H"}) == 0);
    MotorInput unrated = letter; // a letter alone multiplies no horsepower
    unrated.horsepower = 0;
    CHECK(start(unrated) == Approx(90));
    MotorInput soft = all;
    soft.soft_starter = true;
    CHECK(start(soft) == Approx(38)); // 0.4 × 95 A, common practice
    soft.soft_start_share = 0.3;
    CHECK(start(soft) == Approx(28.5));
}

TEST_CASE("sources that form the grid start the largest motor beside what runs") {
    const auto starts = [](double running, int count) {
        TestDesk desk;
        return check_starting(desk, {.starting = amps(60, "I_start"),
                                     .running_beside = amps(running, "I_run"),
                                     .peak = amps(40, "I_peak"),
                                     .count = count})
            .passes;
    };
    CHECK(starts(20, 2));
    CHECK_FALSE(starts(20.1, 2));
    CHECK(starts(20.1, 3));
}

TEST_CASE("conductors of a generator: 115 % of its current") {
    for (const Edition edition : all_editions) {
        TestDesk desk(edition), kept(edition);
        const auto current = generator_current(desk, va(22000, "gen"), Volts{240});
        CHECK(generator_conductor(desk, current, false).value.value ==
              Approx(1.15 * 22000 / 240.0));
        CHECK(desk.line("generator_conductor").formula == "1.15 × I_gen");
        CHECK(text(desk.line("generator_conductor").cite) == name(edition) + " 445.13(A)");
        CHECK(generator_conductor(kept, current, true).value.value == Approx(22000 / 240.0));
    }
    TestDesk three;
    CHECK(generator_current(three, va(36000, "gen"), Volts{208}, true).value.value ==
          Approx(36000 / (std::sqrt(3.0) * 208)));
}

TEST_CASE("what a generator must have, by edition") {
    const auto failures = [](const GeneratorFacts& facts, Edition edition) {
        TestDesk desk(edition);
        return failing(judge_generator(desk, facts));
    };
    GeneratorFacts facts{.rating = Watts{14000}, .overload_protected = true, .disconnect = true};
    CHECK(failures(facts, Edition::nec2017).empty());
    CHECK(failures(facts, Edition::nec2020) == Ids{"generator.stop"});
    CHECK(failures(facts, Edition::nec2023) == Ids{"generator.stop"});
    facts.outdoor_stop = true;
    CHECK(failures(facts, Edition::nec2023).empty());
    // Above 15 kW a remote stop, from 2023 on not at one- and two-family dwellings.
    facts.rating = Watts{15000};
    CHECK(failures(facts, Edition::nec2020).empty());
    facts.rating = Watts{15001};
    CHECK(failures(facts, Edition::nec2020) == Ids{"generator.stop.remote"});
    CHECK(failures(facts, Edition::nec2023).empty());
    // Whether dwellings are asked is yes or no: electricallicenserenewal.com sectionID=931.
    CHECK(CodeBook(Edition::nec2020).number("generator.stop.remote.dwellings") == 1);
    CHECK(CodeBook(Edition::nec2023).number("generator.stop.remote.dwellings") == 0);
    facts.one_or_two_family = false;
    CHECK(failures(facts, Edition::nec2023) == Ids{"generator.stop.remote"});
    facts.remote_stop = true;
    CHECK(failures(facts, Edition::nec2023).empty());
    facts.disconnect = false;
    facts.overload_protected = false;
    facts.nameplate_complete = false;
    CHECK(failures(facts, Edition::nec2023) ==
          Ids{"generator.marking", "generator.overcurrent", "generator.disconnect"});
}

TEST_CASE("receptacles of a portable generator") {
    const auto fails = [](const GeneratorFacts& facts) {
        TestDesk desk;
        return !failing(judge_generator(desk, facts)).empty();
    };
    GeneratorFacts facts{
        .rating = Watts{15000}, .portable = true, .overload_protected = true, .receptacles = true};
    CHECK(fails(facts));
    facts.rating = Watts{15001};
    CHECK_FALSE(fails(facts));
    facts.rating = Watts{7500};
    facts.interlocked = true; // serves only where the neutral floats
    CHECK_FALSE(fails(facts));
    facts.neutral_bonded = true;
    CHECK(fails(facts));
    facts.ground_fault_protected = true;
    CHECK_FALSE(fails(facts));
}

TEST_CASE("smallest generator beside PV and storage") {
    // Common practice, no source: 100 % of PV, 143 % of storage.
    const auto least = [](std::optional<Term<Watts>> pv, std::optional<Term<Watts>> storage) {
        TestDesk desk;
        const auto result = smallest_generator(desk, pv, storage);
        return result ? result->value.value : 0;
    };
    CHECK(least({}, {}) == 0);
    CHECK(least(va(8000, "pv"), {}) == Approx(8000));
    CHECK(least({}, va(3840, "ess")) == Approx(5491.2));
    CHECK(least(va(5492, "pv"), va(3840, "ess")) == Approx(5492));
    CHECK(least(va(5491, "pv"), va(3840, "ess")) == Approx(5491.2));
}

TEST_CASE("derating begins above its own altitude and temperature") {
    const CodeBook book(Edition::nec2023);
    const auto left = [&](double altitude, double ambient) {
        TestDesk desk;
        return derated_generator(desk, va(10000, "gen"), Feet{altitude}, {ambient},
                                 usual_derating(book))
            .value.value;
    };
    CHECK(left(500, 40) == Approx(10000));
    CHECK(left(1500, 40) == Approx(9700)); // 3 % for 1000 ft
    CHECK(left(500, 45) == Approx(9700));  // 5 C at 0.6 %
    CHECK(left(1500, 45) == Approx(9409));
    TestDesk from;
    derated_generator(from, va(10000, "gen"), Feet{500}, {40}, usual_derating(book));
    CHECK(from.line("generator_derated").formula == "S_gen");
    TestDesk desk;
    derated_generator(desk, va(10000, "gen"), Feet{1500}, {45}, usual_derating(book));
    CHECK(desk.line("derating_altitude").figures == "1 − 0.03 × (1500 ft − 500 ft) ÷ 1000 ft");
    CHECK(desk.line("generator_derated").formula == "S_gen × k_alt × k_temp");
}

TEST_CASE("transfer equipment by rating, protection and use") {
    TransferInput input{.rating = amps(100, "I_switch"),
                        .load = amps(100, "I_load"),
                        .overcurrent = amps(100, "I_ocpd")};
    const auto failures = [&] {
        TestDesk desk;
        return failing(judge_transfer(desk, input));
    };
    CHECK(failures().empty());
    input.load = amps(100.1, "I_load");
    CHECK(failures() == Ids{"transfer.rating"});
    input.load = amps(80, "I_load");
    input.overcurrent = amps(110, "I_ocpd");
    CHECK(failures() == Ids{"transfer.protection"});
    input.overcurrent = amps(100, "I_ocpd");
    input.is_service_disconnect = true;
    CHECK(failures() == Ids{"transfer.service"});
    input.suitable_as_service = true;
    input.keeps_sources_apart = false;
    CHECK(failures() == Ids{"standby.transfer"});
    // An interlock is two breakers, which have their own ratings.
    input = {.kind = TransferKind::interlock, .load = amps(30, "I_load")};
    CHECK(failures().empty());
    input.kind = TransferKind::automatic_switch;
    CHECK(failures() == Ids{"transfer.rating"});
}

TEST_CASE("a neutral is opened and bonded at the generator, or carried and not bonded there") {
    const auto verdict = [](bool switched, bool bonded, bool carried, bool electrode) {
        TestDesk desk;
        const auto result = judge_neutral(desk, {.switched = switched,
                                                 .carried = carried,
                                                 .bonded_at_source = bonded,
                                                 .electrode = electrode});
        return std::pair{result.separately_derived, failing(result.verdicts)};
    };
    CHECK(verdict(true, true, false, true) == std::pair{true, Ids{}});
    CHECK(verdict(false, false, true, false) == std::pair{false, Ids{}});
    CHECK(verdict(false, true, true, false) == std::pair{false, Ids{"neutral.not_derived"}});
    CHECK(verdict(true, false, false, true) == std::pair{true, Ids{"neutral.derived"}});
    CHECK(verdict(true, true, false, false) == std::pair{true, Ids{"neutral.derived.electrode"}});
    CHECK(verdict(false, false, false, false) == std::pair{false, Ids{"neutral.carried"}});
    TestDesk desk;
    const auto double_bond = judge_neutral(desk, {.bonded_at_source = true});
    CHECK(
        double_bond.verdicts[1].statement ==
        "bonded at the source and at the service: neutral current takes the grounding conductors");
    TestDesk open;
    CHECK(judge_neutral(open, {.carried = false}).verdicts[0].statement ==
          "open neutral: 120 V loads would share 240 V as they please");
}

TEST_CASE("nothing backed up is carried by anything") {
    TestDesk desk;
    CHECK(continuous_capacity(desk, {.rating = va(3840, "inverter"), .loads = {}}).passes);
    CHECK(desk.line("backed_up_load").value == 0);
}

TEST_CASE("a portable generator whose receptacles are not used is not asked for them") {
    const auto asked = [](bool portable, bool receptacles) {
        TestDesk desk;
        const auto verdicts = judge_generator(
            desk, {.rating = Watts{7500}, .portable = portable, .receptacles = receptacles});
        return verdict_of(verdicts, "generator.receptacle") != nullptr;
    };
    CHECK(asked(true, true));
    CHECK_FALSE(asked(true, false));
    CHECK_FALSE(asked(false, true));
}

TEST_CASE("a transfer switch is held against a device ahead of it where that is known") {
    TestDesk desk;
    const auto verdicts =
        judge_transfer(desk, {.rating = amps(100, "I_switch"), .load = amps(80, "I_load")});
    CHECK(all_pass(verdicts));
    CHECK(verdict_of(verdicts, "transfer.protection") == nullptr);
}

TEST_CASE("the electrode of a portable generator is asked for by a rule of its own") {
    for (const bool portable : {false, true}) {
        TestDesk desk;
        const auto verdicts =
            judge_neutral(desk, {.switched = true, .bonded_at_source = true, .portable = portable})
                .verdicts;
        CHECK(failing(verdicts) ==
              Ids{portable ? "neutral.portable" : "neutral.derived.electrode"});
    }
}
