#include "drawing/table_parts.h"

#include <algorithm>
#include <numeric>

#include <fmt/format.h>

#include "drawing/table_columns.h"

namespace ohmfolio {

namespace {

/// Columns after the first, by part: each part takes columns while they go into `room`.
using Parts = std::vector<std::vector<std::size_t>>;

Parts filled(const std::vector<Length>& widths, Length room) {
    Parts parts;
    Length used{};
    for (std::size_t i = 1; i < widths.size(); ++i) {
        if (parts.empty() || used + widths[i] > room) {
            parts.emplace_back();
            used = {};
        }
        parts.back().push_back(i);
        used += widths[i];
    }
    return parts;
}

/// As few parts as `room` asks for, and then as narrow as that many can be.
Parts evened(const std::vector<Length>& widths, Length room) {
    const std::size_t count = filled(widths, room).size();
    Length low = *std::max_element(widths.begin(), widths.end());
    Length high = std::max(room, low);
    while (high.nm - low.nm > 1) {
        const Length middle = (low + high) / 2;
        (filled(widths, middle).size() > count ? low : high) = middle;
    }
    return filled(widths, high);
}

Table part_of(const Table& table, const std::vector<std::size_t>& columns, bool first) {
    Table part;
    part.columns.push_back(table.columns.front());
    for (const std::size_t column : columns)
        part.columns.push_back(table.columns[column]);
    for (const Row& row : table.rows) {
        Row cut{{}, row.heading};
        if (!row.cells.empty())
            cut.cells.push_back(row.cells.front());
        for (const std::size_t column : columns) {
            if (column < row.cells.size())
                cut.cells.push_back(row.cells[column]);
        }
        if (!first) {
            for (Cell& cell : cut.cells)
                cell.anchor.clear();
        }
        part.rows.push_back(std::move(cut));
    }
    return part;
}

} // namespace

std::vector<Table> parted(const Table& table, const TableStyle& style, Length width,
                          const TextMeasure& measure) {
    const std::vector<Length> widths = least_widths(table, style, measure);
    const Length whole = std::accumulate(widths.begin(), widths.end(), Length{});
    if (whole <= width || widths.size() < 3)
        return {table};
    const Parts parts = evened(widths, width - widths.front());
    std::vector<Table> tables;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        Table part = part_of(table, parts[i], i == 0);
        part.title = fmt::format("{}, PART {} OF {}", table.title, i + 1, parts.size());
        tables.push_back(std::move(part));
    }
    return tables;
}

} // namespace ohmfolio
