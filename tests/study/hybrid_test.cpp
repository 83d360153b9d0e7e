// Storage on the direct-current side of a hybrid inverter, at the job Larch Bend: two units of
// 4.5 kW, 11.25 A at 400 V, on an inverter of 7.6 kVA whose battery input takes 26 A.
#include "catch.h"
#include "example.h"

using namespace ohmfolio;
using namespace ohmfolio::example;

namespace {

const std::string larch_bend = "examples/tolliver-bend/larch-bend.toml";

Case with(const std::vector<Change>& changes, Edition edition = Edition::nec2023) {
    return Case(larch_bend, changes, edition);
}

const Change one_unit{
    "ES-2 = { model = \"harrowgate-d9\", location = \"West wall outside\", place = "
    "\"exterior wall\", spacing = \"3 ft\", feeds = \"ES-1\", run = { length = "
    "\"5 ft\", raceway = \"EMT\" } }",
    ""};

} // namespace

TEST_CASE("hybrid: the job is sound in every edition") {
    for (const Edition edition : all_editions) {
        const Case job = with({}, edition);
        CHECK(listed(job.study).empty());
    }
}

TEST_CASE(
    "hybrid: a battery circuit is sized for 125 % of the inverter's input at its lowest voltage") {
    // A published example: 2500 W at 22 V and 85 % draw 134 A, of which 125 % are 167 A
    // (syllabusforpvsolarinstaller.blogspot.com, May 2010, wire sizing between inverter and
    // battery).
    const Case job =
        with({{"battery_current = \"26 A\"", "battery_current = \"134 A\""},
              {"battery_breaker_limit = \"60 A\"", "battery_breaker_limit = \"200 A\""}});
    const CircuitStudy& circuit = job.from("ES-1");
    CHECK(circuit.current.value == Approx(134));
    CHECK(circuit.required.value == Approx(167).margin(0.6));
    CHECK(job.from("SW-2").required.value == circuit.required.value);
}

TEST_CASE("hybrid: between units flows what the units beyond give") {
    const Case job = with({});
    CHECK(job.from("ES-2").current.value == Approx(11.25));
    // 2 × 11.25 A = 22.5 A, less than the 26 A of the input.
    CHECK(job.from("ES-1").current.value == Approx(26));
    const Case more = with({{"output = \"4.5 kW\"", "output = \"6 kW\""},
                            {"output_current = \"11.25 A\"", "output_current = \"15 A\""}});
    CHECK(more.from("ES-1").current.value == Approx(30)); // 2 × 15 A
    CHECK(more.finding("storage.input") != nullptr);
    CHECK(job.finding("storage.input") == nullptr);
}

TEST_CASE("hybrid: storage and strings add nothing to the output") {
    const Case job = with({});
    CHECK(job.from("INV-1").current.value == Approx(31.7)); // nameplate
    CHECK(job.study.totals.storage.value == Approx(2 * 9200));
    CHECK(job.study.totals.storage_ac.value == 0);
    CHECK(job.study.totals.ac.value == Approx(7600));
}

TEST_CASE("hybrid: the voltage of the units stays within that of the battery input") {
    // Units of 360 V to 450 V; by the smallest step on either side.
    CHECK(with({{"battery_voltage = [\"340 V\"", "battery_voltage = [\"360 V\""}})
              .finding("storage.window") == nullptr);
    CHECK(with({{"battery_voltage = [\"340 V\"", "battery_voltage = [\"361 V\""}})
              .finding("storage.window") != nullptr);
    CHECK(with({{"\"480 V\"]", "\"450 V\"]"}}).finding("storage.window") == nullptr);
    CHECK(with({{"\"480 V\"]", "\"449 V\"]"}}).finding("storage.window") != nullptr);
}

TEST_CASE("hybrid: a device protects the circuit from the units") {
    const Change none{"breaker = \"25 A\"", "# none"};
    CHECK(with({none}).finding("storage.dc.device") != nullptr);
    // The units' own: 2 × 25 A = 50 A.
    CHECK(with({}).from("SW-2").overcurrent.value == Approx(50));
    CHECK(with({{"battery_breaker_limit = \"60 A\"", "battery_breaker_limit = \"49 A\""}})
              .finding("storage.breaker.limit") != nullptr);
    CHECK(with({{"battery_breaker_limit = \"60 A\"", "battery_breaker_limit = \"50 A\""}})
              .finding("storage.breaker.limit") == nullptr);
    // Fuses in the disconnect: 1.25 × 26 A = 32.5 A, the next standard rating is 35 A.
    const Case fused =
        with({none, {"lockable = true\ndc_voltage", "fused = true\nlockable = true\ndc_voltage"}});
    CHECK(fused.finding("storage.dc.device", "circuit:C5") == nullptr);
    CHECK(fused.from("SW-2").overcurrent.value == Approx(35));
}

TEST_CASE("hybrid: the disconnect opens direct current of that voltage and fault current") {
    const Change alternating{"model = \"brackenway-d60\"", "model = \"brackenway-60\""};
    CHECK(with({alternating}).finding("storage.disconnect.voltage") != nullptr);
    CHECK(with({{"dc_voltage = \"600 V\"", "dc_voltage = \"450 V\""}})
              .finding("storage.disconnect.voltage") == nullptr);
    CHECK(with({{"dc_voltage = \"600 V\"", "dc_voltage = \"449 V\""}})
              .finding("storage.disconnect.voltage") != nullptr);
    // Two units feed 2 × 5.1 kA into a switch of 10 kA.
    CHECK(with({{"fault_current = \"0.9 kA\"", "fault_current = \"5 kA\""}})
              .finding("storage.disconnect.fault") == nullptr);
    CHECK(with({{"fault_current = \"0.9 kA\"", "fault_current = \"5.1 kA\""}})
              .finding("storage.disconnect.fault") != nullptr);
    CHECK(with({{"fault_current = \"0.9 kA\"", "# not stated"}}).finding("fault.missing") !=
          nullptr);
    CHECK(with({{"use = [\"storage\"]", "use = [\"utility\"]"}}).finding("storage.disconnect") !=
          nullptr);
}

TEST_CASE("hybrid: storage of a dwelling keeps within 600 V") {
    const std::vector<Change> at_limit{{"\"450 V\"]", "\"600 V\"]"}, {"\"480 V\"]", "\"700 V\"]"}};
    CHECK(with(at_limit).finding("storage.voltage") == nullptr);
    CHECK(with({{"\"450 V\"]", "\"601 V\"]"}, {"\"480 V\"]", "\"700 V\"]"}})
              .finding("storage.voltage") != nullptr);
}

TEST_CASE("hybrid: chains and siting count units for direct current too") {
    CHECK(with({{"chain_limit = 2", "chain_limit = 1"}}).finding("storage.chain") != nullptr);
    // 2 × 9.2 kWh on an exterior wall; a unit of 20.5 kWh is above the 20 kWh of a unit.
    CHECK(
        with({{"energy = \"9.2 kWh\"", "energy = \"20.5 kWh\""}}).finding("storage.siting.unit") !=
        nullptr);
}

TEST_CASE("hybrid: it carries no more than its units and its backup output give") {
    const Change load{
        "\"Refrigerator\" = \"20 A\"",
        "\"Heater\" = { breaker = \"40 A 2P\", kind = \"appliance\", power = \"5 kVA\" }"};
    // Two units of 4.5 kW give 9 kW, the inverter 7.6 kVA.
    const Case two = with({load});
    CHECK(two.study.derivation("INV-1.storage_output").value == Approx(7600));
    CHECK(two.finding("standby.island") == nullptr);
    CHECK(two.finding("standby.island.microgrid") == nullptr);
    const Case one = with({load, one_unit}, Edition::nec2017);
    CHECK(one.study.derivation("INV-1.storage_output").value == Approx(4500));
    CHECK(one.finding("standby.island") != nullptr);
}

TEST_CASE("hybrid: its feeder carries the backed-up loads while the grid is there") {
    const Case job = with({{"backup_breaker = \"50 A\"", "backup_breaker = \"60 A\""}});
    // 1.25 × 31.7 A = 39.63 A of sources outward, up to 60 A of loads inward.
    CHECK(job.breaker_from("INV-1").rating.value == Approx(60));
    CHECK(job.from("INV-1").required.value == Approx(60));
    CHECK(with({{"backup_breaker = \"50 A\"", "backup_breaker = \"70 A\""}})
              .finding("inverter.backup.breaker") != nullptr);
}

TEST_CASE("hybrid: the breaker in the inverter interrupts what is available, 110.9") {
    // 9.2 kA at the service; 20 ft of 8 AWG copper in steel at 240 V leave, with f = 2 × 20 ft ×
    // 9200 A / (1557 × 240 V) = 0.98, some 4.6 kA (point-to-point method): more than 2 kA, and no
    // place has more than the service.
    const Change rated{"interrupting = \"10 kA\"\n\n[battery.harrowgate-d9]",
                       "interrupting = \"2 kA\"\n\n[battery.harrowgate-d9]"};
    CHECK(with({}).finding("fault.beyond", "equipment:INV-1") == nullptr);
    CHECK(with({rated}).finding("fault.beyond", "equipment:INV-1") != nullptr);
    const Change silent{"interrupting = \"10 kA\"\n\n[battery.harrowgate-d9]",
                        "\n[battery.harrowgate-d9]"};
    const Case unrated = with({silent});
    const Finding* finding = unrated.finding("fault.unrated", "equipment:INV-1");
    REQUIRE(finding != nullptr);
    CHECK(finding->severity == Severity::warning);
    CHECK(finding->message.find("Q2") != std::string::npos);
    CHECK(with({}).finding("fault.unrated") == nullptr);
}
