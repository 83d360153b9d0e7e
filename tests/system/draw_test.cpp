/// The main job: one description in, a packet out.
#include <regex>

#include "catch.h"
#include "packet.h"

using namespace ohmfolio::test;

TEST_CASE("draw writes the PDF, an SVG for each sheet, a CSV for each schedule and the report") {
    const DrawnPacket& packet = example_packet();
    std::vector<std::string> expected{"ashgrove.pdf", "report.json"};
    for (const std::string& sheet : packet.sheet_numbers()) {
        expected.push_back("ashgrove-" + sheet + ".svg");
    }
    for (const char* table : {"material", "conductors", "raceways", "overcurrent", "disconnects",
                              "equipment", "panels", "metering"})
        expected.push_back(std::string("ashgrove-") + table + ".csv");
    std::sort(expected.begin(), expected.end());
    CHECK(names_in(packet.folder()) == expected);
    CHECK(packet.outcome().out.find(packet.pdf().string()) != std::string::npos);
    CHECK(packet.outcome().err == ""); // nothing to remark on the house that we show
}

TEST_CASE("the kinds of sheets that a packet needs are there, numbered by discipline and type") {
    // US National CAD Standard, sheet identification: discipline, sheet type, sequence; G-0 is
    // general, E-6 is electrical schedules and diagrams.
    const DrawnPacket& packet = example_packet();
    CHECK(packet.sheet_numbers().front() == "G-001");
    CHECK(packet.sheets_titled("SINGLE-LINE DIAGRAM") == std::vector<std::string>{"E-601"});
    for (const auto& [title, series] : std::map<std::string, std::string>{{"GENERAL", "G-0"},
                                                                          {"SCHEDULES", "E-6"},
                                                                          {"CALCULATIONS", "E-6"},
                                                                          {"MATERIAL LIST", "E-6"},
                                                                          {"PLACARDS", "E-6"}}) {
        CAPTURE(title);
        CHECK_FALSE(packet.sheets_titled(title).empty());
        for (const std::string& number : packet.sheets_titled(title)) {
            CHECK(number.starts_with(series));
        }
    }
    const std::regex form("[GE]-[0-9]{3}");
    for (const std::string& number : packet.sheet_numbers()) {
        CHECK(std::regex_match(number, form));
    }
}

TEST_CASE("without --out the packet is in a folder of its own where the user stands") {
    const TemporaryFolder folder;
    const Outcome drawn = run_ohmfolio({"draw", ashgrove().string()}, {.folder = folder.path()});
    CAPTURE(drawn.err);
    CHECK(drawn.exit_code == 0);
    CHECK(names_in(folder.path()) == std::vector<std::string>{"packet"});
    CHECK(std::filesystem::is_regular_file(folder.path() / "packet" / "ashgrove.pdf"));
    CHECK(drawn.out.find("packet/ashgrove.pdf") != std::string::npos);
}

TEST_CASE("a packet drawn again takes the place of the one before") {
    const TemporaryFolder folder;
    const std::string out = (folder.path() / "packet").string();
    REQUIRE(run_ohmfolio({"draw", ashgrove().string(), "--out", out}).exit_code == 0);
    const auto first = files_below(out);
    write_file(folder.path() / "packet" / "ashgrove.pdf", "an older issue");
    REQUIRE(run_ohmfolio({"draw", ashgrove().string(), "--out", out}).exit_code == 0);
    CHECK((files_below(out) == first));
}

namespace {

/// Ids of derivations that some part of `node` names under "derivations" or "from".
void collect_references(const Json& node, std::vector<std::string>& ids) {
    if (node.is_array() || node.is_object()) {
        for (const auto& [key, value] : node.items()) {
            const bool refers = key == "from" || (key == "derivations" && value.is_array());
            if (refers && value.is_array() && !value.empty() && value.front().is_string()) {
                for (const Json& id : value) {
                    ids.push_back(id);
                }
            } else {
                collect_references(value, ids);
            }
        }
    }
}

} // namespace

TEST_CASE("every derivation that the report refers to is in the report") {
    const Json& report = example_packet().report();
    std::vector<std::string> known;
    for (const Json& derivation : report.at("derivations")) {
        known.push_back(derivation.at("id"));
    }
    std::sort(known.begin(), known.end());
    CHECK(std::adjacent_find(known.begin(), known.end()) == known.end());
    std::vector<std::string> used;
    collect_references(report, used);
    CHECK(used.size() > known.size());
    for (const std::string& id : used) {
        CAPTURE(id);
        CHECK(std::binary_search(known.begin(), known.end(), id));
    }
}

TEST_CASE("the report counts what the description says") {
    // 8 + 8 + 6 + 6 modules of 405 W with 340 VA each, two batteries of 10.08 kWh and 3.84 kVA.
    const Json& totals = example_packet().report().at("totals");
    CHECK(totals.at("modules") == 28);
    CHECK(totals.at("dc_W").get<double>() == Approx(28 * 405.0));
    CHECK(totals.at("ac_VA").get<double>() == Approx(28 * 340.0));
    CHECK(totals.at("storage_Wh").get<double>() == Approx(2 * 10080.0));
    CHECK(totals.at("storage_VA").get<double>() == Approx(2 * 3840.0));
    CHECK(example_packet().report().at("edition") == "NEC 2023");
    CHECK(example_packet().report().at("findings").empty());
}
