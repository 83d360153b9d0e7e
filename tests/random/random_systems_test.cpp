// Any system that can be described can be drawn: systems made at random, each carried through all
// stages. scripts/random-systems tries as many as one likes.
#include "catch.h"
#include "drawn/random_job.h"
#include "drawn/trial.h"

using namespace ohmfolio::drawn;

namespace {

void check_systems(unsigned first, unsigned count) {
    for (unsigned number = first; number < first + count; ++number) {
        INFO("scripts/random-systems --write " << number << " FOLDER");
        const Trial trial = try_system(number);
        CHECK(trial.pieces > 0);
        for (const Fault& fault : trial.faults) {
            INFO(fault.said);
            CHECK(fault.rule.empty());
        }
    }
}

} // namespace

TEST_CASE("systems made at random are drawn clean, 1 to 75") { check_systems(1, 75); }
TEST_CASE("systems made at random are drawn clean, 76 to 150") { check_systems(76, 75); }
TEST_CASE("systems made at random are drawn clean, 151 to 225") { check_systems(151, 75); }
TEST_CASE("systems made at random are drawn clean, 226 to 300") { check_systems(226, 75); }

TEST_CASE("a number makes one system") {
    CHECK(random_job(7) == random_job(7));
    CHECK(random_job(7) != random_job(8));
}
