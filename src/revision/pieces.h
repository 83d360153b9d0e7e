/// What a set says, piece by piece: a cell of a table, a paragraph, a line of lettering, a symbol.
/// Pieces are what is compared between two issues and what a cloud goes around.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "drawing/measure.h"
#include "drawing/sheet.h"

namespace ohmfolio::revision {

/// Where a piece stands in a table: both counted from 0, and the first row heads the columns.
struct TablePlace {
    std::size_t table = 0; ///< different for each table of a set, and for each part of one
    std::size_t row = 0, column = 0;
};

/// A view to scale that a piece stands in.
struct ViewPlace {
    std::string name;
    Point zero; ///< of its coordinates on the sheet
};

struct Piece {
    /// What it says: two pieces that say the same are the same, wherever they stand. Lettering says
    /// its words, however they are broken into lines; a symbol its shape; a wire what it joins, not
    /// its way; what is drawn to scale also where it is. Notes say the same under another number.
    std::string says;
    std::string shows;     ///< "circuit:C3"; empty for furniture
    std::string words;     ///< of lettering
    std::size_t sheet = 0; ///< index in the packet
    std::vector<Box> ink;  ///< where it stands
    /// Repeated from page to page, as headings and title blocks are: new only when no page of the
    /// other issue has it.
    bool repeated = false;
    std::optional<TablePlace> cell = {};
    std::optional<ViewPlace> view = {};
};

/// Pieces in the order in which they are read. Marks of the issue itself are left out, and lines
/// that only serve others: rules, leaders, grounds.
std::vector<Piece> pieces_of(const Packet& packet, const TextMeasure& measure);

} // namespace ohmfolio::revision
