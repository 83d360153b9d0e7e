// Power control systems. By hand.
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

PowerControlInput control(double setting) {
    return {.parts = {{.name = "busbar of MP",
                       .rating = amps(200, "I_bus"),
                       .setting = amps(setting, "I_setting")}},
            .sources = {{.name = "ESS 1", .device = amps(60, "I_d"), .rating = amps(200, "I_bus")}},
            .listed = true,
            .access_restricted = true,
            .settings_marked = true,
            .sources_setting = amps(32, "I_set"),
            .sources_total = amps(60, "I_total")};
}

} // namespace

TEST_CASE("settings stay within what they protect") {
    for (const Edition edition : {Edition::nec2020, Edition::nec2023}) {
        TestDesk exact(edition), above(edition);
        CHECK(all_pass(check_power_control(exact, control(200)).verdicts));
        const auto result = check_power_control(above, control(200.1));
        CHECK(fails(result.verdicts, "control.setting"));
        CHECK(first_fault(result.verdicts)->statement == "200.10 A > 200 A");
    }
    TestDesk desk(Edition::nec2023);
    check_power_control(desk, control(200));
    CHECK(text(desk.line("control_listed").cite) == "NEC 2023 750.6");
}

TEST_CASE("a controlled source fits what it is on by its device") {
    auto input = control(200);
    input.sources.front().device = amps(200, "I_d");
    TestDesk exact, above;
    CHECK(all_pass(check_power_control(exact, input).verdicts));
    input.sources.front().device = amps(225, "I_d");
    CHECK(fails(check_power_control(above, input).verdicts, "control.device"));
}

TEST_CASE("the setting counts for the sources once listing and access are stated") {
    TestDesk desk, unlisted, open, higher;
    CHECK(check_power_control(desk, control(200)).counted.value == Amps{32});
    CHECK(desk.line("control_counted").figures == "lesser of 32 A and 60 A");
    auto input = control(200);
    input.listed = false;
    const auto result = check_power_control(unlisted, input);
    CHECK(result.counted.value == Amps{60});
    CHECK(fails(result.verdicts, "control.listed"));
    input = control(200);
    input.access_restricted = false;
    input.settings_marked = false;
    const auto unmarked = check_power_control(open, input).verdicts;
    CHECK(fails(unmarked, "control.access"));
    CHECK(fails(unmarked, "control.marking"));
    input = control(200);
    input.sources_setting = amps(80, "I_set"); // above what there is
    CHECK(check_power_control(higher, input).counted.value == Amps{60});
}

TEST_CASE("what is to be seen on site is not judged") {
    TestDesk desk;
    auto input = control(200);
    input.access_restricted = {};
    input.settings_marked = {};
    const auto result = check_power_control(desk, input);
    CHECK(all_pass(result.verdicts));
    CHECK(result.counted.value == Amps{32});
    CHECK_FALSE(desk.has("control_access"));
    CHECK_FALSE(desk.has("control_marking"));
}

TEST_CASE("the 2017 edition knows no power control") {
    TestDesk desk(Edition::nec2017);
    const auto result = check_power_control(desk, control(500));
    CHECK_FALSE(result.known);
    CHECK(all_pass(result.verdicts)); // nothing is asked
    CHECK(result.counted.value == Amps{60});
    CHECK(desk.sheet.all().empty());
}

TEST_CASE("largest setting for a limit of the busbar") {
    TestDesk desk;
    CHECK(largest_sources_setting(desk, amps(40, "I_src.most")).value == Amps{32});
}

TEST_CASE("without a setting for its sources they count whole") {
    TestDesk desk;
    auto input = control(200);
    input.sources_setting.reset();
    const auto result = check_power_control(desk, input);
    CHECK(all_pass(result.verdicts));
    CHECK(result.counted.value == Amps{60});
    CHECK_FALSE(desk.has("control_counted"));
}
