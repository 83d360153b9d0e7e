#include "drawing/table_columns.h"

#include <algorithm>
#include <numeric>

#include "base/line_break.h"

namespace ohmfolio {

namespace {

/// More lines than this make a heading taller than it is worth.
constexpr std::size_t most_heading_lines = 3;

struct ColumnNeed {
    Length natural; ///< no cell wraps, save at the column's own limit
    Length least;   ///< the longest word still fits
    bool text = false;
};

Length widest_line(std::string_view text, const TextStyle& style, const TextMeasure& measure) {
    Length widest;
    while (!text.empty()) {
        const auto end = text.find('\n');
        widest = std::max(widest, measure.width(text.substr(0, end), style));
        text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    }
    return widest;
}

/// A number with its unit counts as one word.
Length longest_word(std::string_view text, const TextStyle& style, const TextMeasure& measure) {
    Length longest;
    for (std::string_view rest = text;;) {
        const auto end = rest.find('\n');
        for (const std::string_view piece : line_pieces(rest.substr(0, end)))
            longest = std::max(longest, measure.width(piece, style));
        if (end == std::string_view::npos)
            return longest;
        rest.remove_prefix(end + 1);
    }
}

/// The least width at which a heading does not grow too tall.
Length heading_width(const std::string& heading, const TextStyle& style,
                     const TextMeasure& measure) {
    const Length whole = widest_line(heading, style, measure);
    Length width = longest_word(heading, style, measure);
    while (width < whole && wrapped(heading, style, width, measure).size() > most_heading_lines)
        width = std::min(whole, width + style.size / 2);
    return width;
}

ColumnNeed column_need(const Table& table, std::size_t place, const TableStyle& style,
                       const TextMeasure& measure) {
    const Column& column = table.columns[place];
    ColumnNeed need;
    need.text = column.align == Align::left;
    const Length heading = heading_width(column.heading, style.heading, measure);
    need.least = longest_word(column.heading, style.heading, measure);
    for (const Row& row : table.rows) {
        if (row.heading || place >= row.cells.size())
            continue;
        const Cell& cell = row.cells[place];
        const TextStyle look = cell_style(cell, style);
        need.natural = std::max(need.natural, widest_line(cell.text, look, measure));
        need.least = std::max(need.least, longest_word(cell.text, look, measure));
    }
    if (column.widest > Length{})
        need.natural = std::min(need.natural, column.widest);
    need.natural = std::max({need.natural, need.least, heading});
    return need;
}

Length sum(const std::vector<Length>& widths) {
    return std::accumulate(widths.begin(), widths.end(), Length{});
}

/// Lowers the columns that `may_give` to one common level, each to its least width at most, so
/// that the sum comes down to `room`, or as near as it can.
template <class MayGive>
void level(std::vector<Length>& widths, const std::vector<ColumnNeed>& needs, Length room,
           MayGive may_give) {
    const auto at_level = [&](Length top) {
        std::vector<Length> result = widths;
        for (std::size_t i = 0; i < result.size(); ++i) {
            if (may_give(needs[i]))
                result[i] = std::max(needs[i].least, std::min(result[i], top));
        }
        return result;
    };
    Length too_low;
    Length high = std::max(room, Length{1});
    if (sum(at_level(high)) <= room) {
        widths = at_level(high);
        return;
    }
    // The sum grows with the level: halve the interval down to the nanometre.
    while (high.nm - too_low.nm > 1) {
        const Length middle = (too_low + high) / 2;
        (sum(at_level(middle)) > room ? high : too_low) = middle;
    }
    widths = at_level(too_low);
}

/// The title and the group headings stand over the whole table, which had better be as wide.
Length headline_width(const Table& table, const TableStyle& style, const TextMeasure& measure) {
    Length text = std::max(widest_line(table.title, style.title, measure),
                           longest_word(continued_suffix, style.title, measure));
    if (table.title.empty())
        text = {};
    for (const Row& row : table.rows) {
        if (row.heading && !row.cells.empty())
            text = std::max(text, widest_line(row.cells.front().text, style.heading, measure));
    }
    return text + style.pad_x * 2;
}

/// Shares what is left in proportion; the last column takes what rounding leaves.
void stretch_to(std::vector<Length>& widths, Length width) {
    const Length before = sum(widths);
    if (before <= Length{} || before >= width)
        return;
    const double factor = static_cast<double>(width.nm) / static_cast<double>(before.nm);
    for (Length& column : widths)
        column = scaled(column, factor);
    widths.back() += width - sum(widths);
}

} // namespace

TextStyle cell_style(const Cell& cell, const TableStyle& style) {
    TextStyle result = style.body;
    result.bold = result.bold || cell.bold;
    return result;
}

std::vector<Length> least_widths(const Table& table, const TableStyle& style,
                                 const TextMeasure& measure) {
    std::vector<Length> widths;
    for (std::size_t i = 0; i < table.columns.size(); ++i)
        widths.push_back(column_need(table, i, style, measure).least + style.pad_x * 2);
    return widths;
}

std::vector<Length> column_widths(const Table& table, const TableStyle& style, Length width,
                                  bool stretch, const TextMeasure& measure) {
    const auto count = static_cast<std::int64_t>(table.columns.size());
    const Length room = width - style.pad_x * (2 * count);
    std::vector<ColumnNeed> needs;
    std::vector<Length> widths;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        needs.push_back(column_need(table, i, style, measure));
        widths.push_back(needs.back().natural);
    }
    if (sum(widths) > room)
        level(widths, needs, room, [](const ColumnNeed& need) { return need.text; });
    if (sum(widths) > room)
        level(widths, needs, room, [](const ColumnNeed&) { return true; });
    for (Length& column : widths)
        column += style.pad_x * 2;
    stretch_to(widths, stretch ? width : std::min(width, headline_width(table, style, measure)));
    return widths;
}

} // namespace ohmfolio
