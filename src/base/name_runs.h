/// Numbered names written short: "Q1 TO Q4".
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace ohmfolio {

/// The names in counting order: those of one stem together, in the order in which stems first
/// occur, by their numbers. What is returned are places in `names`.
std::vector<std::size_t> counting_order(const std::vector<std::string>& names);

/// Successive names written as one: `count` of them from the one at `first` on.
struct NameRun {
    std::size_t first = 0, count = 1;
};
/// Runs of names that count up by one, three or more; all others stand alone.
std::vector<NameRun> name_runs(const std::vector<std::string>& names);
/// "Q1-Q4", or the name that stands alone.
std::string run_words(const std::vector<std::string>& names, const NameRun& run,
                      std::string_view between);

/// In counting order, names that count up by one, three or more in a row, are written as the first
/// and the last with `between` them; all are joined by commas. Past `most` such pieces the rest is
/// only counted where that is shorter: "PV-1 to PV-6, PV-9, PV-12, and 4 more".
std::string runs(const std::vector<std::string>& names, std::string_view between,
                 std::size_t most = 3);
inline constexpr std::size_t all_pieces = static_cast<std::size_t>(-1);

} // namespace ohmfolio
