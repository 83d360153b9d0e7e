// Fault current along the wiring. The method and its constants: an inspector's sheet and a plan
// review booklet (scribd.com/document/230809087, 325386963), checked in tests/code; here the walk.
#include "catch.h"
#include "example.h"
#include "study/fault_currents.h"

using namespace ohmfolio;
using namespace ohmfolio::example;

namespace {

double amps_at(const Study& study, const std::string& id) {
    return study.derivation(id + ".fault_current").value;
}

/// f and M of one run between lines, by hand.
double after(double amps, double feet, double constant, double volts = 240) {
    return amps / (1 + 2 * feet * amps / (constant * volts));
}

} // namespace

TEST_CASE("fault current falls run by run on the way from the service") {
    const Case job;
    // 9.2 kA stated; 6 ft of 3/0 copper in steel (12844), 10 ft of 3 AWG (4774), 8 ft and 6 ft of
    // 8 AWG (1557).
    const double panel = after(9200, 6, 12844);
    const double device = after(panel, 10, 4774);
    const double disconnect = after(device, 8, 1557);
    const double combiner = after(disconnect, 6, 1557);
    CHECK(job.from("MID-1").size == *parse_wire_size("3"));
    CHECK(job.from("SW-1").size == *parse_wire_size("8"));
    CHECK(amps_at(job.study, "MSP") == Approx(panel));
    CHECK(amps_at(job.study, "MID-1") == Approx(device));
    CHECK(amps_at(job.study, "SW-1") == Approx(disconnect));
    CHECK(amps_at(job.study, "CP-1") == Approx(combiner));
    CHECK(job.study.derivation("CP-1.interrupting_kept").comparison == "10 kA ≥ 4.88 kA");
}

TEST_CASE("a fault current that would not open the device ahead is no fault current") {
    // The MID hangs on a 100 A breaker: 9.2 A is 9.2 kA without its kilo, 101 A might be.
    const auto stated = [](const std::string& amps) {
        return Case{Change{"MID-1 = { model", "MID-1 = { fault_current = \"" + amps + "\", model"}};
    };
    const Case slip = stated("9.2 A");
    const Finding* found = slip.finding("fault.stated", "equipment:MID-1");
    REQUIRE(found != nullptr);
    CHECK(found->severity == Severity::violation);
    CHECK(found->message == "MID-1: a fault current of 9.20 A would not open the device ahead, "
                            "which is 100 A");
    CHECK(found->hint == "did you mean \"9.2 kA\"?");
    CHECK(stated("100 A").finding("fault.stated") != nullptr);
    CHECK(stated("101 A").finding("fault.stated") == nullptr);
    CHECK(stated("7.4 kA").study.findings.empty());
}

TEST_CASE("equipment that does not withstand the current at its own terminals is refused") {
    // 10 kA at the combiner. With 100 kA at the service: 55.4 kA at the panel by hand.
    const Case strong{{"fault_current = \"9.2 kA\"", "fault_current = \"100 kA\""}};
    const double panel = after(100000, 6, 12844);
    CHECK(amps_at(strong.study, "MSP") == Approx(panel));
    CHECK(strong.finding("fault.service", "equipment:MSP") != nullptr);
    // The far end of a long feeder sees little of it.
    CHECK(strong.finding("fault.beyond", "equipment:CP-1") == nullptr);
    // A stated value goes before the calculation, there and beyond.
    const Case stated{
        {"[combiner]\nCP-1 = {", "[combiner]\nCP-1 = { fault_current = \"10.1 kA\","}};
    CHECK(stated.finding("fault.beyond", "equipment:CP-1") != nullptr);
    const Case enough{{"[combiner]\nCP-1 = {", "[combiner]\nCP-1 = { fault_current = \"10 kA\","}};
    CHECK(enough.study.findings.empty());
}

TEST_CASE("a transformer takes the place of the utility's statement") {
    // 25 kVA, 240 V, 1.6 %: 104.17 A ÷ (0.9 × 0.016) = 7234 A between lines, 1.5 times that to
    // neutral at its terminals. 60 ft of 2/0 aluminum, nonmagnetic (7301): between lines
    // 7234 ÷ (1 + 2 × 60 × 7234 ÷ (7301 × 240)) = 4838 A; to neutral
    // 10851 ÷ (1 + 2 × 60 × 10851 ÷ (7301 × 120)) = 4366 A. The greater counts.
    const Case job{
        {"fault_current = \"9.2 kA\"",
         "transformer = { power = \"25 kVA\", impedance = \"1.6 %\", length = \"60 ft\", "
         "size = \"2/0 AWG\" }"}};
    const double lines = 25000.0 / 240 / (0.9 * 0.016);
    CHECK(job.study.derivation("service.fault_current").value == Approx(after(lines, 60, 7301)));
    CHECK(amps_at(job.study, "MSP") == Approx(after(after(lines, 60, 7301), 6, 12844)));
    // Close to the transformer the fault to neutral is the greater: 5 ft.
    const Case near{
        {"fault_current = \"9.2 kA\"",
         "transformer = { power = \"25 kVA\", impedance = \"1.6 %\", length = \"5 ft\", "
         "size = \"2/0 AWG\" }"}};
    CHECK(near.study.derivation("service.fault_neutral_current").value ==
          Approx(after(1.5 * lines, 5, 7301, 120)));
    CHECK(amps_at(near.study, "MSP") == Approx(after(after(1.5 * lines, 5, 7301, 120), 6, 12844)));
}

TEST_CASE("the fault current at the service is the one stated, or that behind the transformer") {
    const auto at_service = [](const Case& job) { return fault_at_service(job.system, job.study); };
    const Case stated;
    CHECK(at_service(stated).current == Amps{9200});
    CHECK_FALSE(at_service(stated).calculated);
    const auto behind = [](const std::string& feet) {
        return Case{{"fault_current = \"9.2 kA\"",
                     "transformer = { power = \"25 kVA\", impedance = \"1.6 %\", length = \"" +
                         feet + " ft\", size = \"2/0 AWG\" }"}};
    };
    // As above: between lines at 60 ft, to neutral at 5 ft.
    const double lines = 25000.0 / 240 / (0.9 * 0.016);
    CHECK(at_service(behind("60")).current.value == Approx(after(lines, 60, 7301)));
    CHECK(at_service(behind("60")).calculated);
    CHECK(at_service(behind("5")).current.value == Approx(after(1.5 * lines, 5, 7301, 120)));
    CHECK(behind("5").study.derivation("service.fault_available").formula ==
          "larger of I_sc,service and I_LN,service");
    const Case neither{{"fault_current = \"9.2 kA\"\n", ""}};
    CHECK(at_service(neither).current == Amps{0});
    CHECK_FALSE(at_service(neither).calculated);
}

TEST_CASE("the fault current of a three-phase service is that of all three lines") {
    // 112.5 kVA, 208 V, 2.1 %: 312.27 A ÷ (0.9 × 0.021) = 16,522 A. 85 ft of two sets of 350 kcmil
    // aluminum, nonmagnetic (16813): f = √3 × 85 × 16522 ÷ (16813 × 2 × 208) = 0.3478.
    const Case job("examples/tolliver-bend/tannery-yard.toml");
    CHECK(fault_at_service(job.system, job.study).current.value ==
          Approx(16522 / 1.3478).epsilon(0.0002));
}
