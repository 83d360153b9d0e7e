// The take-off against counts and lengths worked out by hand beside the checks.
#include <set>

#include "catch.h"

#include "../study/example.h"
#include "takeoff/practice.h"
#include "takeoff/takeoff.h"

using namespace ohmfolio;
using example::Case;
using example::Change;

namespace {

/// One branch of 7 modules in landscape, a trunk cable of 50 ft, a raceway of 25 ft to an existing
/// panel.
const std::string small_job = R"(
catalogue = "catalogue.toml"
code = "NEC 2023"
[project]
name = "Small"
address = "1 Test Row"
jurisdiction = "County"
utility = "Light & Water"
scope = "PV"
date = "2026-03-02"
[site]
coldest = "-9 C"
hottest = "37 C"
service = "120/240 V, 200 A"
fault_current = "9.2 kA"
[modules]
module = "solvane-405"
microinverter = "wickhollow-340"
[branch]
PV-1 = { modules = 7, roof = "South", orientation = "landscape", feeds = "JB-1", run = { length = "50 ft" } }
[junction_box]
JB-1 = { model = "dunmere-jb", feeds = "MSP", run = { length = "25 ft", raceway = "EMT" } }
[panel.MSP]
existing = true
model = "dunmere-200"
main = "200 A"
feeds = "UM-1"
run = { length = "6 ft", raceway = "RMC", size = "3/0 AWG" }
electrodes = ["ground rod"]
[meter]
UM-1 = { existing = true, model = "harrowgate-200" }
)";

std::vector<MaterialItem> items_of(const System& system) {
    return take_off(system, make_study(system, CodeBook(system.edition)));
}

std::vector<MaterialItem> small(const std::vector<Change>& changes = {}) {
    std::string description = small_job;
    std::string catalogue = example::file_text("catalogue.toml");
    for (const Change& change : changes)
        example::apply(change, description, catalogue);
    SourceFiles sources;
    Findings findings;
    const auto system = read_system_text(description, catalogue, sources, findings);
    for (const Finding& finding : findings)
        UNSCOPED_INFO(print(finding, sources, false));
    REQUIRE(system);
    return items_of(*system);
}

const MaterialItem* find(const std::vector<MaterialItem>& items, const std::string& start) {
    for (const MaterialItem& item : items)
        if (item.description.starts_with(start))
            return &item;
    return nullptr;
}

/// To be ordered of the first item whose description begins so; 0: there is none.
int ordered(const std::vector<MaterialItem>& items, const std::string& start) {
    const MaterialItem* item = find(items, start);
    return item ? item->quantity() : 0;
}

/// All that is drawn of wire, whatever size and color.
double wire_drawn(const std::vector<MaterialItem>& items) {
    double sum = 0;
    for (const MaterialItem& item : items)
        if (item.group == MaterialGroup::wire)
            sum += item.net;
    return sum;
}

} // namespace

TEST_CASE("a small system, counted by hand") {
    const auto items = small();
    CHECK(ordered(items, "PV module") == 7);
    CHECK(ordered(items, "Microinverter") == 7);
    // Drops 6 ft apart in landscape: 50 ft / 6 ft = 8.3, so 9 drops; 9 - 7 = 2 of them unused.
    CHECK(ordered(items, "Trunk cable, 12 AWG, drops 6 ft apart, landscape") == 9);
    CHECK(ordered(items, "Cap of an unused drop") == 2);
    CHECK(ordered(items, "End cap of trunk cable") == 1);
    // 9 drops x 6 ft = 54 ft, longer than the 50 ft stated; one clip every 2 ft: 27.
    CHECK(ordered(items, "Cable clip, trunk cable") == 27);
    CHECK(find(items, "Trunk cable")->model == "WT-12L");
    CHECK(find(items, "End cap")->model == "WT-E");
    // 25 ft of each, 10 % waste: 27.5 ft, so 28 ft. The smallest size used is 12 AWG, on 15 A.
    CHECK(ordered(items, "Wire, 12 AWG CU THWN-2, black") == 28);
    CHECK(ordered(items, "Wire, 12 AWG CU THWN-2, red") == 28);
    // Table 250.122: 14 AWG copper for 15 A, which grows with wires that are larger than needed for
    // another reason than the voltage, 250.122(B).
    CHECK(ordered(items, "Wire, 12 AWG CU THWN-2, green") == 28);
    CHECK(ordered(items, "Wire, 12 AWG CU THWN-2, white") == 0);
    CHECK(ordered(items, "1/2\" EMT") == 28);
    // 25 ft of 10 ft lengths: three lengths, two couplings.
    CHECK(ordered(items, "Coupling, 1/2\" EMT") == 2);
    CHECK(ordered(items, "Connector, 1/2\" EMT") == 2);
    // At 3, 13 and 22 ft: within 3 ft of both ends, never more than 10 ft apart, 358.30(A).
    CHECK(ordered(items, "Strap, 1/2\" EMT") == 3);
    // 7 x 1.42 A = 9.94 A, x 1.25 = 12.43 A: 15 A, of the panel's list.
    CHECK(ordered(items, "Circuit breaker, 15 A, 2-pole") == 1);
    CHECK(find(items, "Circuit breaker")->model == "DQ-2");
    CHECK(find(items, "Circuit breaker")->maker == "Dunmere");
}

TEST_CASE("what exists is not bought") {
    const auto items = small();
    for (const MaterialItem& item : items) {
        CAPTURE(item.description);
        CHECK(item.model != "DP-200");
        CHECK(item.model != "HM-200");
        CHECK(item.description.find("RMC") == std::string::npos);
        CHECK(item.description.find("3/0") == std::string::npos);
        CHECK(item.group != MaterialGroup::grounding);
    }
    const auto renewed =
        small({{"existing = true\nmodel = \"dunmere-200\"", "model = \"dunmere-200\""}});
    CHECK(ordered(renewed, "Ground rod") == 1);
    CHECK(ordered(renewed, "Circuit breaker, 200 A, 2-pole") == 1);
    CHECK(find(renewed, "Grounding electrode conductor")->measured_on_site);
}

TEST_CASE("colors follow the lines of the supply") {
    // 200.6: grounded conductor white or gray; 250.119: equipment ground green. Black, red, blue
    // and brown, orange, yellow: common practice, no source.
    const auto colors_of = [](const std::string& job) {
        std::set<std::string> colors;
        for (const MaterialItem& item :
             items_of(Case("examples/tolliver-bend/" + job + ".toml").system)) {
            const auto comma = item.description.find(", ", item.description.find(", ") + 1);
            if (item.group == MaterialGroup::wire && comma != std::string::npos)
                colors.insert(item.description.substr(comma + 2));
        }
        return colors;
    };
    CHECK(colors_of("brickfield").contains("blue")); // 120/208 V
    CHECK_FALSE(colors_of("brickfield").contains("orange"));
    CHECK(colors_of("gasworks").contains("orange, or black marked orange")); // 277/480 V
    CHECK_FALSE(colors_of("gasworks").contains("blue"));
    const WireColors& high = practice_of_trade().colors(Volts{480});
    CHECK(high.lines == std::array<std::string, 3>{"brown", "orange", "yellow"});
    CHECK(high.neutral == "gray");
    const WireColors& low = practice_of_trade().colors(Volts{240});
    CHECK(low.lines == std::array<std::string, 3>{"black", "red", "blue"});
    CHECK(low.neutral == "white");
    CHECK(practice_of_trade().ground == "green");
    // 200.6(B), 250.119: from 4 AWG on a mark at the ends will do.
    CHECK(practice_of_trade().remarked_from == parse_wire_size("4 AWG"));
}

TEST_CASE("large conductors may be marked, small ones may not") {
    const auto items = items_of(Case().system);
    CHECK(find(items, "Wire, 8 AWG CU THWN-2, white")->description ==
          "Wire, 8 AWG CU THWN-2, white");
    CHECK(find(items, "Wire, 3 AWG CU THWN-2, white")->description ==
          "Wire, 3 AWG CU THWN-2, white, or black marked white");
}

TEST_CASE("straps stand near the ends and no farther apart than the raceway permits") {
    const Practice& practice = practice_of_trade();
    const auto emt = *practice.strap(RacewayKind::emt, *parse_trade_size("1/2"));
    CHECK(emt.section == "358.30(A)"); // within 3 ft of boxes, 10 ft apart
    CHECK(straps_for(Feet{2}, emt) == 1);
    CHECK(straps_for(Feet{6}, emt) == 1);  // in the middle, 3 ft from both ends
    CHECK(straps_for(Feet{7}, emt) == 2);  // 3 ft and 4 ft
    CHECK(straps_for(Feet{16}, emt) == 2); // 3 ft and 13 ft
    CHECK(straps_for(Feet{17}, emt) == 3);
    // Table 352.30: 3 ft apart up to 1, 5 ft up to 2.
    const auto spacing = [&](RacewayKind kind, const char* size) {
        return practice.strap(kind, *parse_trade_size(size))->apart;
    };
    CHECK(spacing(RacewayKind::pvc40, "1") == Feet{3});
    CHECK(spacing(RacewayKind::pvc80, "1-1/4") == Feet{5});
    CHECK(spacing(RacewayKind::pvc40, "2") == Feet{5});
    CHECK(spacing(RacewayKind::fmc, "1/2") == Feet{4.5}); // 348.30(A)
    CHECK(practice.strap(RacewayKind::free_air, *parse_trade_size("1")) == nullptr);
}

TEST_CASE("straps of any length meet the rule by their own count") {
    // Straps set evenly from 3 ft to 3 ft before the end are never more than 10 ft apart.
    const auto emt = *practice_of_trade().strap(RacewayKind::emt, *parse_trade_size("1"));
    for (int feet = 7; feet < 200; ++feet) {
        const int straps = straps_for(Feet{static_cast<double>(feet)}, emt);
        CAPTURE(feet, straps);
        CHECK((feet - 6.0) / (straps - 1) <= 10.0);
        CHECK((straps == 2 || (feet - 6.0) / (straps - 2) > 10.0)); // one fewer would not do
    }
}

TEST_CASE("waste and spares are the job's where it states them") {
    const std::string head = "[branch]\n";
    const auto items = small(
        {{head, "[material]\nwaste = \"20 %\"\nspare_drops = 4\nspares = { microinverters = 2, "
                "drop_caps = 3, breakers = 1 }\n" +
                    head}});
    CHECK(ordered(items, "Wire, 12 AWG CU THWN-2, black") == 30); // 25 ft x 1.2
    CHECK(ordered(items, "Microinverter") == 9);
    CHECK(ordered(items, "Trunk cable") == 11);          // 7 + 4, more than the 9 for 50 ft
    CHECK(ordered(items, "Cap of an unused drop") == 7); // 4 unused, 3 spare
    CHECK(ordered(items, "Circuit breaker, 15 A, 2-pole") == 2);
    CHECK(ordered(items, "PV module") == 7);
    // Spares are ordered where the job itself needs none.
    const auto none_unused = small({{"length = \"50 ft\"", "length = \"28 ft\""},
                                    {head, "[material]\nspares = { drop_caps = "
                                           "2 }\n" +
                                               head}});
    CHECK(ordered(none_unused, "Trunk cable") == 7);
    CHECK(ordered(none_unused, "Cap of an unused drop") == 2);
}

TEST_CASE("a second branch alike doubles what hangs on a branch") {
    const auto one = small();
    const std::string branch = "PV-1 = { modules = 7, roof = \"South\", orientation = "
                               "\"landscape\", feeds = \"JB-1\", run = { length = \"50 ft\" } }\n";
    std::string second = branch;
    second.replace(0, 4, "PV-2");
    const auto two = small({{branch, branch + second}});
    for (const char* what : {"PV module", "Microinverter", "Trunk cable", "End cap", "Cap of an",
                             "Cable clip", "Circuit breaker, 15 A"}) {
        CAPTURE(what);
        CHECK(ordered(two, what) == 2 * ordered(one, what));
    }
    // Both circuits share a raceway and its equipment ground.
    CHECK(find(two, "Wire, 12 AWG CU THWN-2, black")->net == 50);
    CHECK(find(two, "Wire, 12 AWG CU THWN-2, green")->net == 25);
    CHECK(find(two, "1/2\" EMT")->net == 25);
}

TEST_CASE("a longer run never needs less") {
    double before = 0;
    int straps = 0;
    int drops = 0;
    for (int feet = 5; feet <= 160; feet += 5) {
        const std::string length = std::to_string(feet) + " ft";
        const auto items =
            small({{"\"25 ft\"", "\"" + length + "\""}, {"\"50 ft\"", "\"" + length + "\""}});
        CAPTURE(feet);
        CHECK(wire_drawn(items) > before);
        CHECK(ordered(items, "Strap") >= straps);
        CHECK(ordered(items, "Trunk cable") >= drops);
        before = wire_drawn(items);
        straps = ordered(items, "Strap");
        drops = ordered(items, "Trunk cable");
    }
}

TEST_CASE(
    "in every example the drops suffice for the microinverters and the unused ones are capped") {
    for (const char* job : {"ashgrove", "fernhill", "bellwether", "larkspur", "quayside",
                            "tollgate", "weavers-court", "tannery-yard"}) {
        CAPTURE(job);
        const auto items =
            items_of(Case("examples/tolliver-bend/" + std::string(job) + ".toml").system);
        int drops = 0;
        int microinverters = 0;
        int caps = 0;
        for (const MaterialItem& item : items) {
            drops += item.unit == "drop" ? static_cast<int>(item.net) : 0;
            microinverters += item.description == "Microinverter" ? static_cast<int>(item.net) : 0;
            caps += item.description == "Cap of an unused drop" ? static_cast<int>(item.net) : 0;
        }
        CHECK(microinverters > 0);
        CHECK(drops >= microinverters);
        CHECK(caps == drops - microinverters);
    }
}

TEST_CASE("without an orientation or a cable record the drops are counted all the same") {
    const auto open = small({{"orientation = \"landscape\", ", ""}});
    const MaterialItem* cable = find(open, "Trunk cable");
    REQUIRE(cable);
    CHECK(cable->model.empty());
    CHECK(cable->note == "orientation of the modules not stated");
    CHECK(cable->quantity() == 12); // 50 ft / 4.3 ft, the closer spacing: 11.6
    const auto bare = small({{"trunk_cables = [\"wickhollow-tp\", \"wickhollow-tl\"]\n", ""}});
    CHECK(find(bare, "Trunk cable")->model.empty());
    CHECK(ordered(bare, "Trunk cable") == 9);
}

TEST_CASE("strings bring connectors, clips where they hang free, and conductors by polarity") {
    const auto items = items_of(Case(example::cinder_row).system);
    REQUIRE(find(items, "PV connector, pair"));
    CHECK(find(items, "Wire, 10 AWG CU") != nullptr);
    bool red = false;
    for (const MaterialItem& item : items)
        red = red || item.description.ends_with(", red");
    CHECK(red);
    CHECK(ordered(items, "Module electronics") == 23); // one at each module: 8 + 8 + 7
    CHECK(find(items, "Trunk cable") == nullptr);
}

TEST_CASE("a breaker that the label does not list is a violation, and no model is named") {
    const Change no_small = {"breakers = [\"dunmere-q1\", \"dunmere-q2\", \"dunmere-m2\"]\n\n"
                             "[panel.dunmere-125]",
                             "breakers = [\"dunmere-q1\"]\n\n[panel.dunmere-125]"};
    const Case job({no_small});
    // The existing service panel gets the breaker of the interconnect device, 100 A with two poles.
    const Finding* finding = job.finding("breaker.listed", "breaker:Q7");
    REQUIRE(finding);
    CHECK(finding->severity == Severity::violation);
    CHECK(finding->section == "NEC 2023 110.3(B)");
    CHECK(finding->message.find("100 A with 2 poles") != std::string::npos);
    CHECK(finding->expected.find("DQ-1 (1P, 10 A to 60 A)") != std::string::npos);
    CHECK(Case().finding("breaker.listed") == nullptr);
    // Without a list nothing is known, and nothing is said.
    CHECK(Case({{"breakers = [\"dunmere-q1\", \"dunmere-q2\", \"dunmere-m2\"]\n\n"
                 "[panel.dunmere-125]",
                 "\n[panel.dunmere-125]"}})
              .finding("breaker.listed") == nullptr);
}

TEST_CASE("a surge-protective device is ordered with its new panel") {
    const auto items = items_of(Case().system);
    const MaterialItem* device = find(items, "Surge-protective device, Type 2, 20 kA");
    REQUIRE(device);
    CHECK(device->quantity() == 1);
    CHECK(device->serves == std::vector<std::string>{"BLP"});
    CHECK(find(items_of(Case({{"title = \"Backed-up load panel\"",
                               "title = \"Backed-up load panel\"\nexisting = true"}})
                            .system),
               "Surge-protective device") == nullptr);
}

TEST_CASE("control wiring is ordered by its length, with its limit beside it") {
    const auto items = items_of(Case().system);
    const MaterialItem* cable = find(items, "Control cable");
    REQUIRE(cable);
    CHECK(cable->quantity() == 66); // 60 ft and 10 %
    CHECK(cable->note == "at most 250 ft in all");
    CHECK(Case({{"length = \"60 ft\"", "length = \"260 ft\""}}).finding("accessory.control") !=
          nullptr);
}
