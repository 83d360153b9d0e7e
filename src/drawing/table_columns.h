/// Inside the drawing room: how wide the columns of a table become.
#pragma once

#include <string_view>
#include <vector>

#include "drawing/table.h"

namespace ohmfolio {

/// Follows the title on every piece after the first, and the heading of a group that goes on there.
inline constexpr std::string_view continued_suffix = " (CONTINUED)";

/// The style in which `cell` is set.
TextStyle cell_style(const Cell& cell, const TableStyle& style);

/// The least width in which every word of a column stays whole, with its side padding.
std::vector<Length> least_widths(const Table& table, const TableStyle& style,
                                 const TextMeasure& measure);

/// Widths of the columns with their side padding. Natural widths where they fit; else the widest
/// left-aligned columns give way first, then the others, down to their longest word.
std::vector<Length> column_widths(const Table& table, const TableStyle& style, Length width,
                                  bool stretch, const TextMeasure& measure);

} // namespace ohmfolio
