#include "revision/table_cells.h"

#include <algorithm>
#include <cstddef>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>

namespace ohmfolio::revision {

namespace {

constexpr std::string_view dash = "—";

/// What a row is called and by which paragraph.
constexpr std::size_t label_columns = 2;

using RowOfTable = std::pair<std::size_t, std::size_t>;
using ColumnOfTable = std::pair<std::size_t, std::size_t>;

RowOfTable row_of(const Piece& piece) { return {piece.cell->table, piece.cell->row}; }
ColumnOfTable column_of(const Piece& piece) { return {piece.cell->table, piece.cell->column}; }

bool is_dash(const Piece& piece) { return piece.words == dash; }

class Tables {
  public:
    Tables(const std::vector<Piece>& all, const Steps& steps) : steps_(steps) {
        for (const Piece& piece : all) {
            if (!piece.cell)
                continue;
            if (piece.cell->row == 0) {
                head(piece);
                continue;
            }
            Row& row = rows_[row_of(piece)];
            if (piece.cell->column == 0)
                row.label += piece.words;
            if (!is_dash(piece))
                row.cells.push_back(&piece);
        }
        for (auto& [at, row] : rows_)
            std::erase(row.label, ' ');
    }

    bool stayed(const Piece& piece) const {
        if (!piece.cell || piece.cell->row == 0)
            return false;
        const Row& row = rows_.at(row_of(piece));
        if (piece.cell->column >= label_columns)
            return cell_stayed(piece, row);
        bool any = false;
        for (const Piece* cell : row.cells) {
            if (cell->cell->column < label_columns)
                continue;
            if (!cell_stayed(*cell, row))
                return false;
            any = true;
        }
        return any;
    }

    /// Most of what the row says is among `unpaired`.
    std::set<RowOfTable> new_rows(const std::vector<Piece>& unpaired) const {
        std::map<RowOfTable, std::size_t> news;
        for (const Piece& piece : unpaired) {
            if (piece.cell && !is_dash(piece))
                ++news[row_of(piece)];
        }
        std::set<RowOfTable> rows;
        for (const auto& [at, count] : news) {
            const auto row = rows_.find(at);
            if (row != rows_.end() && count * 2 >= row->second.cells.size())
                rows.insert(at);
        }
        return rows;
    }

  private:
    struct Row {
        std::string label;
        std::vector<const Piece*> cells; ///< that say something
    };
    struct Column {
        std::set<std::string> subjects;
        bool as_a_run = false; ///< "C1–C60": not all are named
    };

    void head(const Piece& piece) {
        if (piece.shows.empty())
            return;
        Column& column = columns_[column_of(piece)];
        column.subjects.insert(piece.shows);
        column.as_a_run = column.as_a_run || piece.words.find("–") != std::string::npos;
    }

    bool cell_stayed(const Piece& piece, const Row& row) const {
        const auto column = columns_.find(column_of(piece));
        if (column == columns_.end() || column->second.as_a_run)
            return false;
        std::set<std::string> subjects = column->second.subjects;
        if (subjects.size() == 1)
            subjects = {piece.shows};
        else if (!subjects.contains(piece.shows))
            return false;
        return std::ranges::all_of(subjects, [&](const std::string& subject) {
            return steps_.stayed(subject, row.label);
        });
    }

    const Steps& steps_;
    std::map<RowOfTable, Row> rows_;
    std::map<ColumnOfTable, Column> columns_;
};

} // namespace

std::vector<Piece> without_what_stayed(std::vector<Piece> unpaired, const std::vector<Piece>& all,
                                       const Steps& steps) {
    const Tables tables(all, steps);
    std::erase_if(unpaired, [&](const Piece& piece) { return tables.stayed(piece); });
    const auto rows = tables.new_rows(unpaired);
    std::erase_if(unpaired, [&](const Piece& piece) {
        return piece.cell && is_dash(piece) && rows.contains(row_of(piece));
    });
    return unpaired;
}

} // namespace ohmfolio::revision
