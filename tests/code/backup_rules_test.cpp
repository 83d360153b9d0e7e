// Duration of backup and power of PV alone: energy over power, worked by hand beside each check.
#include <limits>
#include <random>

#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

Term<Watts> load(double watts) { return given("P_avg", Watts{watts}); }

double hours(BackupInput input) {
    TestDesk desk;
    return backup_duration(desk, input).duration.value.value;
}

} // namespace

TEST_CASE("two units of 10 kWh and an average of 900 W") {
    TestDesk desk;
    const auto average = stated_average_load(desk, Watts{900});
    const BackupDuration backup =
        backup_duration(desk, {.usable = WattHours{20000}, .average = average});
    // 0.90 × 0.95 × 20 kWh = 17.1 kWh; ÷ 0.9 kW = 19 h.
    CHECK(backup.energy.value.value == Approx(17100));
    CHECK(backup.duration.value.value == Approx(19));
    CHECK(backup.as_long_as_wanted);
    const Derivation& energy = desk.line("backup_energy");
    CHECK(energy.formula == "f_depth × η × E_usable");
    CHECK(energy.figures == "90 % × 95 % × 20 kWh");
    CHECK(energy.result == "17.1 kWh");
    CHECK(text(energy.cite) == "calculation by energy balance");
    const Derivation& duration = desk.line("backup_duration");
    CHECK(duration.formula == "E_backup ÷ P_avg");
    CHECK(duration.figures == "17.1 kWh ÷ 900 W");
    CHECK(duration.result == "19 h");
    CHECK(duration.from == std::vector<std::string>{"X.backup_energy", "X.average_load"});
    CHECK(text(desk.line("backup_depth").cite) == "common practice");
    CHECK_FALSE(desk.has("backup_lasts"));
}

TEST_CASE("the average as a share of what is connected") {
    TestDesk desk;
    const auto average = average_load_by_share(desk, Watts{6000}, Ratio{0.15});
    CHECK(average.value.value == Approx(900));
    CHECK(desk.line("average_load").formula == "f × P_connected");
    CHECK(desk.line("average_load").figures == "15 % × 6 kW");
    CHECK(text(desk.line("average_load").cite) == "calculation by energy balance");
    CHECK(text(desk.line("load_share").cite) == "as stated");
}

TEST_CASE("what the equipment states goes before the book") {
    TestDesk desk;
    const BackupDuration backup = backup_duration(desk, {.usable = WattHours{10000},
                                                         .average = load(1000),
                                                         .depth = Ratio{1},
                                                         .efficiency = Ratio{0.9}});
    CHECK(backup.duration.value.value == Approx(9));
    CHECK(text(desk.line("backup_depth").cite) == "as stated");
    CHECK(desk.line("backup_energy").figures == "100 % × 90 % × 10 kWh");
}

TEST_CASE("as long as is wanted: at it passes, the smallest step below fails") {
    const auto lasts = [](double wanted) {
        TestDesk desk;
        const BackupDuration backup = backup_duration(
            desk, {.usable = WattHours{20000}, .average = load(900), .wanted = Hours{wanted}});
        CHECK(desk.line("backup_lasts").verdict ==
              (backup.as_long_as_wanted ? Verdict::pass : Verdict::fail));
        return backup.as_long_as_wanted;
    };
    CHECK(lasts(19));
    CHECK(lasts(18.99));
    CHECK_FALSE(lasts(19.01));
    CHECK_FALSE(lasts(24));
}

TEST_CASE("what fails is printed as it is") {
    TestDesk desk;
    backup_duration(desk, {.usable = WattHours{20000}, .average = load(900), .wanted = Hours{24}});
    CHECK(desk.line("backup_lasts").comparison == "19 h < 24 h");
    CHECK(text(desk.line("backup_lasts").cite) == "calculation by energy balance");
}

TEST_CASE("PV alone at noon, against the largest single load") {
    // 0.80 × 28 × 340 VA = 7616 W.
    const auto noon = [](double largest) {
        TestDesk desk;
        const NoonPower power =
            noon_power(desk, {.output = Watts{9520}, .largest_load = Watts{largest}});
        CHECK(power.at_noon.value.value == Approx(7616));
        CHECK(desk.line("noon_power").formula == "f_noon × P_ac");
        CHECK(desk.line("noon_power").figures == "80 % × 9.52 kW");
        CHECK(desk.line("noon_power").result == "7.62 kW");
        CHECK(text(desk.line("noon_power").cite) == "calculation by energy balance");
        return power.carries_largest;
    };
    CHECK(noon(7616));
    CHECK_FALSE(noon(7617));
    CHECK(noon(1500));
    TestDesk desk;
    CHECK(noon_power(desk, {.output = Watts{1000}, .share = Ratio{0.5}}).at_noon.value.value ==
          Approx(500));
    CHECK_FALSE(desk.has("noon_largest"));
}

TEST_CASE("the same in every edition: no code speaks of it") {
    for (const Edition edition : all_editions) {
        TestDesk desk(edition);
        CHECK(backup_duration(desk, {.usable = WattHours{20000}, .average = load(900)})
                  .duration.value.value == Approx(19));
        CHECK(noon_power(desk, {.output = Watts{1000}}).at_noon.value.value == Approx(800));
        for (const Rule& rule : desk.book.rules()) {
            if (rule.id.starts_with("backup."))
                CHECK(text(rule.cite) == "calculation by energy balance");
        }
    }
}

TEST_CASE("without a load there is no duration") {
    for (const double watts : {0.0, -1.0}) {
        TestDesk desk;
        CHECK_THROWS_AS(backup_duration(desk, {.usable = WattHours{20000}, .average = load(watts)}),
                        std::logic_error);
    }
}

TEST_CASE("more energy lasts longer, more load shorter, and the balance closes") {
    std::mt19937 engine{702}; // fixed: the same on every machine
    const auto between = [&](unsigned low, unsigned high) {
        return double(low + engine() % (high - low + 1));
    };
    for (int i = 0; i < 300; ++i) {
        const double energy = between(1, 100000), watts = between(1, 20000);
        const double depth = between(1, 100) / 100, efficiency = between(1, 100) / 100;
        const BackupInput input{.usable = WattHours{energy},
                                .average = load(watts),
                                .depth = Ratio{depth},
                                .efficiency = Ratio{efficiency}};
        const double time = hours(input);
        INFO(energy << " Wh, " << watts << " W");
        CHECK(time * watts == Approx(energy * depth * efficiency));
        BackupInput other = input;
        other.usable = input.usable * 2;
        CHECK(hours(other) == Approx(2 * time));
        other = input;
        other.average = load(watts * 2);
        CHECK(hours(other) == Approx(time / 2));
        CHECK(time <= energy / watts * (1 + std::numeric_limits<double>::epsilon() * 4));
    }
}
