// Working space of what hangs on the walls of Ashgrove. West wall, inches from its left end: SW-1
// 102 to 110 (5 deep), CP-1 118 to 133 (6 deep, 52 to 72 high), ES-1 147 to 189 (13 deep, 18 to 44
// high), ES-2 225 to 267. Least width 30 in, least height 6.5 ft = 78 in, others reach at most 6 in
// beyond the front (see chapter_working_space.toml).
#include "catch.h"
#include "example.h"

using namespace ohmfolio;
using namespace ohmfolio::example;

namespace {

Change objects(const std::string& lines) {
    const std::string next = "[wall.\"West wall outside\".equipment]";
    return {next, "[wall.\"West wall outside\".object]\n" + lines + "\n\n" + next};
}

std::string object(const std::string& name, const std::string& left, const std::string& bottom,
                   const std::string& depth) {
    return "\"" + name + "\" = { left = \"" + left + " in\", bottom = \"" + bottom +
           " in\", width = \"4 in\", height = \"20 in\"" +
           (depth.empty() ? "" : ", depth = \"" + depth + " in\"") + " }";
}

KeptSpace space_of(const Case& job, const std::string& id) {
    for (const WallStudy& wall : job.study.walls) {
        for (const KeptSpace& space : wall.spaces) {
            if (job.system.at(space.equipment).id == id)
                return space;
        }
    }
    FAIL("no working space: " << id);
    return {};
}

const std::string cp_1 = "equipment:CP-1";

} // namespace

TEST_CASE("working space: in the middle of the equipment where nothing stands out") {
    const Case job{};
    CHECK(listed(job.study).empty());
    // Middle of CP-1: (118 + 133) / 2 = 125.5; 125.5 - 15 = 110.5, 125.5 + 15 = 140.5
    CHECK(space_of(job, "CP-1").left.value * 12 == Approx(110.5));
    CHECK(space_of(job, "CP-1").right.value * 12 == Approx(140.5));
    // Flush things are not in the way: a door, a window.
    CHECK(listed(Case{objects(object("Vent", "135", "0", ""))}.study).empty());
}

TEST_CASE("working space: moves aside for what stands out, as long as it holds the equipment") {
    // Free of CP-1 up to 135: the space goes from 135 - 30 = 105 to 135.
    const Case job{objects(object("Gas meter", "135", "0", "8"))};
    CHECK(listed(job.study).empty());
    CHECK(space_of(job, "CP-1").left.value * 12 == Approx(105));
    CHECK(space_of(job, "CP-1").right.value * 12 == Approx(135));
    // Between 112 + 4 = 116 and 146 it is just 30 in, between 116 and 145 an inch too little.
    const std::string left = object("Post", "112", "0", "4") + "\n";
    const Change farther{"ES-1 = { left = \"147 in\"", "ES-1 = { left = \"152 in\""};
    const Case fits{farther, objects(left + object("Gas meter", "146", "60", "8"))};
    CHECK(listed(fits.study).empty());
    const Case narrow{farther, objects(left + object("Gas meter", "145", "60", "8"))};
    REQUIRE(narrow.finding("space.width", cp_1) != nullptr);
    CHECK(narrow.study.derivation("CP-1.free_width").comparison.find("2.42") != std::string::npos);
    // In the middle again, 110.5 to 140.5: the post stands in it, the meter at 145 does not.
    REQUIRE(narrow.finding("space.clear", cp_1) != nullptr);
    CHECK(narrow.finding("space.clear", cp_1)->message.find("POST") != std::string::npos);
    CHECK(narrow.study.worksheet.find("CP-1.clear_GAS_METER") == nullptr);
}

TEST_CASE("working space: what stands over the equipment within 6.5 ft stands in the space") {
    const Case under{objects(object("Lamp", "120", "77", "6"))};
    REQUIRE(under.finding("space.clear", cp_1) != nullptr);
    CHECK(under.finding("space.clear", cp_1)->section == "NEC 2023 110.26(B)");
    CHECK(under.finding("space.width") == nullptr);
    CHECK(Case{objects(object("Lamp", "120", "78", "6"))}.finding("space.clear") == nullptr);
}

TEST_CASE("working space: other equipment below reaches 6 in beyond the front") {
    // ES-1 under CP-1, 0 to 26 high: 12 - 6 = 6 in beyond it are allowed, 13 - 6 = 7 are not.
    const Change below{"ES-1 = { left = \"147 in\", bottom = \"18 in\" }",
                       "ES-1 = { left = \"118 in\", bottom = \"0 in\" }"};
    const Change flat{"depth = \"13 in\"", "depth = \"12 in\""};
    CHECK(Case{below, flat}.finding("space.other") == nullptr);
    const Case deep{below};
    REQUIRE(deep.finding("space.other", cp_1) != nullptr);
    CHECK(deep.finding("space.other", cp_1)->message.find("ES-1") != std::string::npos);
    // SW-1 (102 to 110) moves aside: ES-1 begins at 118, its space ends there.
    CHECK(space_of(deep, "SW-1").right.value * 12 == Approx(118));
    CHECK(deep.finding("space.other", "equipment:SW-1") == nullptr);
}

TEST_CASE("working space: a ceiling, where one is stated, is as high as the space") {
    const auto ceiling = [](const std::string& height) {
        return Change{"ceiling = \"9 ft\"", "ceiling = \"" + height + "\""};
    };
    CHECK(Case{ceiling("78 in")}.finding("space.height") == nullptr);
    const Case low{ceiling("77 in")};
    REQUIRE(low.finding("space.height", "equipment:BLP") != nullptr);
    // The low wall outdoors has none.
    const Case outdoors{
        {"length = \"23 ft\"\nheight = \"9 ft\"", "length = \"23 ft\"\nheight = \"73 in\""}};
    CHECK(outdoors.finding("space.height") == nullptr);
}

TEST_CASE("working space: of direct current the voltage between its conductors counts") {
    // 8 modules of 37.2 V at -9 C: 8 × 37.2 × (1 + 0.0026 × 34) = 323.9 V, so that against grounded
    // parts 3.5 ft are asked for; 120 V beside it ask for 3 ft.
    const Change wall{"[project]", "[wall.North]\nlength = \"9 ft\"\nheight = \"9 ft\"\n"
                                   "opposite = \"grounded\"\nfree_depth = \"41 in\"\n"
                                   "equipment.INV-1 = { left = \"1 ft\", bottom = \"3 ft\" }\n"
                                   "equipment.SW-1 = { left = \"5 ft\", bottom = \"3 ft\" }\n\n"
                                   "[project]"};
    const Change size{"model = \"WS-7600\"",
                      "model = \"WS-7600\"\nwidth = \"15 in\"\nheight = \"21 in\""};
    const Change fused{"model = \"BD-60FS\"",
                       "model = \"BD-60FS\"\nwidth = \"8 in\"\nheight = \"13 in\""};
    const Case job(cinder_row, {wall, size, fused});
    CHECK(space_of(job, "INV-1").to_ground.value == Approx(323.9).margin(0.1));
    CHECK(space_of(job, "INV-1").depth.value == 3.5);
    CHECK(space_of(job, "SW-1").to_ground.value == 120);
    CHECK(space_of(job, "SW-1").depth.value == 3.0);
    CHECK(job.finding("space.depth", "equipment:INV-1") != nullptr); // 41 in of 42 in
    CHECK(job.finding("space.depth", "equipment:SW-1") == nullptr);
}

TEST_CASE("working space: more than 1000 V to ground is told and not judged") {
    // 25 × 40.488 V = 1012 V
    const Change wall{"[project]", "[wall.North]\nlength = \"9 ft\"\nheight = \"9 ft\"\n"
                                   "equipment.INV-1 = { left = \"1 ft\", bottom = \"3 ft\" }\n\n"
                                   "[project]"};
    const Change size{"model = \"WS-7600\"",
                      "model = \"WS-7600\"\nwidth = \"15 in\"\nheight = \"21 in\""};
    const Case job(cinder_row, {wall, size, {"ST-1 = { modules = 8", "ST-1 = { modules = 25"}});
    REQUIRE(job.finding("space.depth", "equipment:INV-1") != nullptr);
    CHECK(job.finding("space.depth")->severity == Severity::warning);
    CHECK(job.study.walls.front().spaces.empty());
}

TEST_CASE("handles: the limit stands where switches or breakers hang") {
    const Case job{};
    REQUIRE(job.study.walls.size() == 2);
    REQUIRE(job.study.walls[0].handles);
    CHECK(job.study.walls[0].handles->height.value * 12 == Approx(79)); // 6 ft 7 in
    CHECK(job.study.walls[0].handles->sections == "404.8(A), 240.24(A)");
    CHECK(job.study.walls[1].handles->sections == "240.24(A)"); // a panel alone
    const Case storage(fernhill, {{"[project]", "[wall.West]\nlength = \"9 ft\"\n"
                                                "height = \"9 ft\"\nequipment.ES-1 = "
                                                "{ left = \"1 ft\", bottom = \"1 ft\" }\n\n"
                                                "[project]"}});
    CHECK_FALSE(storage.study.walls.front().handles);
}

TEST_CASE("storage keeps 3 ft from openings that enter the dwelling") {
    // R328.4 of IRC 2021: 3 ft = 36 in. ES-1 reaches from 147 to 189, and to 18 + 26 = 44 high.
    const auto window = [](const std::string& bottom, const std::string& opens) {
        return objects("Window = { left = \"150 in\", bottom = \"" + bottom +
                       " in\", width = \"20 in\", height = \"20 in\", opens = \"" + opens + "\" }");
    };
    // 80 - 44 = 36, 79 - 44 = 35
    CHECK(Case{window("80", "dwelling")}.finding("storage.siting.opening") == nullptr);
    const Case near{window("79", "dwelling")};
    REQUIRE(near.finding("storage.siting.opening") != nullptr);
    CHECK(near.study.worksheet.find("siting.ES-2_opening") != nullptr);
    CHECK(Case{window("79", "elsewhere")}.finding("storage.siting.opening") == nullptr);
    CHECK(Case{}.study.worksheet.find("siting.ES-1_opening") == nullptr);
    // Corner to corner: 72 in high is 28 above 44, and 189 + 21 = 210 is 21 to the right:
    // √(28² + 21²) = √(784 + 441) = 35.
    const Case corner{objects("Window = { left = \"210 in\", bottom = \"72 in\", width = \"5 in\", "
                              "height = \"20 in\", opens = \"dwelling\" }")};
    CHECK(corner.finding("storage.siting.opening") != nullptr);
    CHECK(corner.study.derivation("siting.ES-1_opening").comparison.find("2.9") !=
          std::string::npos);
}
