// Devices of sources, ground-fault protection, loss of the utility, unbalance, neutral. By hand.
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

SourceDeviceInput breaker() {
    return {.dedicated = true, .sources_marked = true, .listed_interactive = true};
}

RuleVerdicts checked(const SourceDeviceInput& input, Edition edition = Edition::nec2023) {
    TestDesk desk(edition);
    return check_source_device(desk, input);
}

ServiceFaultInput wye(double main) {
    return {.main = amps(main, "I_main"),
            .to_ground = Volts{277},
            .between = Volts{480},
            .protection = true,
            .from_all_sources = true};
}

RuleVerdicts checked(const ServiceFaultInput& input) {
    TestDesk desk;
    return check_ground_fault_protection(desk, input);
}

} // namespace

TEST_CASE("a backfed breaker bears no marks of line and load, or is rated for it") {
    for (const Edition edition : all_editions)
        CHECK(all_pass(checked(breaker(), edition)));
    auto input = breaker();
    input.marked_line_and_load = true;
    for (const Edition edition : all_editions)
        CHECK(fails(checked(input, edition), "device.backfeed"));
    input.rated_for_backfeed = true;
    CHECK(all_pass(checked(input)));
}

TEST_CASE("a plug-in breaker is fastened unless listed interactive sources feed it") {
    auto input = breaker();
    input.listed_interactive = false; // a generator, or storage that runs alone
    CHECK(fails(checked(input), "device.fastening.general"));
    input.fastened = true;
    CHECK(all_pass(checked(input)));
    input.fastened = false;
    input.plug_in = false;
    CHECK(all_pass(checked(input)));
    TestDesk desk(Edition::nec2017);
    check_source_device(desk, breaker());
    CHECK(text(desk.line("device_fastening").cite) == "NEC 2017 705.12(B)(5)");
}

TEST_CASE("device of the source alone, and its marking") {
    auto input = breaker();
    input.dedicated = false;
    input.sources_marked = false;
    CHECK(fails(checked(input), "device.dedicated"));
    CHECK(fails(checked(input), "device.marking"));
}

TEST_CASE("ground-fault protection from 1000 A on a 480Y/277 V service") {
    const CodeBook book(Edition::nec2023);
    CHECK(needs_ground_fault_protection(book, wye(1000)));
    CHECK_FALSE(needs_ground_fault_protection(book, wye(999)));
    auto input = wye(2000);
    input.to_ground = Volts{120};
    input.between = Volts{208};
    CHECK_FALSE(needs_ground_fault_protection(book, input));
    input = wye(1000);
    input.solidly_grounded_wye = false;
    CHECK_FALSE(needs_ground_fault_protection(book, input));
    // 230.95: "more than 150 volts to ground".
    input = wye(1000);
    input.to_ground = Volts{150};
    CHECK_FALSE(needs_ground_fault_protection(book, input));
    input.to_ground = Volts{150.1};
    CHECK(needs_ground_fault_protection(book, input));
}

TEST_CASE("a source on the load side of it needs protection from all sources") {
    CHECK(all_pass(checked(wye(1000))));
    auto input = wye(1000);
    input.from_all_sources = false;
    CHECK(fails(checked(input), "fault.load_side"));
    input.source_on_load_side = false;
    CHECK(all_pass(checked(input)));
    input.protection = false;
    CHECK(fails(checked(input), "fault.protection"));
    // None needed and none there: nothing is asked.
    input = wye(800);
    input.protection = false;
    input.from_all_sources = false;
    CHECK(all_pass(checked(input)));
    // One that is there though none is needed counts as well.
    input.protection = true;
    CHECK(fails(checked(input), "fault.load_side"));
}

TEST_CASE("loss of the primary source") {
    TestDesk listed, neither, opens;
    CHECK(all_pass(check_loss_of_source(listed, {.listed_interactive = true})));
    CHECK(fails(check_loss_of_source(neither, {}), "loss.primary"));
    CHECK(all_pass(check_loss_of_source(opens, {.disconnects_all = true})));
}

TEST_CASE("unbalance of single-phase sources on three phases") {
    TestDesk desk(Edition::nec2017);
    auto result =
        check_unbalance(desk, {.a = amps(30, "I_a"), .b = amps(10, "I_b"), .c = amps(20, "I_c")});
    CHECK(result.difference.value == Amps{20});
    CHECK(all_pass(result.verdicts)); // the code sets no number
    CHECK(text(desk.line("unbalance").cite) == "NEC 2017 705.100");
    TestDesk limit, above;
    CHECK(all_pass(check_unbalance(limit, {.a = amps(30, "I_a"),
                                           .b = amps(10, "I_b"),
                                           .c = amps(20, "I_c"),
                                           .limit = amps(20, "I_limit")})
                       .verdicts));
    CHECK(fails(check_unbalance(above, {.a = amps(30.1, "I_a"),
                                        .b = amps(10, "I_b"),
                                        .c = amps(20, "I_c"),
                                        .limit = amps(20, "I_limit")})
                    .verdicts,
                "unbalance"));
}

TEST_CASE("neutral that measures is not smaller than the equipment grounding conductor") {
    SourceNeutralInput input{.size = wire("10"), .equipment_ground = wire("10")};
    for (const Edition edition : all_editions) {
        TestDesk exact(edition), small(edition);
        CHECK(all_pass(check_source_neutral(exact, input)));
        auto less = input;
        less.size = wire("12");
        CHECK(fails(check_source_neutral(small, less), "neutral.sensing"));
    }
    // On the supply side it carries fault current (forums.mikeholt.com 2585119).
    input.supply_side = wire("8");
    CHECK(smallest_sensing_neutral(input) == wire("8"));
    TestDesk supply;
    CHECK(fails(check_source_neutral(supply, input), "bond.neutral"));
}

TEST_CASE("neutral of a source between line and neutral carries source and load") {
    SourceNeutralInput input{.source = amps(20, "I_src"),
                             .load = amps(10, "I_load"),
                             .ampacity = amps(30, "I_z"),
                             .size = wire("10"),
                             .equipment_ground = wire("12")};
    TestDesk exact, small;
    CHECK(all_pass(check_source_neutral(exact, input)));
    input.load = amps(10.1, "I_load");
    CHECK(fails(check_source_neutral(small, input), "neutral.line_to_neutral"));
}

TEST_CASE("a fusible disconnect feeds back unless its marks forbid it, and needs no fastener") {
    auto input = breaker();
    input.breaker = false;
    input.listed_interactive = false; // a plug-in breaker would need a fastener
    TestDesk desk;
    const auto verdicts = check_source_device(desk, input);
    CHECK(all_pass(verdicts));
    CHECK(verdict_of(verdicts, "device.fastening.general") == nullptr);
    CHECK(desk.line("device_backfeed").comparison ==
          "fusible disconnect without marks against backfeed");
    input.marked_line_and_load = true;
    CHECK(fails(checked(input), "device.backfeed"));
    input.rated_for_backfeed = true;
    CHECK(all_pass(checked(input)));
}

TEST_CASE("a breaker of listed sources may be fastened all the same") {
    auto input = breaker();
    input.fastened = true;
    const auto verdicts = checked(input);
    CHECK(all_pass(verdicts));
    CHECK(verdict_of(verdicts, "device.fastening.general") != nullptr);
}

TEST_CASE("ground-fault protection is for systems to 1000 V between phases") {
    const CodeBook book(Edition::nec2023);
    auto input = wye(1000);
    input.to_ground = Volts{577};
    input.between = Volts{1000};
    CHECK(needs_ground_fault_protection(book, input));
    input.between = Volts{1001};
    CHECK_FALSE(needs_ground_fault_protection(book, input));
}

TEST_CASE("a neutral without loads carries the source alone") {
    SourceNeutralInput input{.source = amps(20, "I_src"),
                             .ampacity = amps(20, "I_z"),
                             .size = wire("10"),
                             .equipment_ground = wire("12")};
    TestDesk exact, small;
    CHECK(all_pass(check_source_neutral(exact, input)));
    CHECK(exact.line("neutral_current").formula == "I_src");
    input.ampacity = amps(19.9, "I_z");
    CHECK(fails(check_source_neutral(small, input), "neutral.line_to_neutral"));
}

TEST_CASE("the larger of supply-side jumper and equipment ground is the least of the neutral") {
    SourceNeutralInput input{
        .size = wire("8"), .equipment_ground = wire("6"), .supply_side = wire("8")};
    CHECK(smallest_sensing_neutral(input) == wire("6"));
    TestDesk small, enough;
    CHECK(fails(check_source_neutral(small, input), "neutral.sensing"));
    input.size = wire("6");
    CHECK(all_pass(check_source_neutral(enough, input)));
    // Where they are alike, the neutral has the size for its fault current.
    input.supply_side = wire("6");
    TestDesk alike;
    CHECK(verdict_of(check_source_neutral(alike, input), "bond.neutral") != nullptr);
}
