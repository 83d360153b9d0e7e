// The published worked examples of cases/bonding.toml, and what they call.
#include "case_runner.h"
#include "catch.h"

using namespace ohmfolio;

namespace {

Material material(const Given& given_values, const char* key) {
    return given_values.text_or(key, "copper") == "aluminum" ? Material::aluminum
                                                             : Material::copper;
}

double value_of(const Desk& desk, const std::string& name) {
    const Derivation* line = desk.sheet.find("X." + name);
    return line == nullptr ? 0 : line->value;
}

Answers equipment_ground(Desk desk, const Given& given_values) {
    const int sets = given_values.count_or("sets", 1);
    EquipmentGroundInput input{.overcurrent = given("I_ocpd", Amps{given_values.number("device")}),
                               .material = material(given_values, "material"),
                               .phase_needed = given_values.wire("phase_needed"),
                               .phase_installed = given_values.wire("phase_installed"),
                               .parallel_sets = sets,
                               .separate_raceways = sets > 1};
    if (given_values.has("stated"))
        input.stated = given_values.wire("stated");
    const auto result = size_equipment_ground(desk, input);
    return {{"size", name(*result.needed)},
            {"area", value_of(desk, "equipment_ground_area")},
            {"count", double(result.count)},
            {"passes", yes_or_no(result.passes)}};
}

Answers jumper(Desk desk, const Given& given_values) {
    const std::map<std::string, JumperUse> uses = {{"main", JumperUse::main},
                                                   {"system", JumperUse::system},
                                                   {"supply", JumperUse::supply_side},
                                                   {"neutral", JumperUse::grounded_conductor}};
    const BondingJumperInput input{.use = uses.at(given_values.text("use")),
                                   .phase = given_values.wire("phase"),
                                   .phase_material = material(given_values, "phase_material"),
                                   .parallel_sets = given_values.count_or("sets", 1),
                                   .by_raceway = given_values.flag("by_raceway"),
                                   .material = material(given_values, "material")};
    const auto result = size_bonding_jumper(desk, input);
    return {{"size", name(result.size)},
            {"count", double(result.count)},
            {"phase_area", input.parallel_sets * desk.book.circular_mils(input.phase)->value},
            {"area", value_of(desk, "main_bonding_jumper_area")}};
}

Answers electrode(Desk desk, const Given& given_values) {
    const auto result = size_grounding_electrode(
        desk, {.service = given_values.wire("service"),
               .service_material = material(given_values, "service_material"),
               .electrodes = given_values.texts("electrodes"),
               .parallel_sets = given_values.count_or("sets", 1)});
    return {{"size", name(result.size)}};
}

Answers knockout(Desk desk, const Given& given_values) {
    const auto checked = check_knockout(desk, {.to_ground = Volts{given_values.number("to_ground")},
                                               .ringed = given_values.flag("ringed")});
    return {{"passes", yes_or_no(all_pass(checked))}};
}

const Procedures procedures = {
    {"equipment_ground", equipment_ground},
    {"jumper", jumper},
    {"electrode", electrode},
    {"knockout", knockout},
};

} // namespace

TEST_CASE("published examples of grounding and bonding") {
    CHECK(run_cases("bonding", procedures) >= 24);
    CHECK(run_cases("bonding_audit", procedures) >= 9);
}
