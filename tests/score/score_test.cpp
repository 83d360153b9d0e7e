// A change that makes drawings worse is seen: scores of all examples against those last accepted.
#include "catch.h"
#include "drawn/score.h"

using namespace ohmfolio::drawn;

TEST_CASE("the drawings of the examples are as good as they were (at length)") {
    INFO("where the new drawings are the better ones: scripts/score --accept");
    CHECK(score_table() == repository_text("tests/score/scores.txt"));
}

TEST_CASE("power wires of no example cross (at length)") {
    for (const std::string& path : example_jobs()) {
        INFO(path);
        const Score of_example = score(*draw_file(path));
        CHECK(of_example.pages >= 1);
        CHECK(of_example.power_crossings == 0);
    }
}
