// The example system, checked against its own text read by eye: counts, terminals and tags below
// were worked out by hand from examples/tolliver-bend/ashgrove.toml and the rules stated in
// src/model/system.h.
#include <filesystem>
#include <sstream>

#include "catch.h"
#include "input/input.h"

using namespace ohmfolio;

namespace {

struct Read {
    SourceFiles sources;
    Findings findings;
    std::optional<System> system;
};

const Read& example() {
    static const Read read = [] {
        Read r;
        const std::filesystem::path path =
            std::filesystem::path(OHMFOLIO_SOURCE) / "examples/tolliver-bend/ashgrove.toml";
        r.system = read_system(path, r.sources, r.findings);
        for (const Finding& finding : r.findings) {
            UNSCOPED_INFO(print(finding, r.sources, false));
        }
        return r;
    }();
    return read;
}

const System& system_of_example() {
    REQUIRE(example().system);
    return *example().system;
}

/// "C5 JB-1.out1 > CP-1.in1"
std::string described(const System& s, const Circuit& c) {
    const auto& child = s.equipment.at(static_cast<std::size_t>(s.child_of(c)));
    const auto& parent = s.equipment.at(static_cast<std::size_t>(s.parent_of(c)));
    return c.tag + " " + child.id + "." + c.from + " > " + parent.id + "." + c.to;
}

std::vector<std::string> circuits(const System& s) {
    std::vector<std::string> result;
    for (const Circuit& c : s.circuits) {
        result.push_back(described(s, c));
    }
    return result;
}

} // namespace

TEST_CASE("the example reads without a finding") {
    const Read& read = example();
    CHECK(read.findings.empty());
    REQUIRE(read.system);
    CHECK(read.sources.count() == 6); // description, catalogue, three cut sheets, a letter
}

TEST_CASE("the example's circuits join the terminals that its text implies, sources first") {
    CHECK(circuits(system_of_example()) == std::vector<std::string>{
                                               "C1 PV-1.out > JB-1.in1",
                                               "C2 PV-2.out > JB-1.in2",
                                               "C3 PV-3.out > JB-2.in1",
                                               "C4 PV-4.out > JB-2.in2",
                                               "C5 JB-1.out1 > CP-1.in1",
                                               "C6 JB-1.out2 > CP-1.in2",
                                               "C7 JB-2.out1 > CP-1.in3",
                                               "C8 JB-2.out2 > CP-1.in4",
                                               "C9 CP-1.out > SW-1.load",
                                               "C10 SW-1.line > MID-1.pv1",
                                               "C11 ES-2.out > ES-1.in",
                                               "C12 ES-1.out > SW-2.load",
                                               "C13 SW-2.line > MID-1.storage1",
                                               "C14 MID-1.grid > MSP.in1",
                                               "C15 BLP.main > MID-1.backup",
                                               "C16 MSP.main > UM-1.load",
                                               "C17 UM-1.line > UTILITY.service",
                                           });
}

TEST_CASE("the example's circuits have the uses of the model") {
    const System& s = system_of_example();
    const std::vector<CircuitUse> uses = {
        CircuitUse::trunk,     CircuitUse::trunk,         CircuitUse::trunk,
        CircuitUse::trunk,     CircuitUse::branch,        CircuitUse::branch,
        CircuitUse::branch,    CircuitUse::branch,        CircuitUse::pv_output,
        CircuitUse::pv_output, CircuitUse::storage,       CircuitUse::storage,
        CircuitUse::storage,   CircuitUse::source_feeder, CircuitUse::backup_feeder,
        CircuitUse::service,   CircuitUse::service};
    REQUIRE(s.circuits.size() == uses.size());
    for (std::size_t i = 0; i < uses.size(); ++i) {
        INFO(s.circuits[i].tag);
        CHECK(s.circuits[i].use == uses[i]);
        CHECK(s.circuits[i].by_utility == (i == 16));
    }
}

TEST_CASE("neutrals: none on 240 V sources, one wherever loads hang and from the gateway on") {
    std::vector<std::string> with_neutral;
    for (const Circuit& c : system_of_example().circuits) {
        if (c.neutral) {
            with_neutral.push_back(c.tag);
        }
    }
    CHECK(with_neutral == std::vector<std::string>{"C9", "C10", "C14", "C15", "C16", "C17"});
}

TEST_CASE("breakers sit at the parent's terminals") {
    const System& s = system_of_example();
    std::vector<std::string> breakers;
    for (const Breaker& b : s.breakers) {
        std::ostringstream text;
        text << b.tag << " " << s.equipment.at(static_cast<std::size_t>(b.at)).id << "." << b.port
             << " " << s.circuits.at(static_cast<std::size_t>(b.circuit)).tag;
        if (b.stated) {
            text << " " << b.stated->value.value;
        }
        breakers.push_back(text.str());
    }
    CHECK(breakers == std::vector<std::string>{"Q1 CP-1.in1 C5", "Q2 CP-1.in2 C6", "Q3 CP-1.in3 C7",
                                               "Q4 CP-1.in4 C8", "Q5 MID-1.pv1 C10",
                                               "Q6 MID-1.storage1 C13", "Q7 MSP.in1 C14 100",
                                               "Q8 MID-1.backup C15 100"});
}

TEST_CASE("runs hold their circuits; trunk cable and the utility's conductors bear no tag") {
    const System& s = system_of_example();
    std::vector<std::string> runs;
    for (const Run& run : s.runs) {
        std::string text = run.tag + " " + s.equipment.at(static_cast<std::size_t>(run.child)).id;
        for (const int c : run.circuits) {
            text += " " + s.circuits.at(static_cast<std::size_t>(c)).tag;
            CHECK(&s.runs.at(static_cast<std::size_t>(
                      s.circuits.at(static_cast<std::size_t>(c)).run)) == &run);
        }
        runs.push_back(text);
    }
    CHECK(runs == std::vector<std::string>{
                      " PV-1 C1", " PV-2 C2", " PV-3 C3", " PV-4 C4", "R1 JB-1 C5 C6",
                      "R2 JB-2 C7 C8", "R3 CP-1 C9", "R4 SW-1 C10", "R5 ES-2 C11", "R6 ES-1 C12",
                      "R7 SW-2 C13", "R8 MID-1 C14", "R9 BLP C15", "R10 MSP C16", " UM-1 C17"});
    const Run& roof = s.runs.at(4);
    CHECK(roof.on_roof);
    CHECK(roof.above_roof == inches(1));
    CHECK(roof.length.value == 46);
    CHECK(s.runs.at(0).raceway == RacewayKind::free_air);
    CHECK_FALSE(s.runs.at(6).on_roof);
    CHECK(s.runs.at(13).raceway == RacewayKind::rmc);
    CHECK(s.circuits.at(0).insulation == Insulation::trunk_cable);
    CHECK(s.circuits.at(15).stated_size->value == parse_wire_size("3/0 AWG"));
}

TEST_CASE("the tree, its counts and its flags") {
    const System& s = system_of_example();
    CHECK(s.root() == static_cast<int>(s.equipment.size()) - 1);
    CHECK(s.inverter_count(s.root()) == 28);
    CHECK(s.inverter_count(s.find("JB-2")) == 12);
    CHECK(s.subtree(s.root()).size() == s.equipment.size());
    CHECK(s.find("nothing") == -1);
    const Equipment& msp = s.equipment.at(static_cast<std::size_t>(s.find("MSP")));
    const Equipment& blp = s.equipment.at(static_cast<std::size_t>(s.find("BLP")));
    CHECK(msp.as<Panel>()->service_equipment);
    CHECK_FALSE(msp.as<Panel>()->backed_up);
    CHECK(msp.existing);
    CHECK(msp.title == "MAIN SERVICE PANEL");
    CHECK(msp.as<Panel>()->main->value.value == 200);
    CHECK(s.ratings<PanelRatings>(msp)->bus.value == 200);
    CHECK_FALSE(blp.as<Panel>()->service_equipment);
    CHECK(blp.as<Panel>()->backed_up);
    REQUIRE(blp.as<Panel>()->loads.size() == 6);
    CHECK(blp.as<Panel>()->loads[3].name == "WELL PUMP");
    CHECK(blp.as<Panel>()->loads[3].poles == 2);
    CHECK(blp.as<Panel>()->loads[0].poles == 1);
    CHECK(s.breaker_of(0) == nullptr);
    CHECK(s.breaker_of(4)->tag == "Q1");
}

TEST_CASE("site, project and grounding of the example") {
    const System& s = system_of_example();
    CHECK(s.edition == Edition::nec2023);
    CHECK(s.site.coldest.value == -9);
    CHECK(s.site.hottest.value == 37);
    CHECK(s.site.service.value == 200);
    CHECK(s.site.voltage.value == 240);
    CHECK(s.site.to_neutral.value == 120);
    CHECK(s.site.fault_current.value == Approx(9200));
    CHECK(s.voltage_change_limit == Approx(0.02));
    CHECK(s.project.name == "Ashgrove residence");
    REQUIRE(s.revisions.size() == 1);
    CHECK(s.revisions[0].description == "Issued for permit");
    CHECK(s.grounding.at == s.find("MSP"));
    REQUIRE(s.grounding.electrodes.size() == 2);
    CHECK(s.grounding.electrodes[0].value == Electrode::concrete_encased);
    CHECK(s.grounding.electrodes[1].value == Electrode::two_ground_rods);
}

TEST_CASE("transformers and control wiring of the gateway") {
    const System& s = system_of_example();
    REQUIRE(s.transformers.size() == 2);
    CHECK(s.transformers[0].tag == "CT-1");
    CHECK(s.transformers[0].at == s.find("CP-1"));
    CHECK(s.transformers[0].port == "out");
    CHECK(s.transformers[0].production);
    CHECK(s.transformers[1].tag == "CT-2");
    CHECK(s.transformers[1].at == s.find("MSP"));
    CHECK(s.transformers[1].port == "main");
    CHECK_FALSE(s.transformers[1].production);
    CHECK(s.transformers[1].reports_to == s.find("CP-1"));
    std::vector<std::string> links;
    for (const ControlLink& link : s.controls) {
        links.push_back(s.equipment.at(static_cast<std::size_t>(link.from)).id + " > " +
                        s.equipment.at(static_cast<std::size_t>(link.to)).id + " " + link.purpose);
    }
    CHECK(links == std::vector<std::string>{"CP-1 > ES-1 STORAGE CONTROL",
                                            "ES-1 > ES-2 STORAGE CONTROL",
                                            "CP-1 > MID-1 MID CONTROL"});
}

TEST_CASE("a microinverter record keeps its nameplate") {
    const System& s = system_of_example();
    const Record* record = s.catalogue.find("wickhollow-340");
    REQUIRE(record);
    const auto& ratings = std::get<MicroinverterRatings>(record->ratings);
    CHECK(ratings.output.value == 340);
    CHECK(ratings.tracking_low.value == 22);
    CHECK(ratings.tracking_high.value == 48);
    CHECK(ratings.ratio_limit == Approx(1.2)); // common practice, no source
    CHECK(ratings.trunk_size == parse_wire_size("12 AWG"));
    CHECK(ratings.trunk_ground == parse_wire_size("12 AWG"));
    CHECK(ratings.input_current_limit.value == 20);
    CHECK(record->terminals.value == 60); // none marked: 110.14(C)(1)(a)
    CHECK(s.catalogue.find("brackenway-60")->terminals.value == 75);
    const auto& module = std::get<ModuleRatings>(s.catalogue.find("solvane-405")->ratings);
    CHECK(module.voc_per_celsius == Approx(-0.0026));
    CHECK(s.catalogue.find("nothing") == nullptr);
}
