// The grounding electrode system. Rows by hand from the published tables in tests/data.
#include "catch.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

GroundingElectrodeResult electrode(const char* service, std::vector<std::string> electrodes,
                                   std::optional<WireSize> stated = {},
                                   Material material = Material::copper) {
    TestDesk desk;
    return size_grounding_electrode(desk, {.service = wire(service),
                                           .material = material,
                                           .electrodes = std::move(electrodes),
                                           .stated = stated});
}

RuleVerdicts system_of(const ElectrodeSystemInput& input, Edition edition = Edition::nec2023) {
    TestDesk desk(edition);
    return check_electrode_system(desk, input);
}

} // namespace

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

TEST_CASE("areas of parallel service conductors add up") {
    // 2 x 3/0 copper: 335 600 cmil, through 350 kcmil: 2 AWG; 3 x 3/0: 503 400: 1/0 AWG.
    GroundingElectrodeInput input{.service = wire("3/0"), .parallel_sets = 2};
    TestDesk two, three;
    CHECK(size_grounding_electrode(two, input).size == wire("2"));
    CHECK(two.line("grounding_electrode").source ==
          "Table 250.66, service conductors of 2 × 3/0 AWG CU");
    input.parallel_sets = 3;
    CHECK(size_grounding_electrode(three, input).size == wire("1/0"));
    // Through the end of the table and beyond: 2 x 500 = 1000, 2 x 600 = 1200 kcmil.
    TestDesk within, beyond;
    CHECK(size_grounding_electrode(within, {.service = wire("500"), .parallel_sets = 2}).size ==
          wire("2/0"));
    CHECK(size_grounding_electrode(beyond, {.service = wire("600"), .parallel_sets = 2}).size ==
          wire("3/0"));
}

TEST_CASE("a ground ring caps at its own size, where that is known") {
    GroundingElectrodeInput input{.service = wire("600"), .electrodes = {"ring"}};
    TestDesk unknown, known, mixed;
    CHECK(size_grounding_electrode(unknown, input).size == wire("1/0"));
    input.ring = wire("2");
    CHECK(size_grounding_electrode(known, input).size == wire("2"));
    CHECK(text(known.line("grounding_electrode").cite) == "NEC 2023 250.66(C)");
    input.electrodes = {"ring", "rod", "concrete-encased"};
    CHECK(size_grounding_electrode(mixed, input).size == wire("2"));
}

TEST_CASE("each electrode by itself") {
    const CodeBook book(Edition::nec2023);
    const auto to = conductors_to_electrodes(
        book, {.service = wire("350"), .electrodes = {"water pipe", "rod", "concrete-encased"}});
    REQUIRE(to.size() == 3);
    CHECK(to[0].size == wire("2"));
    CHECK(to[1].size == wire("6"));
    CHECK(to[2].size == wire("4"));
    CHECK(text(to[1].cite) == "NEC 2023 250.66(A)");
}

TEST_CASE("a single rod needs a second electrode, or 25 ohms") {
    for (const Edition edition : all_editions) {
        CHECK(fails(system_of({.rods = 1}, edition), "ground.electrode.rod.second"));
        CHECK(all_pass(system_of({.rods = 1, .rod_ohms = 25}, edition)));
        CHECK_FALSE(all_pass(system_of({.rods = 1, .rod_ohms = 25.1}, edition)));
        CHECK(all_pass(system_of({.rods = 1, .others = 1}, edition)));
        CHECK(all_pass(system_of({.rods = 2, .rod_spacing = Feet{6}}, edition)));
        CHECK(fails(system_of({.rods = 2, .rod_spacing = Feet{5.9}}, edition),
                    "ground.electrode.rod.spacing"));
    }
    CHECK(first_fault(system_of({.rods = 2}))->statement == "not stated: 6 ft or more");
}

TEST_CASE("a water pipe has another electrode beside it; the two serve each other") {
    CHECK(fails(system_of({.water_pipe = true}), "ground.electrode.pipe.second"));
    CHECK(all_pass(system_of({.rods = 1, .water_pipe = true}))); // forums.mikeholt.com 145511
    CHECK(all_pass(system_of({.water_pipe = true, .others = 1})));
}

TEST_CASE("a ring is of 2 AWG or larger") {
    CHECK(all_pass(system_of({.others = 1, .ring = wire("2")})));
    CHECK(fails(system_of({.others = 1, .ring = wire("3")}), "ground.electrode.ring.size"));
}

TEST_CASE("aluminum stays 18 in from earth and off masonry") {
    const auto checked = [](const AluminumElectrodeInput& input) {
        TestDesk desk;
        return check_aluminum_electrode(desk, input);
    };
    CHECK(all_pass(checked({.height = Feet{1.5}})));
    CHECK_FALSE(all_pass(checked({.height = Feet{1.49}})));
    CHECK_FALSE(all_pass(checked({.height = Feet{3}, .touches_masonry = true})));
}

TEST_CASE("direct-current systems: the largest conductor, within 8 AWG and 3/0") {
    const auto size = [](const char* largest, std::vector<std::string> electrodes = {},
                         Material material = Material::copper) {
        TestDesk desk;
        return size_direct_current_electrode(desk, {.largest = wire(largest),
                                                    .material = material,
                                                    .electrodes = std::move(electrodes)})
            .size;
    };
    CHECK(size("10") == wire("8"));
    CHECK(size("10", {}, Material::aluminum) == wire("6"));
    CHECK(size("4") == wire("4"));
    CHECK(size("3/0") == wire("3/0"));
    CHECK(size("4/0") == wire("3/0"));
    CHECK(size("4/0", {"rod"}) == wire("6"));
    CHECK(size("4/0", {"concrete-encased"}) == wire("4"));
}

TEST_CASE("termination for other systems") {
    TestDesk three, two, hidden;
    CHECK(all_pass(check_intersystem_bonding(three, {.terminals = 3, .at_service = true})));
    CHECK_FALSE(all_pass(check_intersystem_bonding(two, {.terminals = 2, .at_service = true})));
    CHECK_FALSE(all_pass(check_intersystem_bonding(hidden, {.terminals = 3})));
}

TEST_CASE("a PV system is grounded through its output circuit") {
    TestDesk connected, loose, solid;
    CHECK(all_pass(check_pv_electrode(connected, {.output_ground_connected = true})));
    CHECK(fails(check_pv_electrode(loose, {}), "ground.pv.electrode"));
    CHECK(all_pass(check_pv_electrode(solid, {.solidly_grounded = true}))); // other rules there
}

TEST_CASE("plates are capped as rods and pipes are, 250.66(A)") {
    CHECK(electrode("350", {"ground plate"}).size == wire("6"));
    CHECK(electrode("350", {"ground plate", "rod"}).size == wire("6"));
}

TEST_CASE("service conductors beyond the table of areas have no row, which is told") {
    TestDesk desk;
    const GroundingElectrodeInput input{.service = wire("1250"), .electrodes = {"rod"}};
    const auto result = size_grounding_electrode(desk, input);
    CHECK_FALSE(result.passes);
    CHECK_FALSE(result.needed);
    CHECK(desk.line("grounding_electrode").comparison ==
          "no row for service conductors of 1250 kcmil CU");
    CHECK(conductors_to_electrodes(desk.book, input).empty());
}

TEST_CASE("a cap that is larger than what the service asks for leaves the conductor alone") {
    // 2 AWG service: 8 AWG by Table 250.66; the 4 AWG of concrete-encased electrodes is no floor.
    const CodeBook book(Edition::nec2023);
    const auto to = conductors_to_electrodes(
        book, {.service = wire("2"), .electrodes = {"concrete-encased", "rod"}});
    REQUIRE(to.size() == 2);
    for (const ElectrodeConductor& one : to) {
        CHECK(one.size == wire("8"));
        CHECK(text(one.cite) == "NEC 2023 250.66");
    }
    // Nor is it one of a direct-current system: 8 AWG from 10 AWG by 250.166(B), 6 AWG at most.
    TestDesk desk;
    CHECK(
        size_direct_current_electrode(desk, {.largest = wire("10"), .electrodes = {"rod"}}).size ==
        wire("8"));
}

TEST_CASE("a cap as large as what it would cap decides nothing") {
    // 3/0 AWG copper: 4 AWG by Table 250.66, as much as to concrete-encased electrodes.
    TestDesk desk;
    const GroundingElectrodeInput input{.service = wire("3/0"), .electrodes = {"concrete-encased"}};
    CHECK(size_grounding_electrode(desk, input).size == wire("4"));
    CHECK(text(desk.line("grounding_electrode").cite) == "NEC 2023 250.66");
    CHECK(text(conductors_to_electrodes(desk.book, input).front().cite) == "NEC 2023 250.66");
    // 250.166: from 8 AWG to 3/0 AWG the largest conductor itself, to rods 6 AWG.
    const auto governs = [](const char* largest, std::vector<std::string> electrodes) {
        TestDesk direct;
        size_direct_current_electrode(
            direct, {.largest = wire(largest), .electrodes = std::move(electrodes)});
        return direct.line("direct_current_electrode").governs;
    };
    CHECK(governs("8", {}) == "largest conductor governs");
    CHECK(governs("10", {}) == "smallest allowed governs");
    CHECK(governs("3/0", {}) == "largest conductor governs");
    CHECK(governs("4/0", {}) == "need not be larger");
    CHECK(governs("6", {"rod"}) == "largest conductor governs");
    CHECK(governs("4", {"rod"}) == "need not be larger to rod electrodes");
}

TEST_CASE("of two caps alike the first is cited") {
    const auto cite = [](std::vector<std::string> electrodes) {
        TestDesk desk;
        size_grounding_electrode(
            desk, {.service = wire("350"), .electrodes = std::move(electrodes), .ring = wire("4")});
        return text(desk.line("grounding_electrode").cite);
    };
    CHECK(cite({"concrete-encased", "ring"}) == "NEC 2023 250.66(B)");
    CHECK(cite({"ring", "concrete-encased"}) == "NEC 2023 250.66(C)");
}

TEST_CASE("one set of service conductors is not counted in words") {
    TestDesk desk;
    size_grounding_electrode(desk, {.service = wire("3/0")});
    CHECK(desk.line("grounding_electrode").source ==
          "Table 250.66, service conductors of 3/0 AWG CU");
}
