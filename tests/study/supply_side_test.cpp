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

TEST_CASE("supply side: the disconnect serves as a service disconnect") {
    CHECK(Case(cinder_row, {{"service_equipment = true\ninterrupting = \"100 kA\"",
                             "interrupting = \"100 kA\""}})
              .finding("supply.disconnect") != nullptr);
    CHECK(Case(cinder_row, {{", \"service\"]", "]"}}).finding("supply.bonding") != nullptr);
}

TEST_CASE("power control: a setting takes the place of the sources, from 2020 on") {
    // Two storage circuits and PV behind the MID on a 200 A panel: 125 % of 71.76 A is 89.7 A.
    const std::string control = "[[power_control]]\nat = \"MID-1\"\nbus = \"200 A\"\nlisting = "
                                "\"UL 1741 PCS\"\n\n[meter]";
    const Change none{"[[power_control]]\nat = \"MID-1\"\nbus = \"200 A\"\nlisting = \"UL 1741 "
                      "PCS\"\n\n[meter]",
                      "[meter]"};
    const Case listed_control(fernhill);
    INFO(listed(listed_control.study));
    CHECK(listed_control.finding("connection.bus") == nullptr);
    CHECK(Case(fernhill, {none}).finding("connection.bus", "equipment:MID-1") != nullptr);
    CHECK(Case(fernhill, {{"bus = \"200 A\"\nlisting", "bus = \"201 A\"\nlisting"}})
              .finding("connection.bus") != nullptr);
    CHECK(Case(fernhill, {{"\nlisting = \"UL 1741 PCS\"", ""}}).finding("control.listed") !=
          nullptr);
    const Case older(fernhill, {}, Edition::nec2017);
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
