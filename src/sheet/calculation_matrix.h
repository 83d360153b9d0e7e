/// What is worked out alike for many circuits, raceways or branches as one table: a row for each
/// step, a column for each of them. What a row has in common stands once at its left; what differs
/// stands in the cell. Columns that would read the same are one.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "sheet/calculation_words.h"
#include "sheet/pages.h"

namespace ohmfolio::sheets {

/// The steps of one circuit, raceway or branch.
struct MatrixSource {
    std::string name;    ///< "C5"
    std::string subject; ///< "circuit:C5"
    std::string anchor;  ///< "calc:C5"; empty: none
    std::string link;    ///< "schedule:C5"; empty: none
    std::vector<const Derivation*> lines;
};

/// One line of lettering in a cell, wrapped only when the column is too narrow.
struct CellLine {
    std::string text;
    bool bold = false;
    bool wraps = false; ///< words, which do not ask for a wider column
    friend bool operator==(const CellLine&, const CellLine&) = default;
};

struct MatrixCell {
    std::vector<CellLine> lines; ///< none: the column has no such step
    std::string shows;
};

struct MatrixRow {
    std::string title;
    std::string working;                ///< "I_req = 1.25 × I_C", a formula
    std::vector<std::string> constants; ///< "I_inv = 1.42 A": names that no row shows
    std::string remark;                 ///< table, rounding, what is the same in all columns
    std::string section;
    std::vector<MatrixCell> cells; ///< parallel to the columns
};

struct MatrixColumn {
    std::vector<const MatrixSource*> sources; ///< that read the same
};

struct CalculationMatrix {
    std::string title;
    std::string subject; ///< what its title shows
    std::string anchor;  ///< at its title; empty: none
    std::vector<MatrixColumn> columns;
    std::vector<MatrixRow> rows;
    std::vector<std::string> notes; ///< numbered from 1, below the table
};

/// `known` names symbols whose values stand near the table.
CalculationMatrix make_matrix(const std::string& title, const std::vector<MatrixSource>& sources,
                              const std::set<std::string>& known, const TriedSteps& tried,
                              const Job& job);

/// How a matrix stands on paper. Columns that do not fit the width go on in a further piece, rows
/// that do not fit the height too, each under its heading again. The first piece is at most `first`
/// high, the others `height`; it is left out when `first` holds less than three rows.
struct MatrixRoom {
    Length width, first, height;
};
struct MatrixPieces {
    bool starts_below = false; ///< the first piece stands in the room that was left
    std::vector<Frame> frames;
};
MatrixPieces set_matrix(const CalculationMatrix& matrix, const MatrixRoom& room, const Job& job);

} // namespace ohmfolio::sheets
