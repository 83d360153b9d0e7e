// The published worked examples of conductors of alternating-current circuits; see case_runner.h.
#include "base/text.h"
#include "case_runner.h"
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

ConductorInput load(double continuous, double device) {
    return {.continuous = amps(continuous, "I_cont"),
            .required = amps(1.25 * continuous, "I_req"),
            .overcurrent = amps(device, "I_ocpd")};
}

Material material_of(const Given& g) { return *parse_material(g.text_or("material", "copper")); }

Answers ampacity(Desk desk, const Given& g) {
    auto input = load(1, 15);
    input.stated = g.wire("size");
    input.insulation_column = g.count_or("insulation", 90);
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

/// Sets of copper conductors in parallel between a transformer and the device at their end.
Answers secondary_sets(Desk desk, const Given& g) {
    const Amps one = *desk.book.ampacity(g.wire("size"), Material::copper, 75);
    const double sets = g.number("sets");
    const auto result =
        check_secondary(desk, {.primary_device = amps(g.number("primary_device"), "I_primary"),
                               .primary = Volts{g.number("primary")},
                               .secondary = Volts{g.number("secondary")},
                               .ampacity = given("I_z", sets * one),
                               .length = Feet{g.number("length")},
                               .end = end_of(g)});
    return {{"ampacity", (sets * one).value}, {"passes", yes_or_no(result.passes)}};
}

Answers vehicle(Desk desk, const Given& g) {
    const auto current = amps(g.number("current"), "I_EV");
    const auto required = vehicle_circuit(desk, {.current = current}).required;
    const auto device = given("I_ocpd", *desk.book.standard_rating_up(required.value));
    const auto size = [&](Material material, double terminals) {
        Worksheet aside;
        return name(
            size_conductor({aside, desk.book, desk.subject}, {.continuous = current,
                                                              .required = required,
                                                              .overcurrent = device,
                                                              .material = material,
                                                              .terminals = Celsius{terminals}})
                .size);
    };
    return {{"required", required.value.value},
            {"device", device.value.value},
            {"copper_75", size(Material::copper, 75)},
            {"copper_60", size(Material::copper, 60)},
            {"aluminum_75", size(Material::aluminum, 75)},
            {"aluminum_60", size(Material::aluminum, 60)},
            {"ground", name(*desk.book.equipment_ground(device.value, Material::copper))}};
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
                                              .dc = g.flag("table_8"),
                                              .power_factor = g.number_or("power_factor", 1)});
    return {{"volts", result.volts.value}, {"percent", 100 * result.fraction}};
}

const Procedures procedures = {{"ampacity", ampacity},
                               {"smallest", smallest},
                               {"parallel", parallel},
                               {"dwelling", dwelling},
                               {"count", count},
                               {"tap", tap},
                               {"secondary_sets", secondary_sets},
                               {"vehicle_circuit", vehicle},
                               {"secondary", secondary},
                               {"load", required},
                               {"voltage", voltage}};

} // namespace

TEST_CASE("published worked examples of conductors") {
    CHECK(run_cases("ac_conductors", procedures) >= 25);
    CHECK(run_cases("ac_conductors_audit", procedures) >= 11);
}
