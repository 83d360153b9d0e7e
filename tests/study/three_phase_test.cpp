// Three-phase services, and two lines of a wye: the example jobs, changed by the smallest step.
#include <cmath>

#include "catch.h"
#include "example.h"

using namespace ohmfolio;
using namespace ohmfolio::example;

namespace {

const std::string tannery = "examples/tolliver-bend/tannery-yard.toml";  ///< microinverters, 208 V
const std::string brickfield = "examples/tolliver-bend/brickfield.toml"; ///< 60 inverters, 208 V
const std::string gasworks = "examples/tolliver-bend/gasworks.toml";     ///< 480 V
const std::string weavers = "examples/tolliver-bend/weavers-court.toml"; ///< two lines of a wye

const double root = std::sqrt(3.0);

int count_of(const System& system, CircuitUse use) {
    int count = 0;
    for (const Circuit& circuit : system.circuits)
        count += circuit.use == use ? 1 : 0;
    return count;
}

} // namespace

TEST_CASE("the jobs on a wye hold together in every edition") {
    for (const std::string& job : {tannery, brickfield, gasworks, weavers}) {
        for (const Edition edition : all_editions) {
            const Case one(job, {}, edition);
            INFO(job << '\n' << listed(one.study));
            CHECK(one.study.findings.empty());
        }
    }
}

TEST_CASE("branches in threes load each line by root three") {
    const Case job(tannery);
    // 9 × 1.63 A = 14.67 A a branch, two of them on each pair of lines.
    const double line = root * 2 * 9 * 1.63;
    CHECK(job.from("CP-1").current.value == Approx(line));
    CHECK(job.from("CP-1").required.value == Approx(1.25 * line));
    CHECK(job.breaker_from("CP-1").rating == Amps{70}); // the next above 63.5 A in 240.6(A)
    CHECK(job.study.derivation("MDP.sources").value == Approx(line));
    CHECK(job.study.totals.pv_current.value == Approx(line));
    CHECK(job.study.derivation("phases.unbalance").value == Approx(0).margin(1e-9));
    CHECK(job.system.breakers[static_cast<std::size_t>(job.from("JB-1").breaker)].poles == 2);
    CHECK(job.system.breakers[static_cast<std::size_t>(job.from("CP-1").breaker)].poles == 3);
    CHECK(job.system.lines_at(job.system.find("MDP")) == 3);
}

TEST_CASE("the lines of a panelboard are taken in turn") {
    const Case job(tannery);
    const auto phases = [&](const char* tag) {
        return job.system.circuits[static_cast<std::size_t>(job.index(tag))].phases.name();
    };
    CHECK(phases("C7") == "A-B");
    CHECK(phases("C8") == "C-A");
    CHECK(phases("C9") == "B-C");
    CHECK(phases("C1") == "A-B"); // the trunk cable of the same branch
    CHECK(phases("C13") == "A-B-C");
    CHECK(job.system.equipment[static_cast<std::size_t>(job.system.find("MDP"))]
              .as<Panel>()
              ->loads.back()
              .phases.count() == 1);
}

TEST_CASE("a branch too few is told, and a limit of the utility settles it") {
    const Change fewer{"\"PV-4 to PV-6\"", "\"PV-4 to PV-5\""};
    const Case job(tannery, {fewer});
    // A-B and C-A hold two branches, B-C one: A √3 × 29.34 A, B and C √(29.34² + 14.67² + 29.34 ×
    // 14.67) A; 705.45 (705.100 in 2017) sets no number.
    const double two = 2 * 9 * 1.63;
    const double one = 9 * 1.63;
    const double others = std::sqrt(two * two + one * one + two * one);
    CHECK(job.study.derivation("phases.unbalance").value == Approx(root * two - others));
    CHECK(job.from("CP-1").current.value == Approx(root * two));
    const Finding* told = job.finding("unbalance");
    REQUIRE(told != nullptr);
    CHECK(told->severity == Severity::advice);
    CHECK(told->section.find("705.45") != std::string::npos);
    CHECK(Case(tannery, {fewer}, Edition::nec2017).finding("unbalance")->section.find("705.100") !=
          std::string::npos);
    const auto with_limit = [&](const std::string& limit) {
        return Case(tannery,
                    {fewer, {"[site]\n", "[site]\nunbalance_limit = \"" + limit + "\"\n"}});
    };
    CHECK(with_limit("15 A").finding("unbalance") == nullptr);
    const Case beyond = with_limit("10 A");
    REQUIRE(beyond.finding("unbalance") != nullptr);
    CHECK(beyond.finding("unbalance")->severity == Severity::violation);
}

TEST_CASE("voltage changes by root three along three lines") {
    const Case job(tannery);
    // 2 AWG copper in steel: 0.20 Ω/kft (Chapter 9 Table 9); 18 ft.
    const double drop = root * (root * 2 * 9 * 1.63) * 0.20e-3 * 18;
    CHECK(job.from("SW-1").voltage_change_volts.value == Approx(drop));
    CHECK(job.from("SW-1").voltage_change == Approx(drop / 208));
    // Between two lines twice the length: 10 AWG copper in steel 1.2 Ω/kft, 40 ft.
    CHECK(job.from("JB-1").voltage_change_volts.value == Approx(2 * 14.67 * 1.2e-3 * 40));
}

TEST_CASE("fault current of a three-phase transformer and run") {
    // A plan review booklet (scribd.com/document/325386963): 300 kVA, 208 V, 2 % less 10 % feeds
    // 46,273 A; behind 20 ft of two sets of 500 kcmil copper in steel 39,425 A are left.
    const Change run{"length = \"8 ft\", raceway = \"RMC\", size = \"600 kcmil\"",
                     "length = \"20 ft\", raceway = \"RMC\", sets = 2, size = \"500 kcmil\""};
    const Change transformer{
        "transformer = { power = \"112.5 kVA\", impedance = \"2.1 %\", length = \"85 ft\", size = "
        "\"350 kcmil\", sets = 2 }",
        "transformer = { power = \"300 kVA\", impedance = \"2 %\", length = \"85 ft\", size = "
        "\"350 "
        "kcmil\", sets = 2 }"};
    const Case source(tannery, {transformer});
    CHECK(source.study.derivation("service.fault_transformer").value ==
          Approx(46273).epsilon(0.001));
    const Change stated{transformer.from, "fault_current = \"46.273 kA\""};
    const Case behind(tannery, {run, stated});
    CHECK(behind.study.derivation("MDP.fault_current").value == Approx(39425).epsilon(0.001));
}

TEST_CASE("sixty inverters written in a line are sixty in the schedule") {
    const Case job(brickfield);
    CHECK(count_of(job.system, CircuitUse::string) == 120);
    CHECK(job.system.find("INV-60") >= 0);
    CHECK(job.system.find("INV-61") < 0);
    const auto parent = [&](const char* id) {
        return job.system.at(job.system.at(job.system.find(id)).parent).id;
    };
    CHECK(parent("INV-5") == "CP-1");
    CHECK(parent("INV-6") == "CP-2");
    CHECK(parent("CP-6") == "SB-1");
    CHECK(parent("CP-7") == "SB-2");
    CHECK(parent("B-60") == "INV-60");
    // 10 kVA ÷ (√3 × 208 V) = 27.76 A, on the nameplate 27.8 A; thirty to a switchboard.
    CHECK(job.from("INV-1").phase_conductors == 3);
    CHECK(job.from("SB-1").current.value == Approx(30 * 27.8));
    CHECK(job.breaker_from("SB-1").rating == Amps{1200}); // 1.25 × 834 A = 1042.5 A, 240.6(A)
    // 240.4(C): above 800 A the conductors carry the device. Table 310.16, 75 °C: 4 × 310 A ≥ 1200
    // A.
    CHECK(job.from("SW-1").size == *parse_wire_size("350 kcmil"));
    CHECK(job.from("SW-1").parallel_sets == 4);
    CHECK(job.from("SW-1").ampacity_terminals == Amps{1240});
    // 250.122: 3/0 copper behind 1200 A, in each of four raceways.
    CHECK(job.from("SB-1").equipment_ground == *parse_wire_size("3/0"));
}

TEST_CASE("too few poles, and a switch of the next size") {
    const Case job(tannery, {{"rating = \"100 A\"\npoles = 3", "rating = \"100 A\"\npoles = 2"}});
    const Finding* finding = job.finding("disconnect.poles");
    REQUIRE(finding != nullptr);
    CHECK(finding->subject == "equipment:SW-1");
}

TEST_CASE("a switchboard of 1200 A is reckoned in amperes, its faults in kA") {
    // 120 % of 1200 A; 1200 A and 1.25 × 4 × 30.1 A. As its nameplate and the schedules state it.
    const Case job(gasworks);
    const auto comparison = [&](const char* id) { return job.study.derivation(id).comparison; };
    CHECK(comparison("MSB.bus_120") == "1350.50 A ≤ 1440 A");
    CHECK(comparison("MSB.bus_kept") == "1200 A ≤ 1200 A");
    CHECK(job.study.derivation("MSB.bus_120_limit").figures == "1.2 × 1200 A");
    CHECK(comparison("MSB.interrupting_kept").starts_with("65 kA ≥ 16."));
    CHECK(job.study.derivation("MSB.fault_ahead").result.ends_with(" kA"));
    CHECK(job.study.derivation("service.fault_available").result.ends_with(" kA"));
}

TEST_CASE("ground-fault protection at 480 V from 1000 A on") {
    // 230.95: 1000 A and more, above 150 V to ground; 705.32: sources on its load side.
    const Case none(gasworks, {{"ground_fault = \"from all sources\"\n", ""}});
    REQUIRE(none.finding("fault.protection") != nullptr);
    CHECK(none.finding("fault.protection")->section.find("230.95") != std::string::npos);
    const Case one_way(gasworks, {{"\"from all sources\"", "\"yes\""}});
    CHECK(one_way.finding("fault.protection") == nullptr);
    CHECK(one_way.finding("fault.load_side") != nullptr);
    const Case smaller(gasworks, {{"ground_fault = \"from all sources\"\n", ""},
                                  {"main = \"1200 A\"", "main = \"800 A\""}});
    CHECK(smaller.finding("fault.protection") == nullptr);
    // 120 V to ground is not above 150 V, whatever the rating.
    CHECK(Case(brickfield).finding("fault.protection") == nullptr);
}

TEST_CASE("the neutral of two lines of a wye counts, that of four wires does not") {
    // 310.15(E)(2) and (1); three conductors either way, six lines of three branches in a raceway.
    const Case two(weavers);
    CHECK(two.from("MSP").current_carrying == 3);
    CHECK(two.from("MSP").phase_conductors == 2);
    CHECK(two.study.derivation("R4.current_carrying").value == 3);
    const Case four(tannery);
    CHECK(four.from("MDP").current_carrying == 3);
    CHECK(four.from("MDP").phase_conductors == 3);
    CHECK(four.from("JB-1").current_carrying == 6);
    CHECK(Case().from("MSP").current_carrying == 2); // 120/240 V: Ashgrove
    // 310.12: no share of 83 % for a service of two lines of a wye: 200 A by the main of 175 A.
    const Case unstated(weavers, {{", size = \"3/0 AWG\"", ""}});
    CHECK(unstated.from("MSP").size == *parse_wire_size("2/0"));
}
