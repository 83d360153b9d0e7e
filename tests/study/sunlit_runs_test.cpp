// NEC 310.15(B)(2) of 2023 (310.15(B)(3)(c) of 2017): what lies closer to a roof in sunlight than
// the code's distance is reckoned hotter. That a height which nobody measured must not pass for
// shade is common practice, no source.
#include "catch.h"

#include "example.h"

using namespace ohmfolio;
using namespace ohmfolio::example;

namespace {

const std::string brickfield = "examples/tolliver-bend/brickfield.toml";

const Change bare{R"(run = { length = "110 ft", raceway = "EMT", above_roof = "1 in" })",
                  R"(run = { length = "110 ft", raceway = "EMT" })"};
const Change below_deck{bare.from,
                        R"(run = { length = "110 ft", raceway = "EMT", ambient = "45 C" })"};

std::ptrdiff_t told(const Study& study) {
    return std::ranges::count(study.findings, "raceway.above_roof", &Finding::rule);
}

} // namespace

TEST_CASE("a raceway that leaves a roof at no stated height is told of, many of a kind once") {
    for (const Edition edition : all_editions) {
        const Case hall(brickfield, {bare}, edition);
        const Finding* finding = hall.finding("raceway.above_roof");
        REQUIRE(finding != nullptr);
        CHECK(finding->severity == Severity::warning);
        CHECK(finding->message.find("MAIN ROOF") != std::string::npos);
        CHECK(told(hall.study) == 1);
    }
    CHECK(Case(brickfield).finding("raceway.above_roof") == nullptr);
    // Another temperature tells what it passes.
    CHECK(Case(brickfield, {below_deck}).finding("raceway.above_roof") == nullptr);
}
