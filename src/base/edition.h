/// Editions of NFPA 70, the National Electrical Code, that the code book knows.
#pragma once

#include <array>
#include <compare>
#include <optional>
#include <string>
#include <string_view>

namespace ohmfolio {

enum class Edition { nec2017 = 2017, nec2020 = 2020, nec2023 = 2023 };

inline constexpr std::array<Edition, 3> all_editions = {Edition::nec2017, Edition::nec2020,
                                                        Edition::nec2023};

/// "NEC 2023" or "2023".
std::optional<Edition> parse_edition(std::string_view text);
std::string name(Edition edition); ///< "NEC 2023"

} // namespace ohmfolio
