/// Many alike, written once: `"INV-1 to INV-30" = { ... }` stands for thirty tables, each under its
/// own id. What one of them names may be a range too: `feeds = "CP-1 to CP-6"` shares the thirty
/// out, five in a row to each.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace ohmfolio {

struct IdRange {
    std::string stem; ///< "INV-"
    int first = 0, last = 0;
    std::size_t digits = 0; ///< least number of them: 2 in "INV-01 to INV-30"

    int count() const { return last - first + 1; }
    std::string id(int n) const; ///< n from 0
};

/// Whether it means to be a range; it may be faulty still.
bool is_id_range(std::string_view text);
/// Nothing where the two ends are not of one name, with numbers that rise, or are too many.
std::optional<IdRange> parse_id_range(std::string_view text);

/// The id for the n-th of `count`, where `text` is an id or a range: ranges are shared out evenly.
/// Nothing where the range is faulty or the numbers do not divide.
std::optional<std::string> id_for(std::string_view text, int n, int count);

} // namespace ohmfolio
