// Descriptions other than the example's: each differs from a small sound one in what the test
// names. Expected circuits and terminals were worked out by hand from the rules in
// src/model/system.h.
#include <filesystem>
#include <fstream>
#include <iterator>

#include "catch.h"
#include "input/input.h"

using namespace ohmfolio;

namespace {

const std::filesystem::path cases = std::filesystem::path(OHMFOLIO_SOURCE) / "tests/input/cases";

std::string text_of(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

/// The sound case with one stretch of its text replaced.
std::string sound_with(const std::string& from, const std::string& to) {
    std::string text = text_of(cases / "sound.toml");
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

System read(const std::string& text, std::optional<Edition> edition = {}) {
    SourceFiles sources;
    Findings findings;
    auto system =
        read_system_text(text, text_of(cases / "catalogue/parts.toml"), sources, findings, edition);
    for (const Finding& finding : findings) {
        UNSCOPED_INFO(print(finding, sources, false));
    }
    REQUIRE(system);
    return *system;
}

std::vector<std::string> circuits(const System& s) {
    std::vector<std::string> result;
    for (const Circuit& c : s.circuits) {
        const auto& child = s.equipment.at(static_cast<std::size_t>(s.child_of(c)));
        const auto& parent = s.equipment.at(static_cast<std::size_t>(s.parent_of(c)));
        const Breaker* breaker = s.breaker_of(static_cast<int>(&c - s.circuits.data()));
        result.push_back(child.id + "." + c.from + " > " + parent.id + "." + c.to +
                         (breaker != nullptr ? " " + breaker->tag : ""));
    }
    return result;
}

} // namespace

TEST_CASE("branches may feed a combiner without a junction box, and a combiner a panel") {
    const System s = read(text_of(cases / "sound.toml"));
    CHECK(circuits(s) == std::vector<std::string>{"PV-1.out > CP-1.in1 Q1", "CP-1.out > MSP.in1 Q2",
                                                  "MSP.main > UM-1.load",
                                                  "UM-1.line > UTILITY.service"});
    CHECK(s.circuits[0].use == CircuitUse::trunk);
    CHECK(s.circuits[0].insulation == Insulation::trunk_cable);
    CHECK(s.circuits[1].use == CircuitUse::pv_output);
    CHECK(s.runs[1].tag == "R1");
}

TEST_CASE("stated sizes are kept with their places") {
    const System s = read(sound_with(
        "run = { length = \"6 ft\" }",
        "breaker = \"25 A\"\nrun = { length = \"26 m\", raceway = \"PVC SCH 80\", trade_size = "
        "\"3/4\", size = \"10 AWG\", ground = \"8 AWG\", material = \"aluminum\", insulation = "
        "\"XHHW-2\", above_roof = \"7/8 in\", ambient = \"122 F\", neutral = false }"));
    const Circuit& c = s.circuits.at(1);
    const Run& run = s.runs.at(1);
    REQUIRE(c.stated_size);
    CHECK(c.stated_size->value == parse_wire_size("10 AWG"));
    CHECK(c.stated_size->span.known());
    CHECK(c.stated_equipment_ground->value == parse_wire_size("8 AWG"));
    CHECK(c.material == Material::aluminum);
    CHECK(c.insulation == Insulation::xhhw_2);
    CHECK_FALSE(c.neutral); // its gateway asks for one, the drafter says none
    CHECK(run.raceway == RacewayKind::pvc80);
    CHECK(run.stated_trade_size->value == parse_trade_size("3/4"));
    CHECK(run.on_roof);
    CHECK(run.above_roof == inches(0.875));
    CHECK(run.ambient->value == Approx(50)); // 122 F
    CHECK(run.length.value == Approx(26 / 0.3048));
    CHECK(s.breaker_of(1)->stated->value.value == 25);
}

TEST_CASE("a branch states the breaker of its home run, else its junction box does") {
    const std::string branches =
        "PV-1 = { modules = 8, roof = \"South\", feeds = \"JB-1\", breaker = \"15 A\", run = { "
        "length = \"28 ft\" } }\nPV-2 = { modules = 6, roof = \"South\", feeds = \"JB-1\", run = { "
        "length = \"28 ft\" } }\n[junction_box]\nJB-1 = { model = \"dunmere-jb\", feeds = "
        "\"CP-1\", "
        "breaker = \"20 A\", run = { length = \"9 ft\" } }\n";
    const System s = read(sound_with("PV-1 = { modules = 8, roof = \"South\", feeds = \"CP-1\", "
                                     "run = { length = \"28 ft\" } }\n",
                                     branches));
    CHECK(circuits(s) == std::vector<std::string>{"PV-1.out > JB-1.in1", "PV-2.out > JB-1.in2",
                                                  "JB-1.out1 > CP-1.in1 Q1",
                                                  "JB-1.out2 > CP-1.in2 Q2",
                                                  "CP-1.out > MSP.in1 Q3", "MSP.main > UM-1.load",
                                                  "UM-1.line > UTILITY.service"});
    CHECK(s.breaker_of(2)->stated->value.value == 15);
    CHECK(s.breaker_of(3)->stated->value.value == 20);
    CHECK(s.runs[2].circuits == std::vector<int>{2, 3});
}

TEST_CASE("a MID between meter and panel is the service equipment and backs up the whole house") {
    std::string text = sound_with("feeds = \"UM-1\"\nrun = { length = \"6 ft\" }\nelectrodes = "
                                  "[\"ground rod\"]\n",
                                  "\n[mid.MID-1]\nmodel = \"wickhollow-m200\"\nfeeds = \"UM-1\"\n"
                                  "run = { length = \"6 ft\" }\nbacks_up = \"MSP\"\nbackup_run = { "
                                  "length = \"8 ft\" }\nbackup_breaker = \"200 A\"\nelectrodes = "
                                  "[\"water pipe\"]\nelectrode_conductor = \"4 AWG\"\n");
    const System s = read(text);
    CHECK(circuits(s) == std::vector<std::string>{"PV-1.out > CP-1.in1 Q1", "CP-1.out > MSP.in1 Q2",
                                                  "MSP.main > MID-1.backup Q3",
                                                  "MID-1.grid > UM-1.load",
                                                  "UM-1.line > UTILITY.service"});
    CHECK(s.circuits[2].use == CircuitUse::backup_feeder);
    CHECK(s.circuits[3].use == CircuitUse::service);
    CHECK(s.grounding.at == s.find("MID-1"));
    CHECK(s.grounding.stated_size->value == parse_wire_size("4 AWG"));
    CHECK(s.transformers.at(1).at == s.find("MID-1"));
    CHECK(s.transformers.at(1).port == "grid");
    const auto& msp = s.equipment.at(static_cast<std::size_t>(s.find("MSP")));
    CHECK(msp.as<Panel>()->backed_up);
    CHECK_FALSE(msp.as<Panel>()->service_equipment);
}

TEST_CASE("project lists, limits and waivers are kept") {
    const System s = read(text_of(cases / "sound.toml") +
                          "\n[limits]\ndc_ac_ratio = 1.25\nvoltage_change = \"3 %\"\n"
                          "\n[[waiver]]\nrule = \"module.ratio\"\nsubject = \"equipment:PV-1\"\n"
                          "reason = \"Clipping accepted\"\nby = \"Vance County\"\n"
                          "\n[[revision]]\nnumber = \"1\"\ndate = 2026-04-01\nby = \"JM\"\n"
                          "description = \"Comments\"\n");
    CHECK(s.ratio_limit == Approx(1.25));
    CHECK(s.voltage_change_limit == Approx(0.03));
    REQUIRE(s.waivers.size() == 1);
    CHECK(s.waivers[0].rule == "module.ratio");
    CHECK(s.waivers[0].reason == "Clipping accepted");
    CHECK(s.waivers[0].by == "Vance County");
    CHECK(s.waivers[0].span.known());
    REQUIRE(s.revisions.size() == 1);
    CHECK(s.revisions[0].date == "2026-04-01");
}

TEST_CASE("the edition may be given from outside") {
    const std::string text = text_of(cases / "sound.toml");
    CHECK(read(text).edition == Edition::nec2023);
    CHECK(read(text, Edition::nec2017).edition == Edition::nec2017);
    CHECK(read(sound_with("NEC 2023", "NEC 2020")).edition == Edition::nec2020);
}

TEST_CASE("suggestions name what is near") {
    SourceFiles sources;
    Findings findings;
    const std::string catalogue = text_of(cases / "catalogue/parts.toml");
    CHECK_FALSE(
        read_system_text(sound_with("modules = 8", "moduels = 8"), catalogue, sources, findings));
    REQUIRE(findings.size() == 2); // the unknown key, and the one that is missing
    CHECK(findings[0].hint == "did you mean \"modules\"?");
    findings.clear();
    CHECK_FALSE(read_system_text(sound_with("feeds = \"MSP\"", "feeds = \"MPS\""), catalogue,
                                 sources, findings));
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].hint == "did you mean \"MSP\"?");
    CHECK(findings[0].subject == "equipment:CP-1");
    findings.clear();
    CHECK_FALSE(read_system_text(sound_with("\"solvane-405\"", "\"solvane-504\""), catalogue,
                                 sources, findings));
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].hint == "did you mean \"solvane-405\"?");
}
