/// Words for conductors and raceways that every room shares. Properties (ampacity, area,
/// resistance) are the code book's business.
#pragma once

#include <array>
#include <compare>
#include <optional>
#include <string>
#include <string_view>

namespace ohmfolio {

/// A conductor size of the American tables, smallest first: 18 AWG ... 4/0 AWG, 250 ... 1000 kcmil.
/// `step` indexes `wire_size_names`; a larger step is a larger conductor.
struct WireSize {
    int step = 0;
    friend constexpr auto operator<=>(WireSize, WireSize) = default;
};

inline constexpr std::array<std::string_view, 27> wire_size_names = {
    "18",  "16",  "14",  "12",  "10",  "8",   "6",   "4",    "3",
    "2",   "1",   "1/0", "2/0", "3/0", "4/0", "250", "300",  "350",
    "400", "500", "600", "700", "750", "800", "900", "1000", "1250"};

/// "8 AWG", "8", "#8", "250 kcmil" and "250" are understood; nothing else is.
std::optional<WireSize> parse_wire_size(std::string_view text);
/// "8" or "250": the key used in tables.
std::string_view key(WireSize size);
/// "8 AWG" or "250 kcmil".
std::string name(WireSize size);

enum class Material { copper, aluminum };
enum class Insulation { thwn_2, xhhw_2, use_2, pv_wire, trunk_cable, bare };
enum class RacewayKind { emt, pvc40, pvc80, rmc, fmc, lfmc, lfnc, free_air, cable };

std::optional<Material> parse_material(std::string_view text);
std::optional<Insulation> parse_insulation(std::string_view text);
std::optional<RacewayKind> parse_raceway_kind(std::string_view text);
std::string_view name(Material material);     ///< "CU"
std::string_view name(Insulation insulation); ///< "THWN-2"
std::string_view name(RacewayKind kind);      ///< "EMT", "PVC SCH 40"

/// Trade sizes 1/2 to 4 as the tables write them: "1/2", "3/4", "1", "1-1/4" ...
struct TradeSize {
    int step = 0;
    friend constexpr auto operator<=>(TradeSize, TradeSize) = default;
};
inline constexpr std::array<std::string_view, 10> trade_size_names = {
    "1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3", "3-1/2", "4"};
std::optional<TradeSize> parse_trade_size(std::string_view text);
std::string_view name(TradeSize size);

} // namespace ohmfolio
