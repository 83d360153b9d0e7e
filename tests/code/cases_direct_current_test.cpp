// The published worked examples of direct current; see case_runner.h.
#include "case_runner.h"
#include "catch.h"

using namespace ohmfolio;

namespace {

ArrayPlace place_of(const Given& given_values) {
    const std::string word = given_values.text("place");
    if (word == "dwelling")
        return ArrayPlace::dwelling;
    REQUIRE((word == "building" || word == "ground"));
    return word == "building" ? ArrayPlace::building : ArrayPlace::ground;
}

DcMethod method_of(const Given& given_values) {
    const std::string word = given_values.text_or("method", "exposed");
    static const std::map<std::string, DcMethod> methods = {
        {"exposed", DcMethod::exposed_singles},
        {"metal raceway", DcMethod::metal_raceway},
        {"mc cable", DcMethod::mc_cable},
        {"underground", DcMethod::underground}};
    return methods.at(word);
}

std::optional<Volts> volts_if_any(const Given& given_values, std::string_view key) {
    return given_values.has(key) ? std::optional(Volts{given_values.number(key)}) : std::nullopt;
}

Answers cold_voltage(Desk desk, const Given& given_values) {
    ColdVoltageInput input{.voc = Volts{given_values.number("voc")},
                           .per_celsius = {},
                           .coldest = Celsius{given_values.number("coldest")}};
    if (given_values.has("per_celsius"))
        input.per_celsius = given_values.number("per_celsius");
    const auto volts = cold_open_circuit_voltage(desk, input);
    const int most = most_in_series(desk, volts, Volts{given_values.number("limit")});
    return {{"voltage", volts.value.value}, {"most_in_series", double(most)}};
}

Answers fewest(Desk desk, const Given& given_values) {
    const auto hot = given("V_mp.hot", Volts{given_values.number("hot_voltage")});
    return {{"fewest_in_series",
             double(fewest_in_series(desk, hot, Volts{given_values.number("floor")}))}};
}

Answers table_factor(Desk desk, const Given& given_values) {
    return {{"factor", *desk.book.voltage_table_factor(Celsius{given_values.number("coldest")})}};
}

Answers source_circuit(Desk desk, const Given& given_values) {
    const auto current = source_circuit_current(desk, Amps{given_values.number("isc")},
                                                given_values.count_or("parallel", 1));
    const auto required = required_rating(desk, current, "pv.overcurrent");
    const auto rating = overcurrent_rating(desk, required);
    return {{"required", required.value.value}, {"device", rating->value.value}};
}

Answers power_point(Desk desk, const Given& given_values) {
    const auto found = array_power_point(
        desk, Volts{given_values.number("vmp")}, Amps{given_values.number("imp")},
        given_values.count_or("in_series", 1), given_values.count_or("parallel", 1));
    return {{"volts", found.volts.value}, {"amps", found.amps.value}};
}

Answers string_range(Desk desk, const Given& given_values) {
    const double coefficient = given_values.number("per_celsius");
    const auto range =
        string_length(desk, {.module = {.voc = Volts{given_values.number("voc")},
                                        .vmp = Volts{given_values.number("vmp")},
                                        .voc_per_celsius = coefficient,
                                        .vmp_per_celsius = coefficient},
                             .input = {.input_limit = Volts{given_values.number("input_limit")},
                                       .tracking_low = volts_if_any(given_values, "tracking_low")},
                             .place = place_of(given_values),
                             .coldest = Celsius{given_values.number("coldest")},
                             .hottest_cell = Celsius{given_values.number("hottest_cell")}});
    const Derivation* hot = desk.sheet.find("X.hot_power_point");
    return {{"cold", range.cold_voltage.value.value},
            {"hot", hot == nullptr ? 0 : hot->value},
            {"most", double(range.most)},
            {"most_governs", range.most_governs},
            {"fewest", double(range.fewest.value_or(0))}};
}

Answers voltage_kept(Desk desk, const Given& given_values) {
    StringLimits limits;
    limits.input.input_limit = Volts{given_values.number("input_limit")};
    limits.place = place_of(given_values);
    const auto verdicts =
        check_string_voltage(desk, given("V_max", Volts{given_values.number("voltage")}), limits);
    return {{"building_limit", building_voltage_limit(desk, limits.place).value.value},
            {"passes", yes_or_no(all_pass(verdicts))}};
}

Answers dc_conductor(Desk desk, const Given& given_values) {
    const auto current = source_circuit_current(desk, Amps{given_values.number("isc")}, 1);
    ConductorInput conditions;
    conditions.smallest = *parse_wire_size("14");
    const auto result = size_dc_conductor(desk, {.current = current}, conditions);
    return {{"current", current.value.value},
            {"required", desk.sheet.find("X.conductor_continuous")->value},
            {"size", name(result.conductor.size)}};
}

Answers string_fuse(Desk desk, const Given& given_values) {
    StringFuseInput input;
    input.string_current = source_circuit_current(desk, Amps{given_values.number("isc")}, 1);
    input.parallel = given_values.count_or("parallel", 1);
    input.module_fuse = Amps{given_values.number("module_fuse")};
    if (given_values.has("inverter_backfeed"))
        input.backfeed = Amps{given_values.number("inverter_backfeed")};
    const auto result = size_string_fuse(desk, input);
    return {{"backfeed", result.backfeed.value.value},
            {"needed", yes_or_no(result.needed)},
            {"rating", result.rating ? result.rating->value.value : 0.0},
            {"conflict", yes_or_no(result.conflict)},
            {"fuses", double(result.fuses)}};
}

Answers array_ground(Desk desk, const Given& given_values) {
    const WireSize phase = given_values.wire("phase");
    const auto result =
        size_array_ground(desk, {.device = given("I_ocpd", Amps{given_values.number("device")}),
                                 .phase_needed = phase,
                                 .phase_installed = phase});
    return {{"size", name(result.size)}};
}

Answers scope(Desk desk, const Given& given_values) {
    static const std::map<std::string, ArrayStands> stands = {
        {"building", ArrayStands::building},
        {"open structure", ArrayStands::open_structure},
        {"ground", ArrayStands::ground}};
    static const std::map<std::string, CircuitsGo> go = {
        {"off buildings", CircuitsGo::off_buildings},
        {"ends outside", CircuitsGo::ends_outside},
        {"into building", CircuitsGo::into_building}};
    const auto found = shutdown_scope(desk, stands.at(given_values.text("stands")),
                                      go.at(given_values.text("go")));
    return {{"required", yes_or_no(found.required)}, {"rule", found.rule}};
}

Answers shutdown_outside(Desk desk, const Given& given_values) {
    const auto result = check_rapid_shutdown(
        desk, {.means = ShutdownMeans::string_device,
               .string_voltage = given("V_max", Volts{400}),
               .left_outside = given("V_left", Volts{given_values.number("volts")}),
               .seconds = given_values.number("seconds")});
    return {{"passes", yes_or_no(result.verdicts.at(0).passes && result.verdicts.at(1).passes)}};
}

Answers arc_fault(Desk desk, const Given& given_values) {
    const auto result =
        check_arc_fault(desk, {.voltage = given("V_max", Volts{given_values.number("voltage")}),
                               .place = place_of(given_values),
                               .output_circuit = given_values.flag("output_circuit"),
                               .method = method_of(given_values)});
    return {{"required", yes_or_no(result.required)}};
}

Answers ground_fault(Desk desk, const Given& given_values) {
    const auto result =
        check_ground_fault(desk, {.voltage = given("V_max", Volts{given_values.number("voltage")}),
                                  .current = given("I_max", Amps{given_values.number("current")}),
                                  .place = place_of(given_values),
                                  .parallel = given_values.count_or("parallel", 1),
                                  .solidly_grounded = given_values.flag("solidly_grounded")});
    return {{"required", yes_or_no(result.required)}};
}

const Procedures procedures = {{"cold_voltage", cold_voltage},
                               {"fewest_in_series", fewest},
                               {"voltage_table_factor", table_factor},
                               {"source_circuit", source_circuit},
                               {"array_power_point", power_point},
                               {"string_range", string_range},
                               {"voltage_kept", voltage_kept},
                               {"dc_conductor", dc_conductor},
                               {"string_fuse", string_fuse},
                               {"array_ground", array_ground},
                               {"shutdown_scope", scope},
                               {"shutdown_outside", shutdown_outside},
                               {"arc_fault", arc_fault},
                               {"ground_fault", ground_fault}};

} // namespace

TEST_CASE("published worked examples of direct current") {
    CHECK(run_cases("direct_current", procedures) >= 34);
    CHECK(run_cases("direct_current_audit", procedures) >= 2);
}
