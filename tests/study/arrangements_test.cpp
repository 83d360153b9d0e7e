// Systems wired otherwise than the example: without a device between, and with it ahead of the
// whole house.
#include "catch.h"

#include "example.h"

using namespace ohmfolio;
using example::Case;

namespace {

const std::string head = R"(catalogue = "catalogue.toml"
code = "NEC 2020"
[project]
name = "Sorrel Lane"
address = "31 Sorrel Lane, Tolliver Bend"
jurisdiction = "Vance County"
utility = "Tolliver Bend Light & Water"
occupancy = "One-family dwelling"
scope = "Photovoltaic system"
date = "2026-03-02"
[site]
coldest = "-9 C"
hottest = "37 C"
service = "120/240 V, 200 A"
fault_current = "9.2 kA"
[modules]
module = "solvane-405"
microinverter = "wickhollow-340"
)";

Case described(const std::string& body) {
    SourceFiles sources;
    Findings findings;
    auto system = read_system_text(head + body, example::file_text("catalogue.toml"), sources,
                                   findings, Edition::nec2020);
    std::string faults;
    for (const Finding& finding : findings) {
        faults += print(finding, sources, false);
    }
    INFO(faults);
    REQUIRE(system.has_value());
    return Case(*system);
}

} // namespace

TEST_CASE("PV and storage straight on the panel, with a rooftop raceway") {
    const Case job = described(R"(
[branch]
PV-1 = { modules = 11, roof = "South", feeds = "JB-1", run = { length = "20 ft" } }
PV-2 = { modules = 8, roof = "South", feeds = "JB-1", run = { length = "20 ft" } }
[junction_box]
JB-1 = { model = "dunmere-jb", feeds = "CP-1", run = { length = "30 ft", raceway = "EMT", above_roof = "0.5 in" } }
[combiner]
CP-1 = { model = "wickhollow-c4", feeds = "SW-1", run = { length = "6 ft", raceway = "EMT" } }
[disconnect]
SW-1 = { model = "brackenway-60", use = ["rapid shutdown"], feeds = "MSP", run = { length = "4 ft" } }
SW-2 = { model = "brackenway-60", use = ["storage"], feeds = "MSP", run = { length = "4 ft" } }
[battery]
ES-1 = { model = "wickhollow-b10", place = "outdoors", spacing = "3 ft", feeds = "SW-2", run = { length = "14 ft", raceway = "EMT" } }
[panel.MSP]
existing = true
model = "dunmere-200"
main = "175 A"
opposite_end = true
feeds = "UM-1"
run = { length = "6 ft", raceway = "RMC", size = "3/0 AWG" }
loads = { "Range" = "50 A 2P", "Condenser" = "40 A 2P", "Car" = "60 A 2P" }
electrodes = ["two ground rods"]
[meter]
UM-1 = { existing = true, model = "harrowgate-200" }
)");
    INFO(example::listed(job.study));
    CHECK(job.study.findings.empty());
    // 310.15(B)(2) of 2020: 1/2 in is nearer than 7/8 in, so 37 + 33 = 70 °C; 0.58 in the 90 °C
    // column; four conductors 0.80. 12 AWG: 30 × 0.58 × 0.80 = 13.92 A < 15.62 A.
    // 10 AWG: 40 × 0.58 × 0.80 = 18.56 A ≥ 11 × 1.42 = 15.62 A.
    const CircuitStudy& branch = job.from("JB-1");
    CHECK(branch.ambient.value == 70);
    CHECK(branch.ampacity_corrected.value == Approx(18.56));
    CHECK(name(branch.size) == "10 AWG");
    // 19 × 1.42 + 16 = 42.98 A; × 1.25 = 53.725 A. 175 + 53.725 = 228.725 A ≤ 1.2 × 200 A at the
    // far end; 228.725 > 200 A without it.
    const ConnectionStudy& panel = job.connection("MSP");
    CHECK_FALSE(panel.options[0].passes);
    CHECK(panel.options[1].chosen);
    CHECK(panel.options[1].cite.section == "705.12(B)(3)(2)");
    CHECK(panel.breaker == -1); // two breakers feed it
    CHECK(job.study.derivation("MSP.sources_125").value == Approx(53.725));
    // 310.12: 0.83 × 175 A = 145.25 A ≤ 150 A of 1/0 AWG; Table 250.66 asks for 6 AWG.
    CHECK(name(job.from("MSP").smallest) == "1/0 AWG");
    CHECK(name(job.study.grounding_electrode) == "6 AWG");
}

TEST_CASE("the device stands ahead of the whole house") {
    const Case job = described(R"(
[branch]
PV-1 = { modules = 8, roof = "South", feeds = "JB-1", run = { length = "20 ft" } }
[junction_box]
JB-1 = { model = "dunmere-jb", feeds = "CP-1", run = { length = "30 ft", raceway = "EMT" } }
[combiner]
CP-1 = { model = "wickhollow-c4", feeds = "SW-1", run = { length = "6 ft", raceway = "EMT" } }
[disconnect]
SW-1 = { model = "brackenway-60", use = ["rapid shutdown"], feeds = "MID-1", run = { length = "4 ft" } }
[mid]
MID-1 = { model = "wickhollow-m200", feeds = "UM-1", run = { length = "10 ft", raceway = "RMC" }, electrodes = ["concrete-encased"], backs_up = "MSP", backup_breaker = "150 A", backup_run = { length = "24 ft", raceway = "EMT" } }
[panel.MSP]
existing = true
model = "dunmere-200"
main = "150 A"
loads = { "Range" = "50 A 2P" }
[meter]
UM-1 = { existing = true, model = "harrowgate-200" }
)");
    INFO(example::listed(job.study));
    // The feeder of the house: 150 A breaker; 1/0 AWG carries 150 A at 75 °C.
    CHECK(job.from("MSP").overcurrent.value == 150);
    CHECK(name(job.from("MSP").size) == "1/0 AWG");
    // Nothing but the service protects the bus: 200 + 14.20 = 214.20 A > 200 A; breakers 15 A and
    // 150 A are 165 A ≤ 200 A.
    const ConnectionStudy& device = job.connection("MID-1");
    CHECK_FALSE(device.options[0].passes);
    CHECK(device.options[2].chosen);
    CHECK(job.study.derivation("MID-1.bus_breakers_total").value == Approx(165));
    // That the service protects it is no protection (230.90), and is told.
    REQUIRE(job.study.findings.size() == 1);
    CHECK(job.study.findings.front().rule == "service.device");
    CHECK(job.study.findings.front().severity == Severity::warning);
}

TEST_CASE("several sources join the service ahead of the main, each through its own disconnect") {
    const Case job = described(R"(
[string]
ST-1 = { modules = 9, roof = "South", input = 1, electronics = "wickhollow-r700", feeds = "INV-1", run = { length = "30 ft" } }
ST-2 = { modules = 9, roof = "South", input = 1, electronics = "wickhollow-r700", feeds = "INV-2", run = { length = "30 ft" } }
[inverter]
INV-1 = { model = "wickhollow-7600", feeds = "SW-1", run = { length = "5 ft" } }
INV-2 = { model = "wickhollow-7600", feeds = "SW-2", run = { length = "5 ft" } }
[disconnect]
SW-1 = { model = "brackenway-60f", use = ["rapid shutdown", "service"], feeds = "SC-1", run = { length = "6 ft", raceway = "RMC" } }
SW-2 = { model = "brackenway-60", feeds = "SC-1", run = { length = "6 ft", raceway = "RMC" } }
[supply_connection]
SC-1 = { model = "dunmere-tap", feeds = "UM-1", run = { length = "3 ft", raceway = "RMC" } }
[panel.MSP]
existing = true
model = "dunmere-200"
main = "200 A"
feeds = "SC-1"
run = { length = "4 ft", raceway = "RMC" }
loads = {}
electrodes = ["two ground rods"]
[meter]
UM-1 = { existing = true, model = "harrowgate-200" }
)");
    // SW-1 is listed as service equipment, SW-2 is not: 705.11 asks it of each.
    CHECK(job.study.derivation("SC-1/SW-1.supply_disconnect_service").verdict == Verdict::pass);
    CHECK(job.study.derivation("SC-1/SW-2.supply_disconnect_service").verdict == Verdict::fail);
}

TEST_CASE("a chain behind an interconnect device is no chain of the panel beyond") {
    const Case job = described(R"(
[battery]
ES-1 = { model = "wickhollow-b10", place = "outdoors", spacing = "3 ft", feeds = "MID-1", run = { length = "14 ft" } }
[mid]
MID-1 = { model = "wickhollow-m200", feeds = "MSP", run = { length = "10 ft" } }
[panel.MSP]
existing = true
model = "dunmere-200"
main = "150 A"
feeds = "UM-1"
run = { length = "6 ft", raceway = "RMC" }
loads = {}
electrodes = ["two ground rods"]
[meter]
UM-1 = { existing = true, model = "harrowgate-200" }
)");
    CHECK(job.study.derivation("ES-1.chain_kept").verdict == Verdict::pass);
}
