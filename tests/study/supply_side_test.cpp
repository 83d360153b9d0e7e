// Sources ahead of the main, power control, center-fed and feed-through panels. Paragraphs: the
// chapter of connection; the arithmetic by hand.
#include "catch.h"
#include "example.h"

using namespace ohmfolio;
using namespace ohmfolio::example;

TEST_CASE("supply side: the smallest conductor is 6 AWG since 2020") {
    // 31.7 A × 1.25 = 39.6 A would do with 8 AWG; mayfield.energy, code corner 705.11.
    const WireSize eight = *parse_wire_size("8"), six = *parse_wire_size("6");
    CHECK(Case(cinder_row, {}, Edition::nec2017).from("SW-1").size == eight);
    CHECK(Case(cinder_row, {}, Edition::nec2020).from("SW-1").size == six);
    CHECK(Case(cinder_row, {}, Edition::nec2023).from("SW-1").size == six);
    const Change stated{"feeds = \"SC-1\", run = { length = \"6 ft\", raceway = \"EMT\" } }",
                        "feeds = \"SC-1\", run = { length = \"6 ft\", raceway = \"EMT\", size = "
                        "\"8 AWG\" } }"};
    CHECK(Case(cinder_row, {stated}, Edition::nec2017).study.findings.empty());
    CHECK(Case(cinder_row, {stated}).finding("supply.conductor") != nullptr);
}

TEST_CASE("supply side: sources up to the service, no 120 % rule") {
    // 200 A of service; 200 A of sources pass, 200.1 A do not.
    const Change breaker{"breaker_limit = \"50 A\"", "breaker_limit = \"300 A\""};
    const auto with = [&](const char* amps, const char* power) {
        return Case(
            cinder_row,
            {breaker,
             {"output_current = \"31.7 A\"", std::string("output_current = \"") + amps + "\""},
             {"output = \"7.6 kVA\"", std::string("output = \"") + power + "\""}});
    };
    CHECK(with("200 A", "48 kVA").finding("supply.sum") == nullptr);
    CHECK(with("200.1 A", "48.02 kVA").finding("supply.sum") != nullptr);
}

TEST_CASE("supply side: 125 % of the sources is cited where no bus is") {
    // NEC 2023 705.12 is of connections on the load side; 705.28(B) of the conductors.
    const Case ahead(cinder_row);
    const Derivation* sum = ahead.study.worksheet.find("SC-1.sources_125");
    REQUIRE(sum != nullptr);
    CHECK(sum->cite.section == "705.28(B)");
    CHECK(sum->title.find("bus") == std::string::npos);
}

TEST_CASE("supply side: the disconnect serves as a service disconnect") {
    CHECK(Case(cinder_row, {{"service_equipment = true\ninterrupting = \"100 kA\"",
                             "interrupting = \"100 kA\""}})
              .finding("supply.disconnect") != nullptr);
    CHECK(Case(cinder_row, {{", \"service\"]", "]"}}).finding("supply.bonding") != nullptr);
}

TEST_CASE("power control: a setting takes the place of the sources, from 2020 on") {
    // The MID at 200 A on both sides: its 200 A busbar, protected at 200 A, takes 125 % of 71.76 A,
    // 89.7 A, by no rule but that of the setting.
    const Change device{"breaker = \"110 A\"", "breaker = \"200 A\""};
    const Change backup{"backup_breaker = \"125 A\"", "backup_breaker = \"200 A\""};
    const auto with = [&](const std::string& setting, Edition edition = Edition::nec2023) {
        return Case(fernhill, {device, backup, {"[meter]\n", setting + "\n[meter]\n"}}, edition);
    };
    const std::string at = "[[power_control]]\nat = \"MID-1\"\n";
    const std::string listing = "listing = \"UL 1741 PCS\"\n";
    CHECK(with("").finding("connection.bus", "equipment:MID-1") != nullptr);
    const Case bare = with("");
    bool offered = false;
    for (const Remedy& remedy : bare.finding("connection.bus", "equipment:MID-1")->remedies)
        offered = offered || remedy.change == "a listed power control system that holds the busbar "
                                              "of MID-1 to its 200 A";
    CHECK(offered);
    const Case held = with(at + "bus = \"200 A\"\n" + listing);
    INFO(listed(held.study));
    CHECK(held.finding("connection.bus") == nullptr);
    CHECK(with(at + "bus = \"201 A\"\n" + listing).finding("connection.bus") != nullptr);
    CHECK(with(at + "bus = \"200 A\"\n").finding("control.listed") != nullptr);
    // A listing is of a product, so the system is to be a device of the job.
    CHECK(held.finding("control.device_unnamed") != nullptr);
    CHECK(with(at + "bus = \"200 A\"\nby = \"MID-1\"\n" + listing)
              .finding("control.device_unnamed") == nullptr);
    const Case older = with(at + "bus = \"200 A\"\n" + listing, Edition::nec2017);
    CHECK(older.finding("control.edition") != nullptr);
    CHECK(older.finding("connection.bus") != nullptr);
}

TEST_CASE("center-fed panel of a dwelling: 120 % at one end") {
    // PV and storage at the panel: 240 A − 200 A = 40 A. Two battery units and 28 microinverters of
    // the example are 89.7 A; one branch of 8 and no storage is 14.2 A.
    const Change center{"main = \"200 A\"", "main = \"200 A\"\ncenter_fed = true"};
    const Case job{center};
    const ConnectionStudy& connection = job.connection("MSP");
    bool tried = false;
    for (const ConnectionOption& option : connection.options) {
        if (option.rule.find("Center-fed") == std::string::npos)
            continue;
        tried = option.applies;
        CHECK_FALSE(option.passes); // 289.7 A > 240 A
    }
    CHECK(tried);
}
