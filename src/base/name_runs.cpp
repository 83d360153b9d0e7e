#include "base/name_runs.h"

#include <algorithm>
#include <map>
#include <utility>

#include <fmt/format.h>

#include "base/text.h"

namespace ohmfolio {

namespace {

/// "PV-12": "PV-" and 12. The number is empty where the name ends in none, or in one too long to
/// count with.
struct Numbered {
    std::string_view stem, digits;

    explicit Numbered(std::string_view name) {
        const std::size_t last = name.find_last_not_of("0123456789");
        const std::size_t end = last == std::string_view::npos ? 0 : last + 1;
        stem = name.substr(0, end);
        digits = name.size() - end <= 9 ? name.substr(end) : std::string_view();
    }
    bool next_is(const Numbered& other) const {
        return !digits.empty() && !other.digits.empty() && stem == other.stem &&
               other.digits.front() != '0' &&
               std::stol(std::string(other.digits)) == std::stol(std::string(digits)) + 1;
    }
};

constexpr std::size_t shortest_run = 3;

} // namespace

std::vector<std::size_t> counting_order(const std::vector<std::string>& names) {
    std::map<std::string_view, std::size_t> stems; // by the place where they first occur
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < names.size(); ++i) {
        stems.try_emplace(Numbered(names[i]).stem, i);
        order.push_back(i);
    }
    const auto key = [&](std::size_t i) {
        const Numbered name(names[i]);
        const long number = name.digits.empty() ? 0 : std::stol(std::string(name.digits));
        return std::pair(stems.at(name.stem), number);
    };
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return key(a) < key(b); });
    return order;
}

std::vector<NameRun> name_runs(const std::vector<std::string>& names) {
    std::vector<NameRun> runs;
    for (std::size_t i = 0; i < names.size(); i += runs.back().count) {
        std::size_t end = i + 1;
        while (end < names.size() && Numbered(names[end - 1]).next_is(Numbered(names[end]))) {
            ++end;
        }
        runs.push_back({i, end - i >= shortest_run ? end - i : 1});
    }
    return runs;
}

std::string run_words(const std::vector<std::string>& names, const NameRun& run,
                      std::string_view between) {
    return run.count == 1
               ? names[run.first]
               : names[run.first] + std::string(between) + names[run.first + run.count - 1];
}

std::string runs(const std::vector<std::string>& unordered, std::string_view between,
                 std::size_t most) {
    std::vector<std::string> names, words;
    for (const std::size_t i : counting_order(unordered)) {
        names.push_back(unordered[i]);
    }
    std::size_t told = 0; // names in the first `most` pieces
    for (const NameRun& run : name_runs(names)) {
        told += words.size() < most ? run.count : 0;
        words.push_back(run_words(names, run, between));
    }
    const std::string all = join(words, ", ");
    if (names.size() - told < 2) {
        return all;
    }
    words.resize(most);
    words.push_back(fmt::format("and {} more", names.size() - told));
    const std::string counted = join(words, ", ");
    return counted.size() < all.size() ? counted : all;
}

} // namespace ohmfolio
