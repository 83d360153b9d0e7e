// The service has a main or a fused service disconnect, and no main is larger than it. Six breakers
// in one panelboard may serve together until 2020: electricallicenserenewal.com sectionID=844.
#include "catch.h"
#include "example.h"

using namespace ohmfolio;
using namespace ohmfolio::example;

namespace {

const std::string highmeadow = "examples/tolliver-bend/highmeadow.toml";

} // namespace

TEST_CASE("a service panel without a main has nothing that protects it") {
    for (const char* job : {"ashgrove", "larch-bend", "hawthorn"}) {
        INFO(job);
        const Case lugs("examples/tolliver-bend/" + std::string(job) + ".toml",
                        {{"main = \"200 A\"\n", ""}});
        const Finding* found = lugs.finding("service.device", "equipment:MSP");
        REQUIRE(found != nullptr);
        CHECK(found->severity == Severity::violation);
        CHECK(found->section == "NEC 2023 230.70, 230.90");
        CHECK(lugs.study.worksheet.find("MSP.bus_kept") == nullptr);
        // Behind its own breaker the backed-up panel is protected all the same.
        CHECK(lugs.finding("service.device", "equipment:BLP") == nullptr);
    }
}

TEST_CASE("a few breakers in one panel served together until 2020") {
    const auto without_main = [](Edition edition, const std::string& loads) {
        return Case(ashgrove,
                    {{"main = \"200 A\"\n", ""},
                     {"loads = { \"Range\"", "loads = { " + loads + "\"Range\""}},
                    edition);
    };
    // Range, condenser and the breaker of MID-1 are three; three more are six.
    const std::string three = "\"A\" = \"15 A\", \"B\" = \"15 A\", \"C\" = \"15 A\", ";
    CHECK(without_main(Edition::nec2017, three).finding("service.device") == nullptr);
    CHECK(without_main(Edition::nec2017, three + "\"D\" = \"15 A\", ").finding("service.device") !=
          nullptr);
    CHECK(without_main(Edition::nec2020, "").finding("service.device") != nullptr);
}

TEST_CASE("a fused disconnect suitable as service equipment stands for a main") {
    const Change unfused{"poles = 2\nfused = true\nlockable = true\nservice_equipment = true\n"
                         "interrupting = \"100 kA\"\n\n[panel.dunmere-225]",
                         "poles = 2\nfused = false\nlockable = true\nservice_equipment = true\n"
                         "interrupting = \"100 kA\"\n\n[panel.dunmere-225]"};
    const Change no_breaker{"breaker = \"125 A\", run", "run"};
    CHECK(Case(highmeadow).finding("service.device") == nullptr);
    // Without fuses it disconnects and protects nothing.
    CHECK(Case(highmeadow, {unfused, no_breaker}).finding("service.device", "equipment:MID-1") !=
          nullptr);
}

TEST_CASE("fuses that are not marked as service equipment are no service disconnect") {
    System system = system_with({}, Edition::nec2023, highmeadow);
    for (Record& record : system.catalogue.records) {
        if (auto* disconnect = std::get_if<DisconnectRatings>(&record.ratings))
            disconnect->service_equipment = false;
    }
    const Case unmarked(system);
    REQUIRE(unmarked.finding("service.listing", "equipment:SD-1") != nullptr);
    CHECK(unmarked.finding("service.listing")->section == "NEC 2023 230.66");
    CHECK(unmarked.finding("service.device") == nullptr);
}

TEST_CASE("a main is not larger than the service") {
    const auto on = [](const std::string& service) {
        return Case(ashgrove, {{"service = \"120/240 V, 200 A\"",
                                "service = \"120/240 V, " + service + "\""}});
    };
    CHECK(on("200 A").finding("service.main") == nullptr);
    CHECK(on("400 A").finding("service.main") == nullptr);
    const Case small = on("100 A");
    const Finding* found = small.finding("service.main", "equipment:MSP");
    REQUIRE(found != nullptr);
    CHECK(found->severity == Severity::violation);
    CHECK(found->section == "NEC 2023 230.90(A)");
    CHECK(found->message == "MSP: a 200 A main breaker on a service of 100 A");
    REQUIRE_FALSE(found->remedies.empty());
    CHECK(found->remedies.front().change == "a 100 A main breaker in MSP, if its loads allow");
}
