// The published worked examples of the first chapters; see case_runner.h.
#include "base/text.h"
#include "case_runner.h"
#include "catch.h"

using namespace ohmfolio;

namespace {

Answers continuous_current(Desk desk, const Given& given_values) {
    const auto currents = given_values.numbers("currents");
    Term<Amps> sum = given("I_1", Amps{currents.front()});
    for (std::size_t i = 1; i < currents.size(); ++i)
        sum = sum + given("I", Amps{currents[i]});
    const auto required = required_rating(desk, sum, given_values.text("rule"));
    return {{"sum", sum.value.value},
            {"required", required.value.value},
            {"device", overcurrent_rating(desk, required)->value.value}};
}

Answers conductor(Desk desk, const Given& given_values) {
    const auto continuous = given("I_cont", Amps{given_values.number("continuous")});
    const auto required = required_rating(desk, continuous, "source.conductor.continuous");
    const Amps device = given_values.has("device") ? Amps{given_values.number("device")}
                                                   : *desk.book.standard_rating_up(required.value);
    const auto result =
        size_conductor(desk, {.continuous = continuous,
                              .required = required,
                              .overcurrent = given("I_ocpd", device),
                              .terminals = Celsius{given_values.number_or("terminals", 75)},
                              .ambient = Celsius{given_values.number_or("ambient", 30)},
                              .current_carrying = given_values.count_or("current_carrying", 2),
                              .stated = given_values.wire("stated")});
    return {
        {"required", required.value.value},        {"device", device.value},
        {"ambient_factor", result.ambient_factor}, {"corrected", result.ampacity_corrected.value},
        {"passes", yes_or_no(result.passes)},      {"faults", join(result.fault_rules, ", ")}};
}

Answers bus(Desk desk, const Given& given_values) {
    BusInput input{.bus = given("I_bus", Amps{given_values.number("bus")}),
                   .main = given("I_main", Amps{given_values.number("main")}),
                   .sources_125 = given("I_src", Amps{given_values.number("sources_125")}),
                   .breakers = {},
                   .opposite_end = given_values.flag("opposite_end"),
                   .centre_fed = given_values.flag("centre_fed")};
    for (const double amps : given_values.numbers("breakers"))
        input.breakers.push_back(given("I_b", Amps{amps}));
    Answers answers;
    for (const BusOption& option : try_bus_rules(desk, input))
        answers[option.rule_id] = option.applies ? option.reason : "does not apply";
    return answers;
}

Answers fill(Desk desk, const Given& given_values) {
    RacewayInput input{.kind = RacewayKind::emt};
    for (const char* size : {"12", "10", "8", "6"})
        if (const int count = given_values.count_or(size, 0))
            input.conductors.push_back({count, *parse_wire_size(size), Insulation::thwn_2});
    if (given_values.has("stated"))
        input.stated = parse_trade_size(given_values.text("stated"));
    const auto result = size_raceway(desk, input);
    return {{"conductors", result.conductors.value},
            {"allowed", result.allowed.value},
            {"inside", result.inside.value},
            {"trade_size", std::string(name(result.size))}};
}

Answers equipment_ground(Desk desk, const Given& given_values) {
    const auto result = size_equipment_ground(
        desk, {.overcurrent = given("I_ocpd", Amps{given_values.number("device")}),
               .phase_needed = given_values.wire("phase_needed"),
               .phase_installed = given_values.wire("phase_installed")});
    const Derivation* area = desk.sheet.find("X.equipment_ground_area");
    return {{"size", name(result.size)}, {"area", area == nullptr ? 0 : area->value}};
}

Answers grounding_electrode(Desk desk, const Given& given_values) {
    const auto result =
        size_grounding_electrode(desk, {.service = given_values.wire("service"), .electrodes = {}});
    return {{"size", name(result.size)}};
}

/// Which size first keeps a two-wire direct-current run within a share of the voltage.
Answers smallest_for_voltage(Desk desk, const Given& given_values) {
    Answers answers;
    for (const char* size : {"14", "12", "10", "8"}) {
        Worksheet aside;
        const auto change =
            voltage_change({aside, desk.book, desk.subject},
                           {.current = given("I", Amps{given_values.number("current")}),
                            .one_way = Feet{given_values.number("one_way")},
                            .size = *parse_wire_size(size),
                            .nominal = Volts{given_values.number("nominal")},
                            .dc = true});
        if (change.fraction <= given_values.number("share") && !answers.contains("size"))
            answers["size"] = std::string(size) + " AWG";
        answers["volts_" + std::string(size)] = change.volts.value;
    }
    return answers;
}

const Procedures procedures = {
    {"continuous_current", continuous_current},
    {"conductor", conductor},
    {"bus", bus},
    {"raceway_fill", fill},
    {"equipment_ground", equipment_ground},
    {"grounding_electrode", grounding_electrode},
    {"smallest_for_voltage", smallest_for_voltage},
};

} // namespace

TEST_CASE("published worked examples") {
    int cases = 0;
    for (const char* chapter :
         {"conductors", "connection", "currents", "grounding_and_fill", "voltage"})
        cases += run_cases(chapter, procedures);
    CHECK(cases >= 22);
}
