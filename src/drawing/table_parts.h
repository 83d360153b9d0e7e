/// Tables wider than the paper.
#pragma once

#include <vector>

#include "drawing/table.h"

namespace ohmfolio {

/// `table` itself where its columns go into `width` with every word whole. Else the fewest tables
/// that do, about equally wide, each beginning with the first column, by which rows are known;
/// anchors stay with the first of them.
std::vector<Table> parted(const Table& table, const TableStyle& style, Length width,
                          const TextMeasure& measure);

} // namespace ohmfolio
