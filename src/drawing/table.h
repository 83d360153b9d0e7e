/// Tables of text: the caller gives words, this room measures, wraps, rules and continues them over
/// as many areas as needed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "drawing/frame.h"
#include "drawing/measure.h"

namespace ohmfolio {

struct Column {
    std::string heading; ///< wrapped into as many lines as it needs
    Align align = Align::left;
    /// Widest the column may get before its cells wrap; zero: no limit.
    Length widest{};
    /// The heading as it is written where no drawing is made; empty: as on the drawing.
    std::string words{};
};

struct Cell {
    std::string text;
    std::string shows;  ///< what the cell shows, copied to its marks
    std::string link;   ///< anchor that a click leads to; empty: none
    std::string anchor; ///< anchor placed at this cell; empty: none
    bool bold = false;
    std::optional<Align> align{}; ///< where it differs from that of its column
    /// The text as it is written where no drawing is made; empty: as on the drawing.
    std::string words{};
};

struct Row {
    std::vector<Cell> cells;
    bool heading = false; ///< a group heading over the full width (its first cell only)
};

struct Table {
    std::string title;
    std::vector<Column> columns;
    std::vector<Row> rows;
};

struct TableStyle {
    TextStyle title, heading, body;
    Length pad_x, pad_y; ///< between text and rule
    Stroke frame, rule;
    Color heading_ground{230, 230, 230};
};

/// The table laid out at `width` at most. `height` of each piece is at most `tallest`; the heading
/// is repeated on every piece, and so is the heading of a group whose rows go on; a group heading
/// is never the last row of a piece. Columns get their natural width; room that is left is shared
/// when `stretch` is set. Below the last piece `foot` is left free for what has to stand under the
/// table.
std::vector<Frame> set_table(const Table& table, const TableStyle& style, Length width,
                             Length tallest, bool stretch, const TextMeasure& measure,
                             Length foot = {});

} // namespace ohmfolio
