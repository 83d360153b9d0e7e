// The published load calculations; see case_runner.h.
#include "case_runner.h"
#include "catch.h"
#include "code/load_terms.h"

using namespace ohmfolio;

namespace {

/// `ratings` as nameplates; `each` says how many there are of each.
std::vector<Term<Watts>> nameplates(const Given& given_values, const char* key) {
    std::vector<Term<Watts>> loads;
    const auto each = given_values.numbers("each");
    std::size_t place = 0;
    for (const double rating : given_values.numbers(key)) {
        const int count = place < each.size() ? static_cast<int>(each[place]) : 1;
        for (int i = 0; i < count; ++i)
            loads.push_back(nameplate_load("load", Watts{rating}));
        ++place;
    }
    return loads;
}

std::optional<Term<Watts>> nameplate_if_any(const Given& given_values, const char* key) {
    if (!given_values.has(key))
        return std::nullopt;
    return nameplate_load(key, Watts{given_values.number(key)});
}

ServiceInput service(const Given& given_values) {
    ServiceInput input{.voltage = Volts{given_values.number_or("voltage", 240)},
                       .three_phase = given_values.flag("three_phase")};
    if (given_values.has("service"))
        input.rating = given("I_service", Amps{given_values.number("service")});
    return input;
}

GeneralLoads general(const Given& given_values) {
    return {.floor = SquareFeet{given_values.number("floor")},
            .small_appliance_circuits = given_values.count_or("small_appliance", 2),
            .laundry_circuits = given_values.count_or("laundry", 1),
            .appliances = nameplates(given_values, "appliances"),
            .vehicles = nameplates(given_values, "vehicles")};
}

ClimateLoads climate(const Given& given_values) {
    return {.cooling = nameplate_if_any(given_values, "cooling"),
            .heat_pump = nameplate_if_any(given_values, "heat_pump"),
            .supplemental_heat = nameplate_if_any(given_values, "supplemental_heat"),
            .space_heating = nameplate_if_any(given_values, "space_heating"),
            .space_heating_units = given_values.count_or("space_heating_units", 1)};
}

/// All lines of the method, by what they are, and the result.
Answers answers(const Desk& desk, const std::string& method, const LoadResult& result) {
    Answers all;
    for (const Derivation& line : desk.sheet.all())
        if (line.name.starts_with(method + "_"))
            all[line.name.substr(method.size() + 1)] = line.value;
    all["load"] = result.load.value.value;
    all["amps"] = result.amps.value.value;
    all["least"] = result.least.value.value;
    all["standard"] = result.standard_rating ? result.standard_rating->value : 0;
    all["passes"] = yes_or_no(result.passes);
    all["exact_amps"] = result.load.value.value / 240;
    return all;
}

Answers optional(Desk desk, const Given& given_values) {
    return answers(desk, "optional",
                   optional_dwelling_load(
                       desk, {.general = general(given_values), .climate = climate(given_values)},
                       service(given_values)));
}

Answers existing(Desk desk, const Given& given_values) {
    return answers(desk, "existing",
                   existing_dwelling_load(desk,
                                          {.general = general(given_values),
                                           .climate = climate(given_values),
                                           .climate_added = given_values.flag("climate_added")},
                                          service(given_values)));
}

Answers standard(Desk desk, const Given& given_values) {
    StandardInput input{.floor = SquareFeet{given_values.number("floor")},
                        .appliances = nameplates(given_values, "appliances"),
                        .dryers = nameplates(given_values, "dryers"),
                        .cooking = nameplates(given_values, "cooking"),
                        .heating = nameplate_if_any(given_values, "heating"),
                        .cooling = nameplate_if_any(given_values, "cooling")};
    input.largest_motor = nameplate_if_any(given_values, "largest_motor");
    input.others = nameplates(given_values, "others");
    Answers all =
        answers(desk, "standard", standard_dwelling_load(desk, input, service(given_values)));
    if (all.contains("cooking_demand"))
        all["cooking"] = all["cooking_demand"];
    return all;
}

Answers neutral(Desk desk, const Given& given_values) {
    const auto result = neutral_load(
        desk, {.lighting = nameplate_load("light", Watts{given_values.number("lighting")}),
               .cooking = nameplate_if_any(given_values, "cooking"),
               .drying = nameplate_if_any(given_values, "drying"),
               .others = nameplates(given_values, "others")});
    return {{"load", result.load.value.value}, {"amps", result.amps.value.value}};
}

Answers line(Desk desk, const Given& given_values) {
    std::vector<Term<Amps>> loads;
    for (const double amps : given_values.numbers("loads"))
        loads.push_back(given("I", Amps{amps}));
    const auto result =
        line_load(desk, "A", loads, given("I_motor", Amps{given_values.number("largest_motor")}));
    const auto standard_rating = desk.book.standard_rating_up(result.value);
    return {{"amps", result.value.value}, {"standard", standard_rating->value}};
}

Answers cooking(Desk desk, const Given& given_values) {
    const auto result = cooking_demand(desk, nameplates(given_values, "ratings"));
    return {{"kilowatts", result.value.value / 1000}};
}

Answers cooking_circuit(Desk desk, const Given& given_values) {
    const auto load = cooking_circuit_load(desk, CookingCircuit::cooktop_with_ovens,
                                           nameplates(given_values, "ratings"));
    return {{"kilowatts", load.value.value / 1000}, {"amps", load.value.value / 240}};
}

Answers dryers(Desk desk, const Given& given_values) {
    return {{"load", dryer_demand(desk, nameplates(given_values, "ratings")).value.value}};
}

Answers appliances(Desk desk, const Given& given_values) {
    return {{"load", appliance_demand(desk, nameplates(given_values, "ratings")).value.value}};
}

Answers first_and_rest(Desk desk, const Given& given_values) {
    const auto total = nameplate_load("all", Watts{given_values.number("total")});
    const auto demand = banded(total, {{Watts{desk.book.number("load.optional.first")}, 1},
                                       {std::nullopt, desk.book.number("load.optional.share")}});
    return {{"demand", demand.value.value}};
}

Answers metered(Desk desk, const Given& given_values) {
    const MeteredInput input{.peak = nameplate_load("peak", Watts{given_values.number("peak")}),
                             .added =
                                 nameplate_load("new", Watts{given_values.number_or("added", 0)})};
    return answers(desk, "metered", load_by_record(desk, input, service(given_values)));
}

Answers vehicle(Desk desk, const Given& given_values) {
    const auto nameplate = given("I_EV", Amps{given_values.number("nameplate")});
    const auto load = vehicle_load(desk, {.nameplate = nameplate});
    const auto circuit = vehicle_circuit(desk, {.current = nameplate});
    return {{"load", load.value.value}, {"required", circuit.required.value.value}};
}

const Procedures procedures = {
    {"optional", optional},
    {"existing", existing},
    {"standard", standard},
    {"neutral", neutral},
    {"line", line},
    {"cooking", cooking},
    {"cooking_circuit", cooking_circuit},
    {"dryers", dryers},
    {"appliances", appliances},
    {"first_and_rest", first_and_rest},
    {"metered", metered},
    {"vehicle", vehicle},
};

} // namespace

TEST_CASE("published load calculations") {
    CHECK(run_cases("loads", procedures) >= 33);
    CHECK(run_cases("loads_audit", procedures) >= 7);
}
