// The example, with its key values worked by hand. Sections are those of NEC 2023.
#include "catch.h"

#include <algorithm>

#include "example.h"
#include "study/study.h"

using namespace ohmfolio;
using example::Case;

TEST_CASE("the example is clean in every edition") {
    for (const Edition edition : all_editions) {
        const Case job(edition);
        INFO(name(edition) << "\n" << example::listed(job.study));
        CHECK(job.study.findings.empty());
    }
}

TEST_CASE("module and microinverter") {
    const Case job;
    const auto value = [&](const std::string& line) {
        return job.study.derivation("solvane-405+wickhollow-340." + line).value;
    };
    // 690.7(A)(1), −9 °C: 37.20 V × (1 + 0.0026 × 34) = 37.20 × 1.0884 = 40.488 V ≤ 60 V
    CHECK(value("cold_open_circuit_voltage") == Approx(40.48848));
    // 31.10 V × (1 + 0.0031 × 34) = 31.10 × 1.1054 = 34.378 V ≤ 48 V
    CHECK(value("cold_power_point") == Approx(34.37794));
    // Cells 37 + 35 = 72 °C (common practice): 31.10 × (1 − 0.0031 × 47) = 31.10 × 0.8543 = 26.569
    // V
    CHECK(value("hot_power_point") == Approx(26.56873));
    // 1.20 × 340 VA = 408 W ≥ 405 W (common practice)
    CHECK(value("largest_module") == Approx(408.0));
}

TEST_CASE("branch circuits") {
    const Case job;
    for (const char* place : {"PV-1", "JB-1"}) {
        const CircuitStudy& branch = job.from(place);
        CHECK(branch.current.value == Approx(11.36));  // 690.8(A): 8 × 1.42 A
        CHECK(branch.required.value == Approx(14.20)); // 705.28(B): 1.25 × 11.36 A
        CHECK(branch.overcurrent.value == 20);         // the only breaker the combiner takes
    }
    CHECK(job.from("PV-3").current.value == Approx(8.52)); // 6 × 1.42 A
    const CircuitStudy& pipe = job.from("JB-1");
    CHECK(pipe.current_carrying == 4); // two circuits of two conductors
    // Table 310.16, 12 AWG copper, 90 °C: 30 A; 37 °C: 0.91; four conductors: 0.80;
    // 30 × 0.91 × 0.80 = 21.84 A. 240.4(D): 12 AWG on 20 A at most.
    CHECK(pipe.ambient.value ==
          37); // 1 in above the roof is beyond the rooftop adder, 310.15(B)(2)
    CHECK(pipe.ampacity_corrected.value == Approx(21.84));
    CHECK(name(pipe.size) == "12 AWG");
    CHECK(name(pipe.equipment_ground) == "12 AWG"); // Table 250.122, 20 A
    CHECK(pipe.passes);
}

TEST_CASE("all branches together") {
    const Case job;
    const CircuitStudy& pv = job.from("CP-1");
    CHECK(pv.current.value == Approx(39.76));  // 705.28(A): 28 × 1.42 A
    CHECK(pv.required.value == Approx(49.70)); // 1.25 × 39.76 A
    CHECK(job.breaker_from("SW-1").rating.value == 50);
    CHECK(job.breaker_from("SW-1").minimum.value == Approx(49.70));
    CHECK(name(pv.size) == "8 AWG");              // 75 °C: 50 A ≥ 49.70 A
    CHECK(name(pv.equipment_ground) == "10 AWG"); // Table 250.122, 60 A row
    CHECK(job.study.totals.modules == 28);
    CHECK(job.study.totals.dc.value == Approx(11340)); // 28 × 405 W
    CHECK(job.study.totals.ac.value == Approx(9520));  // 28 × 340 VA
    CHECK(job.study.totals.pv_current.value == Approx(39.76));
}

TEST_CASE("storage") {
    const Case job;
    CHECK(job.from("ES-2").current.value == Approx(16));
    CHECK(job.from("ES-1").current.value == Approx(32));  // 706.30(A): 2 × 16 A
    CHECK(job.from("ES-1").required.value == Approx(40)); // 1.25 × 32 A
    CHECK(job.breaker_from("SW-2").rating.value == 40);
    // The first stretch of the chain is behind the same 40 A breaker: 10 AWG ends at 30 A,
    // 240.4(D), so 8 AWG it is.
    CHECK(name(job.from("ES-2").size) == "8 AWG");
    CHECK(job.study.totals.storage.value == Approx(20160));   // 2 × 10.08 kWh
    CHECK(job.study.totals.storage_ac.value == Approx(7680)); // 2 × 3.84 kVA
}

TEST_CASE("feeder of sources and loads") {
    const Case job;
    const CircuitStudy& feeder = job.from("MID-1");
    CHECK(feeder.current.value == Approx(71.76)); // 39.76 A + 32 A outward
    // 1.25 × 71.76 = 89.70 A outward; loads inward up to the 100 A breaker: the larger decides.
    CHECK(feeder.required.value == Approx(100));
    CHECK(name(feeder.size) == "3 AWG");             // Table 310.16, 75 °C: 100 A
    CHECK(name(feeder.equipment_ground) == "8 AWG"); // Table 250.122, 100 A
    CHECK(job.breaker_from("MID-1").minimum.value == Approx(89.70));
    // The backed-up panel: 100 A ÷ 1.25 = 80 A is the largest continuous load (215.3).
    CHECK(job.from("BLP").current.value == Approx(80));
    CHECK(job.from("BLP").required.value == Approx(100));
}

TEST_CASE("service and grounding") {
    const Case job;
    const CircuitStudy& service = job.from("MSP");
    CHECK(service.stated);
    CHECK(service.passes);                      // 3/0 AWG: 200 A ≥ 0.83 × 200 A = 166 A, 310.12
    CHECK(name(service.smallest) == "2/0 AWG"); // 175 A ≥ 166 A
    CHECK_FALSE(service.has_equipment_ground);  // the neutral is bonded at the panel
    CHECK_FALSE(job.from("UM-1").sized);        // the utility's
    CHECK(name(job.study.grounding_electrode) == "4 AWG"); // Table 250.66, 2/0 and 3/0 copper
}

TEST_CASE("points of connection, 705.12(B)") {
    const Case job;
    const ConnectionStudy& panel = job.connection("MSP");
    REQUIRE(panel.options.size() >= 3);
    // (1) 200 A main + 89.70 A = 289.70 A > 200 A
    CHECK_FALSE(panel.options[0].passes);
    // (2) the breaker is not at the far end; even there 289.70 A > 1.2 × 200 A = 240 A
    CHECK_FALSE(panel.options[1].passes);
    // (3) 100 A feeder + 50 A range + 40 A condenser = 190 A ≤ 200 A
    CHECK(panel.options[2].passes);
    CHECK(panel.options[2].chosen);
    CHECK(job.study.derivation("MSP.bus_breakers_total").value == Approx(190));
    CHECK(panel.options[2].cite.section == "705.12(B)(3)");

    const ConnectionStudy& device = job.connection("MID-1");
    // (1) behind the 100 A breaker: 100 A + 89.70 A = 189.70 A ≤ 200 A
    CHECK(device.options[0].chosen);
    CHECK(device.options[0].cite.section == "705.12(B)(1)");
    CHECK(job.study.derivation("MID-1.bus_sum_total").value == Approx(189.70));
}

TEST_CASE("the 120 % rule is tried where the breaker sits at the far end") {
    const Case job{{"loads = { \"Range\"", "opposite_end = true\nloads = { \"Range\""}};
    CHECK(job.connection("MSP").options[1].applies);
    CHECK_FALSE(job.connection("MSP").options[1].passes); // 289.70 A > 240 A
}

TEST_CASE("sections follow the edition") {
    const Case old(Edition::nec2017);
    // rules of 2017: 705.12(B)(2)(3), output circuits 705.60
    CHECK(old.connection("MSP").options[2].cite.section == "705.12(B)(2)(3)(c)");
    CHECK(text(old.study.derivation("C9.conductor_continuous").cite) == "NEC 2017 705.60(B)");
    CHECK(text(Case().study.derivation("C9.conductor_continuous").cite) == "NEC 2023 705.28(B)");
}

TEST_CASE("inputs of the interconnect device") {
    const Case job;
    // 64 A continuous at 240 V is 15.36 kW; nameplate of the example's record
    CHECK(job.study.derivation("MID-1.pv_most").value == Approx(15360));
    CHECK(job.study.derivation("wickhollow-m200.pv_breaker_limit").value == 80);
    // Four 20 A branch breakers, 80 A in all
    CHECK(job.study.derivation("CP-1.breakers").value == Approx(80));
    CHECK(job.study.derivation("CP-1.total_kept").verdict == Verdict::pass);
}

TEST_CASE("raceways") {
    const Case job;
    const auto run_of = [&](std::string_view child) -> const RunStudy& {
        for (std::size_t i = 0; i < job.system.runs.size(); ++i) {
            if (job.system.runs[i].child == job.system.find(child))
                return job.study.runs[i];
        }
        throw std::logic_error("no run");
    };
    // Chapter 9: four 12 AWG and one ground, five × 0.0133 in² = 0.0665 in²; 1/2 in EMT 0.304 in²,
    // 40 % of it 0.1216 in².
    CHECK(run_of("JB-1").conductors.value == Approx(0.0665));
    CHECK(name(run_of("JB-1").trade_size) == "1/2");
    CHECK(run_of("JB-1").allowed.value == Approx(0.1216));
    // Three 3 AWG at 0.0973 and an 8 AWG at 0.0366: 0.3285 in²; 3/4 in takes 0.2132, 1 in 0.3456.
    CHECK(run_of("MID-1").conductors.value == Approx(0.3285));
    CHECK(name(run_of("MID-1").trade_size) == "1");
    CHECK_FALSE(run_of("PV-1").sized); // trunk cable in free air
}

TEST_CASE("voltage rise from the farthest branch") {
    const Case job;
    // Ch. 9 Table 9, copper: 12 AWG 2.0, 8 AWG 0.78, 3 AWG 0.25 ohm per 1000 ft; 2 × I × R × L:
    // 28 ft trunk 1.272 V, 46 ft to the combiner 2.090 V, 6 and 8 ft at 39.76 A 0.868 V, 10 ft at
    // 71.76 A 0.359 V; together 4.590 V, 1.91 % of 240 V.
    CHECK(job.from("PV-1").voltage_change_volts.value == Approx(1.27232));
    CHECK(job.from("JB-1").voltage_change_volts.value == Approx(2.09024));
    CHECK(job.study.derivation("rise.total").value == Approx(4.58985).epsilon(1e-4));
    CHECK(job.study.derivation("rise.share").value == Approx(0.019124).epsilon(1e-4));
}

TEST_CASE("groups stand in the order in which a checker reads") {
    const Case job;
    std::vector<std::string> titles;
    for (const CalculationGroup& group : job.study.groups) {
        titles.push_back(group.title);
        CHECK_FALSE(group.steps.empty());
        for (const std::string& step : group.steps) {
            CHECK_NOTHROW(job.study.derivation(step));
        }
    }
    // Climate first, then along the power: array, circuits, raceways, connection, storage; what the
    // whole premises are asked comes last. Common practice, no source.
    const std::vector<std::string> order = {"CLIMATE",
                                            "MODULE AND MICROINVERTER",
                                            "BRANCHES AND COMBINER",
                                            "CIRCUIT C1: PV-1 TO JB-1",
                                            "RACEWAYS",
                                            "POINT OF CONNECTION: MSP",
                                            "POINT OF CONNECTION: MID-1",
                                            "AVAILABLE FAULT CURRENT",
                                            "STORAGE",
                                            "STORAGE SITING",
                                            "ACCESSORIES",
                                            "VOLTAGE RISE",
                                            "GROUNDING",
                                            "EQUIPMENT RATINGS"};
    auto at = titles.begin();
    for (const std::string& title : order) {
        INFO(title);
        at = std::find(at, titles.end(), title);
        REQUIRE(at != titles.end());
    }
    CHECK(job.study.groups[7].anchor == "calc:C5");
    CHECK(job.study.groups[7].subject == "circuit:C5");
}

TEST_CASE("every derivation stands in exactly one group") {
    const Case job;
    std::vector<std::string> grouped;
    for (const CalculationGroup& group : job.study.groups) {
        grouped.insert(grouped.end(), group.steps.begin(), group.steps.end());
    }
    std::vector<std::string> all;
    for (const Derivation& line : job.study.worksheet.all()) {
        all.push_back(line.id);
    }
    std::sort(grouped.begin(), grouped.end());
    std::sort(all.begin(), all.end());
    CHECK(grouped == all);
}
