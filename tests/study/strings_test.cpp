// Strings on inverters, at the job Cinder Row: 8 and 7 modules of 37.2 V (-0.26 %/C) at -9 C on a
// dwelling. By hand: 37.2 × (1 + 0.0026 × 34) = 40.488 V a module, 14 of which are 566.8 V, 15 are
// 607.3 V; 13.85 A × 1.25 = 17.31 A, × 1.25 = 21.64 A.
#include "catch.h"
#include "example.h"

using namespace ohmfolio;
using namespace ohmfolio::example;

namespace {

Case with(std::initializer_list<Change> changes, Edition edition = Edition::nec2023) {
    return Case(cinder_row, changes, edition);
}

} // namespace

TEST_CASE("strings: the job is sound in every edition") {
    for (const Edition edition : all_editions) {
        const Case job(cinder_row, {}, edition);
        INFO(listed(job.study));
        CHECK(job.study.findings.empty());
    }
}

TEST_CASE("strings: 14 in series are the most under 600 V, 5 the fewest that start the inverter") {
    const Change fourteen{"ST-1 = { modules = 8", "ST-1 = { modules = 14"};
    const Change fifteen{"ST-1 = { modules = 8", "ST-1 = { modules = 15"};
    CHECK(with({fourteen}).finding("module.series") == nullptr);
    const Case over = with({fifteen});
    REQUIRE(over.finding("module.series", "equipment:ST-1") != nullptr);
    CHECK(over.finding("pv.voltage.limit", "equipment:ST-1") != nullptr);
    CHECK(over.finding("module.series")->expected == "5 to 14 modules in series");
    REQUIRE_FALSE(over.finding("module.series")->remedies.empty());
    CHECK(over.finding("module.series")->remedies.front().change == "14 modules in series on ST-1");
    // 110 V ÷ (31.1 V × (1 − 0.0031 × 47)) = 110 ÷ 26.57 = 4.14.
    CHECK(with({{"ST-3 = { modules = 7", "ST-3 = { modules = 5"}}).finding("module.series") ==
          nullptr);
    CHECK(with({{"ST-3 = { modules = 7", "ST-3 = { modules = 4"}})
              .finding("module.series", "equipment:ST-3") != nullptr);
}

TEST_CASE("strings: currents, conductors and ground follow 690.8 and 690.45") {
    const Case job(cinder_row);
    const CircuitStudy& circuit = job.from("ST-1");
    CHECK(circuit.current.value == Approx(13.85 * 1.25));
    CHECK(circuit.required.value == Approx(13.85 * 1.25 * 1.25));
    // 12 AWG: 25 A at 75 C terminations, 30 A × 0.91 at 37 C.
    CHECK(circuit.size == *parse_wire_size("12"));
    CHECK(circuit.ampacity_corrected.value == Approx(27.3));
    // 2 × 13.03 A × 1.98 ohm/kft × 52 ft = 2.683 V of 8 × 31.1 V.
    CHECK(circuit.voltage_change == Approx(2 * 13.03 * 0.00198 * 52 / (8 * 31.1)));
}

TEST_CASE("strings: two in parallel need no fuses, three do, and the label caps them") {
    const Change four{"strings_per_input = 1", "strings_per_input = 4"};
    const Change strong{"input_short_circuit = \"22 A\"", "input_short_circuit = \"60 A\""};
    const Change two{"ST-1 = { modules = 8,", "ST-1 = { modules = 8, strings = 2,"};
    const Change three{"ST-1 = { modules = 8,", "ST-1 = { modules = 8, strings = 3,"};
    const Change fused{"ST-1 = { modules = 8,",
                       "ST-1 = { modules = 8, strings = 3, fuse = \"25 A\","};
    const Change large{"ST-1 = { modules = 8,",
                       "ST-1 = { modules = 8, strings = 3, fuse = \"30 A\","};
    CHECK(with({four, strong, two}).finding("string.fuse") == nullptr);
    // 2 × 17.31 A from the others, above the 25 A of the label.
    CHECK(with({four, strong, three}).finding("string.fuse", "equipment:ST-1") != nullptr);
    const Case bare = with({four, strong, three});
    REQUIRE(bare.finding("string.fuse")->remedies.size() == 2);
    CHECK(bare.finding("string.fuse")->remedies[0].change == "a 25 A fuse in each string of ST-1");
    CHECK(bare.finding("string.fuse")->remedies[1].change == "2 strings on ST-1");
    // 21.64 A asks for 25 A, which the label permits just so.
    const Case right = with({four, strong, fused});
    INFO(listed(right.study));
    CHECK(right.finding("string.fuse") == nullptr);
    CHECK(right.from("ST-1").overcurrent == Amps{25});
    CHECK(with({four, strong, large}).study.findings.size() > right.study.findings.size());
    // Two strings of 13.85 A are beyond an input of 22 A.
    CHECK(with({four, two}).finding("inverter.input.current", "equipment:ST-1") != nullptr);
}

TEST_CASE("strings: what the inverter must hold, and shutdown at the modules") {
    CHECK(with({{"arc_fault = true", "arc_fault = false"}}).finding("pv.arcfault") != nullptr);
    CHECK(with({{"ground_fault = true", "ground_fault = false"}}).finding("pv.ground.fault") !=
          nullptr);
    const Case open = with({{"electronics = \"wickhollow-r700\", ", ""}});
    CHECK_FALSE(open.study.findings.empty());
    CHECK(open.study.findings.front().subject == "equipment:ST-1");
    // THWN-2 is no conductor for the open roof.
    CHECK_FALSE(with({{"raceway = \"EMT\", above_roof = \"1 in\" } }\nST-2",
                       "raceway = \"free air\" } }\nST-2"}})
                    .study.findings.empty());
}

TEST_CASE("strings: shutdown that the description states without naming a device is told") {
    // Equipment that performs rapid shutdown is listed for it, 690.4(B); a statement is no listing.
    const std::string named = "electronics = \"wickhollow-r700\"";
    const Case unnamed = with({{named, "module_shutdown = true"}});
    const Finding* warning = unnamed.finding("string.electronics.unnamed", "equipment:ST-1");
    REQUIRE(warning != nullptr);
    CHECK(warning->severity == Severity::warning);
    CHECK(unnamed.study.findings.size() == 1);
    CHECK(unnamed.study.derivation("ST-1.shutdown_equipment").comparison ==
          "as stated: electronics at each module");
    // Where the record is named as well, its listing is known.
    const Case both = with({{named, named + ", module_shutdown = true"}});
    CHECK(both.study.findings.empty());
    CHECK(both.study.derivation("ST-1.shutdown_equipment").comparison == "listed");
}

TEST_CASE("strings: the voltage left outside is that of all devices in series, 690.12(B)(1)") {
    // 8 × 0.6 V = 4.8 V; of 30 V ÷ 8 = 3.75 V each one is still enough, a hundredth more is not.
    CHECK(Case(cinder_row).study.derivation("ST-1.shutdown_outside").value == Approx(4.8));
    const auto leaving = [](const char* volts) {
        return with({{"shutdown_voltage = \"0.6 V\"",
                      std::string("shutdown_voltage = \"") + volts + "\""}});
    };
    CHECK(leaving("3.75 V").study.findings.empty());
    CHECK(leaving("3.76 V").finding("pv.shutdown.outside", "equipment:ST-1") != nullptr);
    CHECK(with({{"shutdown_time = 15", "shutdown_time = 30"}}).study.findings.empty());
    CHECK(with({{"shutdown_time = 15", "shutdown_time = 31"}})
              .finding("pv.shutdown.outside", "equipment:ST-1") != nullptr); // 30 s
}

TEST_CASE("strings: what the record of the electronics leaves out is told") {
    // 690.12(B) has limits of voltage and time, 690.4(B) asks for a listing.
    const auto told = [](const Change& without) {
        const Case job = with({without});
        const Finding* finding = job.finding("string.electronics.unstated", "equipment:ST-1");
        return finding == nullptr ? std::string() : finding->hint;
    };
    CHECK(told({"shutdown_voltage = \"0.6 V\"\n", ""}) == "in its record: shutdown_voltage");
    CHECK(told({"shutdown_time = 15\n", ""}) == "in its record: shutdown_time");
    CHECK(told({"model = \"WR-700\"\nlisting = \"UL 1741\"", "model = \"WR-700\""}) ==
          "in its record: listing");
}

TEST_CASE("strings: the array against the inverter is advice") {
    // 23 × 405 W = 9315 W on 7600 VA: 1.226; 25 would be 1.332.
    const Case job(cinder_row);
    CHECK(job.study.derivation("INV-1.ratio").value == Approx(9315.0 / 7600));
    CHECK(with({{"ratio_limit = 1.3", "ratio_limit = 1.22"}}).finding("module.ratio") != nullptr);
    CHECK(with({{"ratio_limit = 1.3", "ratio_limit = 1.23"}}).finding("module.ratio") == nullptr);
}
