// What a plan checker looks for first, each with the step that just passes and the one that fails.
// Values by hand; paragraphs as in the chapters of the book.
#include "catch.h"

#include "example.h"

using namespace ohmfolio;
using example::Case;
using example::Change;

namespace {

bool contains(const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
}

const Change no_loads{"loads = { \"Range\"", "# loads = { \"Range\""};

} // namespace

TEST_CASE("the sum of breakers needs the load breakers") {
    const Case silent{no_loads};
    const Finding* found = silent.finding("connection.bus", "equipment:MSP");
    REQUIRE(found != nullptr);
    CHECK(contains(found->message, "Sum of breakers: the load breakers are not described"));
    CHECK(contains(found->message, "even there 289.70 A > 240 A"));
    CHECK(contains(found->hint, "describe all load breakers"));
    CHECK_FALSE(silent.connection("MSP").options[2].applies);
    // An empty table says that there are none: the 100 A feeder stands alone.
    const Case none{{no_loads.from, "loads = {}\n# \"Range\""}};
    INFO(example::listed(none.study));
    CHECK(none.study.findings.empty());
    CHECK(none.study.derivation("MSP.bus_breakers_total").value == 100);
}

TEST_CASE("an unfused disconnect is not smaller than the device ahead of it") {
    const auto with = [](const std::string& breaker, const std::string& fused) {
        return Case{{"use = [\"utility\", \"rapid shutdown\"]",
                     "breaker = \"" + breaker + "\", use = [\"utility\", \"rapid shutdown\"]"},
                    {"fused = false", "fused = " + fused}};
    };
    CHECK(with("60 A", "false").finding("disconnect.protection") == nullptr); // 60 A ≥ 60 A
    const Case above = with("70 A", "false");
    const Finding* found = above.finding("disconnect.protection", "equipment:SW-1");
    REQUIRE(found != nullptr);
    CHECK(found->severity == Severity::violation);
    CHECK(found->section == "NEC 2023 110.3(B), 110.10");
    CHECK(above.study.derivation(found->derivation).cite.unverified);
    CHECK(contains(found->message, "60 A unfused disconnect behind Q5, which is 70 A"));
    REQUIRE_FALSE(found->remedies.empty());
    CHECK(found->remedies.front().change == "the rating of Q5 left to be sized");
    CHECK(with("70 A", "true").finding("disconnect.protection") == nullptr);
}

TEST_CASE("a larger breaker is no remedy where the disconnect behind it is smaller") {
    // 125 % of 39.76 A is 49.70 A. 50 A is offered behind a 50 A switch, nothing above it.
    const Case job{{"rating = \"60 A\"", "rating = \"50 A\""},
                   {"use = [\"utility\", \"rapid shutdown\"]",
                    "breaker = \"45 A\", use = [\"utility\", \"rapid shutdown\"]"}};
    const Finding* found = job.finding("breaker.rating", "breaker:Q5");
    REQUIRE(found != nullptr);
    CHECK(found->remedies.size() == 2);
    CHECK(found->remedies.front().change == "50 A for Q5");
    CHECK(found->remedies.back().change == "the rating of Q5 left to be sized");
    // Behind a 49.9 A switch neither 50 A nor anything larger will do.
    const Case small{{"rating = \"60 A\"", "rating = \"49.9 A\""},
                     {"use = [\"utility\", \"rapid shutdown\"]",
                      "breaker = \"45 A\", use = [\"utility\", \"rapid shutdown\"]"}};
    CHECK(small.finding("breaker.rating", "breaker:Q5")->remedies.empty());
}

TEST_CASE("a breaker below 125 % of its current is told by the paragraph that asks for it") {
    const auto section = [](Edition edition) {
        const Case job({{"breaker = \"100 A\", run = {", "breaker = \"80 A\", run = {"}}, edition);
        const Finding* found = job.finding("breaker.rating", "breaker:Q7");
        REQUIRE(found != nullptr);
        CHECK(found->message == "Q7 is 80 A, below 125 % of C14's 71.76 A: 89.70 A");
        CHECK(found->expected == "90 A, the next standard rating");
        return found->section;
    };
    CHECK(section(Edition::nec2017) == "NEC 2017 705.60(B)");
    CHECK(section(Edition::nec2020) == "NEC 2020 705.30(B)");
    CHECK(section(Edition::nec2023) == "NEC 2023 705.30(B)");
    // 90 A ≥ 89.70 A
    const Case enough{{"breaker = \"100 A\", run = {", "breaker = \"90 A\", run = {"}};
    CHECK(enough.finding("breaker.rating") == nullptr);
}

TEST_CASE("PV on a building has a marked device that starts rapid shutdown") {
    const Change unmarked{"use = [\"utility\", \"rapid shutdown\"]", "use = [\"utility\"]"};
    for (const Edition edition : all_editions) {
        const Case job({unmarked}, edition);
        const Finding* found = job.finding("shutdown.initiator");
        REQUIRE(found != nullptr);
        CHECK(found->severity == Severity::violation);
        CHECK(found->section == name(edition) + " 690.12(C)");
        REQUIRE_FALSE(found->remedies.empty());
        CHECK(found->remedies.front().change == "SW-1 marked for rapid shutdown");
    }
}

TEST_CASE("a location in words that say indoors is worth a second look") {
    const auto at = [](const std::string& place) {
        return Case{{"location = \"West wall, at meter\", use = [\"utility\"",
                     "location = \"" + place + "\", use = [\"utility\""}};
    };
    const Case inside = at("Basement, east wall");
    REQUIRE(inside.study.findings.size() == 1);
    CHECK(inside.study.findings.front().rule == "shutdown.location");
    CHECK(inside.study.findings.front().severity == Severity::advice);
    CHECK(at("Garage").study.findings.size() == 1);
    CHECK(at("Garage, west wall outside").study.findings.empty());
    // The rule is for dwellings.
    const Case shop{{"location = \"West wall, at meter\", use = [\"utility\"",
                     "location = \"Basement\", use = [\"utility\""},
                    {"occupancy = \"One-family dwelling, R-3\"", "occupancy = \"Mercantile, M\""}};
    CHECK(shop.finding("shutdown.location") == nullptr);
}

TEST_CASE("storage can be disconnected from its busbar") {
    const Change unmarked{"use = [\"storage\"], ", ""};
    const auto section = [&](Edition edition) {
        const Case job({unmarked}, edition);
        const Finding* found = job.finding("storage.disconnect", "equipment:ES-1");
        REQUIRE(found != nullptr);
        CHECK(found->severity == Severity::violation);
        CHECK(job.finding("storage.disconnect", "equipment:ES-2") == nullptr); // of one chain
        REQUIRE_FALSE(found->remedies.empty());
        CHECK(found->remedies.front().change == "SW-2 marked for storage");
        return found->section;
    };
    CHECK(section(Edition::nec2017) == "NEC 2017 706.7(A)");
    CHECK(section(Edition::nec2020) == "NEC 2020 706.15(A)");
    CHECK(section(Edition::nec2023) == "NEC 2023 706.15(A)");
    // Units that hold a switch of their own need none.
    const Case own{unmarked, {"chain_limit = 3", "chain_limit = 3\ndisconnect = true"}};
    CHECK(own.finding("storage.disconnect") == nullptr);
}

TEST_CASE("trunk cable is a listed assembly") {
    const Case job;
    const CircuitStudy& trunk = job.from("PV-1");
    CHECK(trunk.listed_assembly);
    CHECK(trunk.terminal_column == 0);
    CHECK(trunk.ambient_factor == 1);
    CHECK(trunk.bundling_factor == 1);
    CHECK_FALSE(job.from("JB-1").listed_assembly);

    const Case stated{{"feeds = \"JB-1\", run = { length = \"28 ft\" }",
                       "feeds = \"JB-1\", run = { length = \"28 ft\", ambient = \"50 C\" }"}};
    REQUIRE(stated.study.findings.size() == 1);
    CHECK(stated.study.findings.front().rule == "trunk.ambient");
    CHECK(stated.study.findings.front().severity == Severity::warning);
    CHECK(stated.study.findings.front().subject == "circuit:C1");
}

TEST_CASE("the equipment ground of trunk cable is what its record says") {
    const Case job;
    CHECK(job.from("PV-1").has_equipment_ground);
    CHECK(name(job.from("PV-1").equipment_ground) == "12 AWG");
    CHECK(job.study.derivation("C1.equipment_ground_check").verdict == Verdict::pass);
    const Case none{{"trunk_ground = \"12 AWG\"\n", ""}};
    CHECK(none.study.findings.empty());
    CHECK_FALSE(none.from("PV-1").has_equipment_ground);
    // Table 250.122: 20 A asks for 12 AWG.
    const Case small{{"trunk_ground = \"12 AWG\"", "trunk_ground = \"14 AWG\""}};
    REQUIRE(small.finding("circuit.ground", "circuit:C1") != nullptr);
    CHECK(small.finding("circuit.ground", "circuit:C1")->expected == "12 AWG or larger");
}

TEST_CASE("terminations that are not marked are held to the 60 °C column") {
    const Case job;
    CHECK(job.from("SW-1").terminal_column == 75);
    CHECK(contains(job.study.derivation("C10.ampacity_terminals").source,
                   "terminations 75 °C by nameplate of BD-60N, WX-200"));
    const Case unmarked{{"terminals = \"75 C\"\nrating = \"60 A\"", "rating = \"60 A\""}};
    // 60 °C: 8 AWG has 40 A, 6 AWG 55 A ≥ 49.70 A.
    CHECK(unmarked.from("SW-1").terminal_column == 60);
    CHECK(name(unmarked.from("SW-1").size) == "6 AWG");
    CHECK(contains(unmarked.study.derivation("C10.ampacity_terminals").source,
                   "terminations 60 °C by nameplate of BD-60N"));
}

TEST_CASE("the short-circuit current of the module stays within the input limit") {
    const auto with = [](const std::string& limit) {
        return Case{{"input_current_limit = \"20 A\"", "input_current_limit = \"" + limit + "\""}};
    };
    CHECK(with("13.85 A").study.findings.empty());
    const Case below = with("13.8 A");
    REQUIRE(below.finding("module.input.current", "equipment:PV-1") != nullptr);
    CHECK(contains(below.finding("module.input.current")->message, "13.85 A > 13.80 A"));
    const Case none{{"input_current_limit = \"20 A\"\n", ""}};
    CHECK(none.study.findings.empty());
    CHECK(none.study.worksheet.find("solvane-405+wickhollow-340.input_current_kept") == nullptr);
}

TEST_CASE("a reader sees kA, percentages and VA") {
    const Case job;
    CHECK(job.study.derivation("service.fault_current").result == "9.2 kA");
    CHECK(job.study.derivation("R1.fill_limit").result == "40 %");
    // 0.0665 ÷ 0.304 = 21.875 %
    CHECK(job.study.derivation("R1.fill").result == "21.88 %");
    // 1.27232 ÷ 240 = 0.53013 %
    CHECK(job.study.derivation("C1.voltage_change_share").result == "0.53 %");
    CHECK(job.study.derivation("rise.limit_kept").comparison == "1.91 % ≤ 2 %");
    CHECK(job.study.derivation("solvane-405+wickhollow-340.output").result == "340 VA");
    CHECK(job.study.derivation("solvane-405+wickhollow-340.module_power").result == "405 W");
    CHECK(job.study.derivation("MID-1.pv_most").result == "15.36 kVA");
}

TEST_CASE("the table of impedances knows no free air") {
    CHECK(contains(Case().study.derivation("C1.resistance").source,
                   "taken as in PVC, an approximation"));
}

TEST_CASE("one line for one fact") {
    const Case job;
    CHECK(job.study.worksheet.find("C5.equipment_ground_base") == nullptr);
    CHECK(contains(job.study.derivation("C5.equipment_ground").source, "Table 250.122"));
    CHECK(job.study.worksheet.find("wickhollow-c4.largest_breaker") == nullptr);
    // Where no breaker of the combiner's own limit is made for it, that is a fact of its own.
    const Case smaller{{"breaker_sizes = [\"20 A\"]", "breaker_sizes = [\"15 A\"]"}};
    CHECK(smaller.study.derivation("wickhollow-c4.largest_breaker").value == 15);
}
