#include "revision/alignment.h"

#include <random>
#include <set>

#include "catch.h"

using ohmfolio::revision::partners;

namespace {

std::vector<bool> all(const std::vector<int>& list, bool value) {
    return std::vector<bool>(list.size(), value);
}

/// The longest common sequence by its textbook recurrence.
std::size_t longest_common(const std::vector<int>& a, const std::vector<int>& b) {
    std::vector<std::vector<std::size_t>> best(a.size() + 1,
                                               std::vector<std::size_t>(b.size() + 1));
    for (std::size_t i = 1; i <= a.size(); ++i) {
        for (std::size_t j = 1; j <= b.size(); ++j)
            best[i][j] = a[i - 1] == b[j - 1] ? best[i - 1][j - 1] + 1
                                              : std::max(best[i - 1][j], best[i][j - 1]);
    }
    return best.back().back();
}

} // namespace

TEST_CASE("what is inserted has no partner, what is around it has") {
    CHECK(partners({1, 2, 3}, {1, 9, 2, 3}, all({1, 9, 2, 3}, false)) ==
          std::vector<int>{0, -1, 1, 2});
    CHECK(partners({}, {4}, {false}) == std::vector<int>{-1});
    CHECK(partners({4}, {}, {}).empty());
}

TEST_CASE("of two equal figures the one that stands where it stood is the old one") {
    // A figure that became equal to the one after it: the first of the two is new.
    CHECK(partners({7, 14, 8, 28, 9}, {7, 28, 8, 28, 9}, all({7, 28, 8, 28, 9}, false)) ==
          std::vector<int>{0, -1, 2, 3, 4});
}

TEST_CASE("what is known by itself may move alone, a figure only with its neighbours") {
    const std::vector<int> older{5, 1, 2, 3, 4}, newer{1, 2, 3, 4, 5};
    CHECK(partners(older, newer, all(newer, true)).back() == 0);
    CHECK(partners(older, newer, all(newer, false)).back() == -1);
    const std::vector<int> block{5, 6, 7, 1, 2, 3, 4}, moved{1, 2, 3, 4, 5, 6, 7};
    const std::vector<int> found = partners(block, moved, all(moved, false));
    CHECK(std::vector<int>(found.end() - 3, found.end()) == std::vector<int>{0, 1, 2});
}

TEST_CASE("partners are equal, each once, and no fewer than a common sequence has") {
    std::mt19937 random(11);
    for (int round = 0; round < 300; ++round) {
        std::vector<int> older(random() % 30), newer(random() % 30);
        for (auto* list : {&older, &newer}) {
            for (int& entry : *list)
                entry = static_cast<int>(random() % 12);
        }
        const std::vector<int> found = partners(older, newer, all(newer, true));
        REQUIRE(found.size() == newer.size());
        std::set<int> taken;
        std::size_t paired = 0;
        for (std::size_t i = 0; i < found.size(); ++i) {
            if (found[i] < 0)
                continue;
            ++paired;
            CHECK(older.at(static_cast<std::size_t>(found[i])) == newer[i]);
            CHECK(taken.insert(found[i]).second);
        }
        CHECK(paired >= longest_common(older, newer));
    }
}
