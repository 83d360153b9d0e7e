/// How wide the label, the sections and the columns of a matrix become, and which columns stand on
/// one piece.
#pragma once

#include <numeric>
#include <string>
#include <string_view>
#include <vector>

#include "sheet/calculation_matrix.h"

namespace ohmfolio::sheets {

inline constexpr std::string_view no_such_step = "—";
/// Between lettering and rule: many columns stand side by side, closer than in a schedule.
inline Length matrix_pad() { return points(2.6); }

/// A line of lettering, ready to be set.
struct SetLine {
    std::string text;
    bool bold = false;
};
/// "0.0665 ≤ 0.1216   PASS": the lines of a cell on one.
SetLine one_line(const MatrixCell& cell);

/// A name in the heading of a column, or a run of names where there are many: "C1–C60,".
struct HeadingName {
    std::string words;
    std::vector<const MatrixSource*> sources;
};
std::vector<HeadingName> heading_names(const MatrixColumn& column);

/// Widths of one piece: label, section, then its columns.
struct MatrixWidths {
    Length label, section;
    std::vector<Length> columns;
    Length total() const {
        return std::accumulate(columns.begin(), columns.end(), label + section);
    }
};

/// One past the last column of the piece that begins with `first`. Pieces are about equal.
std::size_t last_column(const CalculationMatrix& matrix, std::size_t first, Length width,
                        const Job& job);
MatrixWidths matrix_widths(const CalculationMatrix& matrix, std::size_t first, std::size_t end,
                           Length width, const Job& job);

} // namespace ohmfolio::sheets
