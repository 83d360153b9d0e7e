#include "code/standby_rules.h"

#include "code/demand_tables.h"
#include "code/verdict_line.h"

namespace ohmfolio {

namespace {

RuleVerdict capacity_check(const Desk& desk, std::string_view rule_id, std::string title,
                           const Term<Watts>& capacity, const Term<Watts>& load) {
    return check_by(desk,
                    {.name = "standby_capacity",
                     .title = std::move(title),
                     .rule = std::string(rule_id),
                     .as = ShownAs::apparent_power},
                    capacity, "≥", load);
}

RuleVerdict not_stated(const Desk& desk, std::string_view rule_id, std::string what) {
    return judge_by(desk,
                    {"standby_capacity", "Capacity of the standby source", std::string(rule_id)},
                    std::move(what), false);
}

Term<Ratio> count_of(int count) {
    return given("N", Ratio{static_cast<double>(count)}, "units that form the grid together");
}

} // namespace

RuleVerdict standby_capacity(const Desk& desk, const StandbyInput& input) {
    if (!is_automatic(input.transfer)) {
        if (!input.selected) {
            return not_stated(desk, "standby.manual",
                              "the loads to run at one time are not stated");
        }
        return capacity_check(desk, "standby.manual", "Source carries the selected loads",
                              input.capacity, *input.selected);
    }
    if (input.managed) {
        return capacity_check(desk, "standby.managed", "Source carries what management connects",
                              input.capacity, *input.managed);
    }
    if (!input.full)
        return not_stated(desk, "standby.automatic", "the load that is transferred is not stated");
    return capacity_check(desk, "standby.automatic", "Source carries the full load", input.capacity,
                          *input.full);
}

RuleVerdict island_capacity(const Desk& desk, const Term<Watts>& capacity,
                            const Term<Watts>& largest_load, bool microgrid) {
    const bool own_rule = microgrid && desk.book.rule("standby.island.microgrid").exists;
    return check_by(desk,
                    {.name = "island_capacity",
                     .title = "Source carries the largest single load",
                     .rule = own_rule ? "standby.island.microgrid" : "standby.island",
                     .as = ShownAs::apparent_power},
                    capacity, "≥", largest_load);
}

RuleVerdict continuous_capacity(const Desk& desk, const ContinuousInput& input) {
    Term<Watts> sum =
        input.loads.empty() ? given("S_load", Watts{0}, "no loads") : input.loads.front();
    for (std::size_t i = 1; i < input.loads.size(); ++i)
        sum = sum + input.loads[i];
    const auto running = input.running_share == 1 ? sum : factor(input.running_share) * sum;
    Heading heading =
        line_for(desk, "backed_up_load", "S_backup",
                 input.running_share == 1 ? "Backed-up loads"
                                          : "Backed-up loads, the stated share that runs together",
                 desk.book.cite("standby.continuous"));
    heading.as = ShownAs::apparent_power;
    const auto load = desk.sheet.define(heading, running);
    return check_by(desk,
                    {.name = "continuous_capacity",
                     .title = "Inverters carry the backed-up loads",
                     .rule = "standby.continuous",
                     .as = ShownAs::apparent_power},
                    count_of(input.count) * input.rating, "≥", load);
}

namespace {

Term<Amps> by_letter(const Desk& desk, const MotorInput& motor, Watts per_horsepower) {
    const Term<Watts> unit{per_horsepower, "S_letter", shown_va(per_horsepower), Binding::atom, {}};
    const auto volts = given("V", motor.voltage, "voltage of the motor");
    const auto power = given("hp", Ratio{motor.horsepower}, "rated horsepower") * unit;
    Heading heading = line_for(desk, "locked_rotor", "I_LR", "Locked-rotor current",
                               desk.book.cite("motor.locked_rotor"));
    heading.source = desk.book.table_name("code_letters") + ", letter " + motor.code_letter;
    return desk.sheet.define(heading,
                             motor.three_phase ? power / (root_three() * volts) : power / volts);
}

std::optional<Term<Amps>> across_the_line(const Desk& desk, const MotorInput& motor) {
    if (motor.locked_rotor) {
        Heading stated = line_for(desk, "locked_rotor", "I_LR", "Locked-rotor current",
                                  {{}, "equipment nameplate"});
        stated.source = "nameplate of the motor";
        return desk.sheet.state(stated, *motor.locked_rotor);
    }
    if (motor.horsepower > 0) {
        if (const auto unit = locked_rotor_per_horsepower(desk.book, motor.code_letter))
            return by_letter(desk, motor, *unit);
    }
    if (!motor.running)
        return std::nullopt;
    return desk.sheet.define(line_for(desk, "locked_rotor", "I_LR",
                                      "Starting current, from the running current",
                                      desk.book.cite("motor.starting")),
                             factor(desk.book.number("motor.starting")) * *motor.running);
}

} // namespace

std::optional<Term<Amps>> starting_current(const Desk& desk, const MotorInput& motor) {
    auto direct = across_the_line(desk, motor);
    if (!direct || !motor.soft_starter)
        return direct;
    const double share = motor.soft_start_share.value_or(desk.book.number("motor.soft_start"));
    const Citation cite = motor.soft_start_share ? Citation{{}, "equipment nameplate"}
                                                 : desk.book.cite("motor.soft_start");
    return desk.sheet.define(
        line_for(desk, "starting", "I_start", "Starting current behind the soft starter", cite),
        factor(share) * *direct);
}

RuleVerdict check_starting(const Desk& desk, const StartingInput& input) {
    const auto load =
        input.running_beside ? *input.running_beside + input.starting : input.starting;
    const auto moment =
        desk.sheet.define(line_for(desk, "starting_load", "I_moment", "Current as the motor starts",
                                   desk.book.cite("standby.starting")),
                          load);
    return check_by(
        desk,
        {"starting_capacity", "Sources that form the grid start the motor", "standby.starting"},
        count_of(input.count) * input.peak, "≥", moment);
}

} // namespace ohmfolio
