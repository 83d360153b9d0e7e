// The published examples of standby sources; see case_runner.h.
#include "case_runner.h"
#include "catch.h"

using namespace ohmfolio;

namespace {

constexpr double feet_per_meter = 1 / 0.3048;

Answers generator(Desk desk, const Given& given_values) {
    const auto rating = nameplate_load("gen", Watts{1000 * given_values.number("kilovoltamperes")});
    const auto current = generator_current(desk, rating, Volts{given_values.number("voltage")});
    Worksheet aside;
    return {{"current", current.value.value},
            {"conductor", generator_conductor(desk, current, false).value.value},
            {"protected",
             generator_conductor({aside, desk.book, desk.subject}, current, true).value.value}};
}

Answers generator_size(Desk desk, const Given& given_values) {
    const auto rating = nameplate_load("gen", Watts{1000 * given_values.number("kilovoltamperes")});
    const auto current = generator_current(desk, rating, Volts{given_values.number("voltage")});
    const auto required = generator_conductor(desk, current, false);
    Worksheet aside;
    const auto sized = size_conductor({aside, desk.book, desk.subject}, {.continuous = current,
                                                                         .required = required,
                                                                         .overcurrent = required,
                                                                         .insulation_column = 75});
    return {{"current", current.value.value}, {"size", name(sized.size)}};
}

MotorInput motor(const Given& given_values) {
    MotorInput input{.code_letter = given_values.text_or("code_letter", ""),
                     .horsepower = given_values.number_or("horsepower", 0),
                     .voltage = Volts{given_values.number_or("voltage", 240)},
                     .three_phase = given_values.flag("three_phase"),
                     .soft_starter = given_values.has("soft_start_share")};
    if (given_values.has("locked_rotor"))
        input.locked_rotor = Amps{given_values.number("locked_rotor")};
    if (input.soft_starter)
        input.soft_start_share = given_values.number("soft_start_share");
    return input;
}

Answers starting(Desk desk, const Given& given_values) {
    StartingInput input{.starting = *starting_current(desk, motor(given_values)),
                        .peak = given("I_peak", Amps{given_values.number_or("peak", 1000)})};
    if (given_values.has("running_beside"))
        input.running_beside = given("I_run", Amps{given_values.number("running_beside")});
    const RuleVerdict result = check_starting(desk, input);
    return {{"starting", input.starting.value.value},
            {"moment", desk.sheet.find("X.starting_load")->value},
            {"passes", yes_or_no(result.passes)},
            {"reason", result.statement}};
}

Answers derating(Desk desk, const Given& given_values) {
    const auto feet = [&](const char* key) {
        return Feet{feet_per_meter * given_values.number(key)};
    };
    const GeneratorDerating losses{.altitude_share = given_values.number("altitude_share"),
                                   .altitude_step = feet("altitude_step_m"),
                                   .altitude_from = feet("altitude_from_m"),
                                   .temperature_share = {given_values.number("temperature_share")},
                                   .temperature_from = {given_values.number("temperature_from")}};
    const auto rating = nameplate_load("gen", Watts{1});
    const auto left = derated_generator(desk, rating, feet("altitude_m"),
                                        {given_values.number("ambient")}, losses);
    return {{"altitude", desk.sheet.find("X.derating_altitude")->value},
            {"temperature", desk.sheet.find("X.derating_temperature")->value},
            {"left", left.value.value}};
}

const Procedures procedures = {{"generator", generator},
                               {"generator_size", generator_size},
                               {"starting", starting},
                               {"derating", derating}};

} // namespace

TEST_CASE("published examples of standby sources") {
    CHECK(run_cases("standby", procedures) >= 10);
    CHECK(run_cases("standby_audit", procedures) >= 1);
}
