#include "sheet/calculation_matrix_widths.h"

#include <algorithm>

#include "base/name_runs.h"
#include "sheet/formula.h"

namespace ohmfolio::sheets {

namespace {

class ColumnWidths {
  public:
    ColumnWidths(const CalculationMatrix& matrix, Length width, const Job& job)
        : matrix_(matrix), width_(width), job_(job) {}

    /// One past the last column of the piece that begins with `first`. Pieces are about equal.
    std::size_t last_column(std::size_t first) const {
        const Length room = width_ - least_label() - section_width();
        Length all{};
        for (std::size_t i = first; i < matrix_.columns.size(); ++i)
            all += least(i);
        const auto pieces = std::max<std::int64_t>(1, (all.nm + room.nm - 1) / room.nm);
        const Length share = pieces == 1 ? room : std::min(room, all / pieces + inches(0.5));
        Length used{};
        std::size_t end = first;
        while (end < matrix_.columns.size() && used + least(end) <= share)
            used += least(end++);
        return std::max(end, first + 1);
    }
    /// Room beyond what is needed goes to the label, then to the columns until comparisons stand on
    /// one line, then to the label again, then to all columns alike.
    MatrixWidths widths(std::size_t first, std::size_t end) const {
        const Length most_label = std::min(inches(4.3), width_ * 3 / 5);
        MatrixWidths result;
        result.section = section_width();
        result.label = least_label();
        for (std::size_t i = first; i < end; ++i)
            result.columns.push_back(least(i));
        Length over = width_ - result.total();
        result.label += std::min(over, fair_label() - result.label);
        over = width_ - result.total();
        Length wanted{};
        Length flat_wanted{};
        for (std::size_t i = first; i < end; ++i) {
            wanted += natural(i) - least(i);
            flat_wanted += flat(i) - least(i);
        }
        for (std::size_t i = first; i < end && flat_wanted <= over; ++i)
            result.columns[i - first] = flat(i);
        for (std::size_t i = first; i < end && flat_wanted > over; ++i) {
            result.columns[i - first] +=
                wanted <= over
                    ? natural(i) - least(i)
                    : scaled(natural(i) - least(i), over.in_points() / wanted.in_points());
        }
        over = width_ - result.total();
        result.label += std::min(over, most_label - result.label);
        over = width_ - result.total();
        for (Length& column : result.columns)
            column += over / static_cast<std::int64_t>(result.columns.size());
        result.label += width_ - result.total();
        return result;
    }

  private:
    const TableStyle& style() const { return job_.layout.table; }
    const TextStyle& body() const { return job_.layout.lettering.body; }
    const TextStyle& strong() const { return job_.layout.lettering.strong; }
    Length width_of(const SetLine& line) const {
        return formula_width(line.text, line.bold ? strong() : body(), job_.measure);
    }

    Length least_label() const { return std::min(inches(2.2), width_ * 2 / 5); }
    /// Holds most titles on one line; in a column of the sheet the least has to do.
    Length fair_label() const { return std::max(least_label(), std::min(inches(3.0), width_ / 4)); }
    Length section_width() const {
        Length width = job_.measure.width("SECTION", style().heading);
        Length word = width;
        for (const MatrixRow& row : matrix_.rows) {
            width = std::max(width, job_.measure.width(row.section, body()));
            word = std::max(word, longest_word(row.section, body()));
        }
        return std::max(word, std::min(width, inches(1.02))) + matrix_pad() * 2;
    }
    /// Least width of a column: comparisons broken before the relation, words at blanks.
    Length least(std::size_t column) const { return width_of_column(column, false); }
    /// Width at which a comparison stands on one line.
    Length natural(std::size_t column) const { return width_of_column(column, true); }
    /// Width at which every cell stands on one line.
    Length flat(std::size_t column) const {
        Length width = natural(column);
        for (const MatrixRow& row : matrix_.rows)
            width = std::max(width, width_of(one_line(row.cells[column])) + matrix_pad() * 2);
        return width;
    }
    Length width_of_column(std::size_t column, bool comparisons_whole) const {
        Length width = inches(0.45);
        for (const HeadingName& name : heading_names(matrix_.columns[column]))
            width = std::max(width, job_.measure.width(name.words, style().heading));
        for (const MatrixRow& row : matrix_.rows) {
            for (const CellLine& line : row.cells[column].lines) {
                const TextStyle& look = line.bold ? strong() : body();
                if (line.wraps) {
                    width = std::max(width, longest_word(line.text, look));
                } else if (comparisons_whole) {
                    width = std::max(width, formula_width(line.text, look, job_.measure));
                } else {
                    for (const std::string& part : sides_of(line.text))
                        width = std::max(width, formula_width(part, look, job_.measure));
                }
            }
        }
        return width + matrix_pad() * 2;
    }
    /// "104.65" and "≥ 71.76".
    static std::vector<std::string> sides_of(const std::string& comparison) {
        for (const std::string_view relation : {" ≤ ", " ≥ ", " < ", " > "}) {
            if (const auto at = comparison.find(relation); at != std::string::npos)
                return {comparison.substr(0, at), comparison.substr(at + 1)};
        }
        return {comparison};
    }
    Length longest_word(std::string_view text, const TextStyle& look) const {
        Length width{};
        while (!text.empty()) {
            const auto end = std::min(text.find(' '), text.size());
            width = std::max(width, formula_width(text.substr(0, end), look, job_.measure));
            text.remove_prefix(std::min(end + 1, text.size()));
        }
        return width;
    }

    const CalculationMatrix& matrix_;
    Length width_;
    const Job& job_;
};

} // namespace

std::vector<HeadingName> heading_names(const MatrixColumn& column) {
    constexpr std::size_t many = 6;
    std::vector<std::string> names;
    for (const MatrixSource* source : column.sources)
        names.push_back(source->name);
    std::vector<std::size_t> order(names.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    if (names.size() > many)
        order = counting_order(names);
    std::vector<std::string> ordered;
    std::vector<NameRun> runs;
    for (const std::size_t i : order) {
        runs.push_back({ordered.size(), 1});
        ordered.push_back(names[i]);
    }
    if (names.size() > many)
        runs = name_runs(ordered);
    std::vector<HeadingName> pieces;
    for (const NameRun& run : runs) {
        const bool last = run.first + run.count == names.size();
        pieces.push_back({run_words(ordered, run, "\u2013") + (last ? "" : ","), {}});
        for (std::size_t i = run.first; i < run.first + run.count; ++i)
            pieces.back().sources.push_back(column.sources[order[i]]);
    }
    return pieces;
}

SetLine one_line(const MatrixCell& cell) {
    if (cell.lines.empty())
        return {std::string(no_such_step)};
    SetLine line{cell.lines.front().text, cell.lines.front().bold};
    for (std::size_t i = 1; i < cell.lines.size(); ++i)
        line.text += "   " + cell.lines[i].text;
    return line;
}

std::size_t last_column(const CalculationMatrix& matrix, std::size_t first, Length width,
                        const Job& job) {
    return ColumnWidths(matrix, width, job).last_column(first);
}

MatrixWidths matrix_widths(const CalculationMatrix& matrix, std::size_t first, std::size_t end,
                           Length width, const Job& job) {
    return ColumnWidths(matrix, width, job).widths(first, end);
}

} // namespace ohmfolio::sheets
