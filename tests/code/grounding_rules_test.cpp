// Grounding conductors. Rows by hand from the published tables in tests/data.
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

EquipmentGroundInput ground(double device, const char* needed, const char* installed) {
    return {.overcurrent = amps(device, "I_ocpd"),
            .phase_needed = wire(needed),
            .phase_installed = wire(installed)};
}

WireSize size_of(const EquipmentGroundInput& input) {
    TestDesk desk;
    return size_equipment_ground(desk, input).size;
}

GroundingElectrodeResult electrode(const char* service, std::vector<std::string> electrodes,
                                   std::optional<WireSize> stated = {},
                                   Material material = Material::copper) {
    TestDesk desk;
    return size_grounding_electrode(desk, {.service = wire(service),
                                           .material = material,
                                           .electrodes = std::move(electrodes),
                                           .stated = stated});
}

} // namespace

TEST_CASE("equipment ground by device") {
    CHECK(size_of(ground(20, "12", "12")) == wire("12"));
    CHECK(size_of(ground(60, "6", "6")) == wire("10"));
    CHECK(size_of(ground(61, "4", "4")) == wire("8"));
    CHECK(size_of(ground(100, "3", "3")) == wire("8"));
    CHECK(size_of(ground(200, "3/0", "3/0")) == wire("6"));
}

TEST_CASE("equipment ground grows with the phase conductors, by area") {
    // 60 A, 10 AWG (10 380 cmil). Phases 6 to 4 AWG: x 41 740 / 26 240 = 16 512 cmil; 8 AWG has
    // 16 510, two circular mils less: 6 AWG. The ratio that 8 AWG allows is 1.5906, ours 1.5907.
    CHECK(size_of(ground(60, "6", "4")) == wire("6"));
    // Phases 8 to 6 AWG: x 26 240 / 16 510 = 16 497 cmil: 8 AWG.
    CHECK(size_of(ground(60, "8", "6")) == wire("8"));
    TestDesk desk;
    size_equipment_ground(desk, ground(60, "8", "6"));
    CHECK(desk.line("equipment_ground_area").formula == "A_base × A_used ÷ A_needed");
    CHECK(desk.line("equipment_ground_area").figures == "10380 cmil × 26240 cmil ÷ 16510 cmil");
    CHECK(desk.line("equipment_ground").governs == "increase of the phase conductors governs");
    CHECK(desk.line("equipment_ground").result == "8 AWG CU");
}

TEST_CASE("equipment ground need not be larger than the phase conductors") {
    CHECK(size_of(ground(100, "10", "10")) == wire("10"));
    CHECK(size_of(ground(20, "12", "6")) == wire("6"));
}

TEST_CASE("equipment ground of a PV circuit does not grow with the phases") {
    auto input = ground(20, "12", "6");
    input.pv_circuit = true;
    TestDesk desk;
    CHECK(size_equipment_ground(desk, input).size == wire("12"));
    CHECK(text(desk.line("equipment_ground").cite) == "NEC 2023 690.45");
}

TEST_CASE("a stated equipment ground is judged") {
    auto input = ground(60, "6", "6");
    input.stated = wire("10");
    TestDesk enough;
    CHECK(size_equipment_ground(enough, input).passes);
    CHECK(enough.line("equipment_ground_check").comparison == "10 AWG is not smaller than 10 AWG");
    input.stated = wire("12");
    TestDesk small;
    CHECK_FALSE(size_equipment_ground(small, input).passes);
    CHECK(small.line("equipment_ground_check").comparison == "12 AWG is smaller than 10 AWG");
}

TEST_CASE("a device above the table is not guessed at") {
    TestDesk desk;
    CHECK_FALSE(size_equipment_ground(desk, ground(6001, "1000", "1000")).passes);
    CHECK(desk.line("equipment_ground").verdict == Verdict::fail);
}

TEST_CASE("grounding electrode conductor by service") {
    CHECK(electrode("2", {}).size == wire("8"));
    CHECK(electrode("1", {}).size == wire("6"));
    CHECK(electrode("3/0", {"water pipe"}).size == wire("4"));
    CHECK(electrode("4/0", {"water pipe"}).size == wire("2"));
    CHECK(electrode("3/0", {"water pipe"}, {}, Material::aluminum).size == wire("2"));
}

TEST_CASE("caps: to rods alone 6 AWG, to concrete-encased electrodes alone 4 AWG") {
    CHECK(electrode("350", {"rod"}).size == wire("6"));
    CHECK(electrode("350", {"two ground rods"}).size == wire("6"));
    CHECK(electrode("350", {"rod"}, {}, Material::aluminum).size == wire("4"));
    CHECK(electrode("350", {"concrete-encased"}).size == wire("4"));
    CHECK(electrode("350", {"concrete-encased", "rod"}).size == wire("4"));
    CHECK(electrode("350", {"rod", "water pipe"}).size == wire("2"));
    CHECK(electrode("350", {"rod", "ring"}).size == wire("2"));
    // A cap never raises the size.
    CHECK(electrode("2", {"concrete-encased"}).size == wire("8"));
}

TEST_CASE("a stated grounding electrode conductor is judged") {
    CHECK(electrode("3/0", {"concrete-encased"}, wire("4")).passes);
    CHECK_FALSE(electrode("3/0", {"concrete-encased"}, wire("6")).passes);
}

TEST_CASE("the paragraph of the cap is cited where the cap decides") {
    TestDesk capped, table;
    size_grounding_electrode(capped, {.service = wire("350"), .electrodes = {"concrete-encased"}});
    CHECK(text(capped.line("grounding_electrode").cite) == "NEC 2023 250.66(B)");
    size_grounding_electrode(table, {.service = wire("2"), .electrodes = {"concrete-encased"}});
    CHECK(text(table.line("grounding_electrode").cite) == "NEC 2023 250.66");
}
