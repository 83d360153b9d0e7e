#include "drawing/table.h"

#include <algorithm>
#include <numeric>
#include <optional>
#include <stdexcept>

#include "drawing/table_columns.h"

namespace ohmfolio {

namespace {

using Lines = std::vector<std::string>;

/// What stands under a table is read with rows of it: as many go with it to a further piece.
constexpr std::size_t rows_over_foot = 3;

/// One row, its texts broken into lines. A group heading has a single cell, as wide as the table.
struct SetRow {
    const Row* row = nullptr; ///< none for the heading of the columns and the title
    std::vector<Lines> cells;
    Length height;
    bool whole_width = false;
    bool shaded = false;
    bool again = false; ///< a group heading that stood on the piece before
};

/// Where the drawing of a piece stands.
struct Place {
    Length left, top, width;
};

class TableSetter {
  public:
    TableSetter(const Table& table, const TableStyle& style, std::vector<Length> widths,
                const TextMeasure& measure)
        : table_(table), style_(style), widths_(std::move(widths)), measure_(measure),
          width_(std::accumulate(widths_.begin(), widths_.end(), Length{})) {
        for (const Row& row : table_.rows)
            rows_.push_back(set(row));
    }

    std::vector<Frame> pieces(Length tallest, Length foot) const {
        std::vector<Frame> result;
        std::size_t first = 0;
        do {
            const std::vector<SetRow> heads = head(first, tallest);
            const std::size_t end = piece_end(heads, first, tallest, foot);
            result.push_back(piece(heads, first, end));
            first = end;
        } while (first < rows_.size());
        return result;
    }

  private:
    Length pad(const TextStyle& look) const {
        // The tails of letters hang into the padding; they must not touch the rule.
        return std::max(style_.pad_y, measure_.descent(look));
    }

    Length height(std::size_t lines, const TextStyle& look) const {
        const auto more = static_cast<std::int64_t>(std::max<std::size_t>(lines, 1)) - 1;
        return pad(look) * 2 + measure_.cap_height(look) + line_pitch(look) * more;
    }

    Lines lines(std::string_view text, const TextStyle& look, Length column) const {
        return wrapped(text, look, column - style_.pad_x * 2, measure_);
    }

    SetRow set(const Row& row) const {
        if (row.cells.size() > widths_.size()) {
            throw std::logic_error("a row of table \"" + table_.title +
                                   "\" has more cells than the table has columns");
        }
        SetRow result;
        result.row = &row;
        result.whole_width = result.shaded = row.heading;
        if (row.heading) {
            const std::string text = row.cells.empty() ? std::string{} : row.cells.front().text;
            result.cells = {lines(text, style_.heading, width_)};
            result.height = height(result.cells.front().size(), style_.heading);
            return result;
        }
        result.height = height(1, style_.body);
        for (std::size_t i = 0; i < row.cells.size(); ++i) {
            const TextStyle look = cell_style(row.cells[i], style_);
            result.cells.push_back(lines(row.cells[i].text, look, widths_[i]));
            result.height = std::max(result.height, height(result.cells.back().size(), look));
        }
        return result;
    }

    /// Title, heading of the columns and heading of the group that goes on: what the piece that
    /// begins with the row `first` has above it.
    std::vector<SetRow> head(std::size_t first, Length tallest) const {
        std::vector<SetRow> result = headings(first > 0);
        const std::optional<SetRow> group = group_going_on(first);
        // Where both do not fit, a row is worth more than the heading said again.
        if (group && height_of(result) + group->height + rows_[first].height <= tallest)
            result.push_back(*group);
        return result;
    }

    static Length height_of(const std::vector<SetRow>& rows) {
        Length sum;
        for (const SetRow& row : rows)
            sum += row.height;
        return sum;
    }

    /// The heading, as it is repeated, of the group that begins before the row `first`; none where
    /// that is a heading itself.
    std::optional<SetRow> group_going_on(std::size_t first) const {
        if (first >= rows_.size() || rows_[first].row->heading)
            return std::nullopt;
        while (first > 0) {
            if (rows_[--first].row->heading)
                return repeated(rows_[first]);
        }
        return std::nullopt;
    }

    SetRow repeated(const SetRow& heading) const {
        SetRow result = heading;
        if (heading.row->cells.empty())
            return result;
        result.again = true;
        // A table narrower than the word does without it.
        if (measure_.width(continued_suffix, style_.heading) > width_ - style_.pad_x * 2)
            return result;
        const std::string text = heading.row->cells.front().text + std::string(continued_suffix);
        result.cells = {lines(text, style_.heading, width_)};
        result.height = height(result.cells.front().size(), style_.heading);
        return result;
    }

    /// The title and the heading of the columns, which stand on every piece.
    std::vector<SetRow> headings(bool continued) const {
        std::vector<SetRow> result;
        if (!table_.title.empty()) {
            std::string text = table_.title;
            if (continued)
                text += continued_suffix;
            SetRow title;
            title.cells = {lines(text, style_.title, width_)};
            title.height = height(title.cells.front().size(), style_.title);
            title.whole_width = true;
            result.push_back(std::move(title));
        }
        SetRow heading;
        std::size_t most = 0;
        for (std::size_t i = 0; i < widths_.size(); ++i) {
            heading.cells.push_back(lines(table_.columns[i].heading, style_.heading, widths_[i]));
            most = std::max(most, heading.cells.back().size());
        }
        heading.height = height(most, style_.heading);
        heading.shaded = true;
        const bool any = std::ranges::any_of(
            table_.columns, [](const Column& column) { return !column.heading.empty(); });
        if (any)
            result.push_back(std::move(heading));
        return result;
    }

    /// One past the last row of the piece that begins with `first`; at least one row is taken.
    std::size_t piece_end(const std::vector<SetRow>& heads, std::size_t first, Length tallest,
                          Length foot) const {
        Length used = height_of(heads);
        std::size_t end = first;
        while (end < rows_.size() && used + rows_[end].height <= tallest)
            used += rows_[end++].height;
        if (end == rows_.size()) {
            if (used + foot <= tallest)
                return end;
            end -= std::min(rows_over_foot, end - first);
        }
        std::size_t fair = end;
        while (fair > first && rows_[fair - 1].row->heading)
            --fair;
        // Nothing but group headings fit: keep going rather than leave an empty piece.
        if (fair == first)
            fair = std::max(end, first + 1);
        return fair;
    }

    Frame piece(const std::vector<SetRow>& heads, std::size_t first, std::size_t end) const {
        std::vector<const SetRow*> rows;
        rows.reserve(heads.size());
        for (const SetRow& row : heads)
            rows.push_back(&row);
        for (std::size_t i = first; i < end; ++i)
            rows.push_back(&rows_[i]);

        Frame frame;
        frame.size.width = width_;
        for (const SetRow* row : rows)
            frame.size.height += row->height;
        draw_grounds(frame, rows);
        draw_rules(frame, rows);
        Length top;
        bool within = false; // the title stands before what a reader takes for the table
        for (const SetRow* row : rows) {
            if (!within && !is_title(*row)) {
                frame.begin(Part::Kind::table);
                within = true;
            }
            draw_row(frame, *row, top);
            top += row->height;
        }
        if (within)
            frame.end(Part::Kind::table);
        return frame;
    }

    void draw_grounds(Frame& frame, const std::vector<const SetRow*>& rows) const {
        Length top;
        for (const SetRow* row : rows) {
            if (row->shaded) {
                frame.add(filled_rectangle(box_at({{}, top}, {width_, row->height}),
                                           style_.heading_ground),
                          Role::ground);
            }
            top += row->height;
        }
    }

    void draw_rules(Frame& frame, const std::vector<const SetRow*>& rows) const {
        const auto rule = [&](Point from, Point to) {
            frame.add(polyline({from, to}, style_.rule), Role::rule);
        };
        Length top;
        Length columns_top; // where the upright rules now being drawn began
        const auto uprights = [&](Length from, Length to) {
            Length x;
            for (std::size_t i = 0; i + 1 < widths_.size() && from < to; ++i) {
                x += widths_[i];
                rule({x, from}, {x, to});
            }
        };
        for (std::size_t i = 0; i < rows.size(); ++i) {
            if (i > 0)
                rule({{}, top}, {width_, top});
            if (rows[i]->whole_width) {
                uprights(columns_top, top);
                columns_top = top + rows[i]->height;
            }
            top += rows[i]->height;
        }
        uprights(columns_top, top);
        frame.add(rectangle(box_at({}, frame.size), style_.frame), Role::rule);
    }

    static bool is_title(const SetRow& row) { return row.row == nullptr && row.whole_width; }

    void draw_row(Frame& frame, const SetRow& row, Length top) const {
        if (is_title(row)) {
            frame.begin(Part::Kind::heading);
            draw_lines(frame, row.cells.front(), {{}, top, width_}, style_.title, Align::centre,
                       {});
            frame.end(Part::Kind::heading);
            return;
        }
        frame.begin(Part::Kind::row);
        draw_cells(frame, row, top);
        frame.end(Part::Kind::row);
    }

    void draw_cells(Frame& frame, const SetRow& row, Length top) const {
        Length left;
        for (std::size_t i = 0; i < row.cells.size(); ++i) {
            const Place place{left, top, row.whole_width ? width_ : widths_[i]};
            left += place.width;
            if (row.row == nullptr) {
                frame.begin(Part::Kind::heading_cell);
                draw_column_heading(frame, row, i, place);
                frame.end(Part::Kind::heading_cell);
                continue;
            }
            static const Cell nothing;
            const Cell& cell = row.row->cells.empty() ? nothing : row.row->cells[i];
            const TextStyle look = row.whole_width ? style_.heading : cell_style(cell, style_);
            const Align align =
                row.whole_width ? Align::left : cell.align.value_or(table_.columns[i].align);
            const auto kind = row.whole_width ? Part::Kind::heading_cell : Part::Kind::cell;
            frame.begin(kind);
            draw_lines(frame, row.cells[i], place, look, align, cell.shows);
            frame.end(kind);
            draw_references(frame, cell, box_at({place.left, top}, {place.width, row.height}),
                            row.again);
        }
    }

    /// Headings with fewer lines than their neighbours stand in the middle of the row's height.
    void draw_column_heading(Frame& frame, const SetRow& row, std::size_t i, Place place) const {
        place.top += (row.height - height(row.cells[i].size(), style_.heading)) / 2;
        draw_lines(frame, row.cells[i], place, style_.heading, table_.columns[i].align, {});
    }

    void draw_lines(Frame& frame, const Lines& lines, const Place& place, const TextStyle& look,
                    Align align, const std::string& shows) const {
        Point at{place.left + style_.pad_x, place.top + pad(look) + measure_.cap_height(look)};
        if (align == Align::centre)
            at.x = place.left + place.width / 2;
        if (align == Align::right)
            at.x = place.left + place.width - style_.pad_x;
        for (const std::string& line : lines) {
            if (!line.empty())
                frame.add(Text{at, line, look, align}, Role::lettering, shows);
            at.y += line_pitch(look);
        }
    }

    /// What stands again is no second place to be led to.
    static void draw_references(Frame& frame, const Cell& cell, const Box& area, bool again) {
        if (!cell.link.empty())
            frame.add(Link{area, cell.link}, Role::none, cell.shows);
        if (!cell.anchor.empty() && !again)
            frame.add(Anchor{area.low, cell.anchor}, Role::none, cell.shows);
    }

    const Table& table_;
    const TableStyle& style_;
    std::vector<Length> widths_;
    const TextMeasure& measure_;
    Length width_;
    std::vector<SetRow> rows_;
};

} // namespace

std::vector<Frame> set_table(const Table& table, const TableStyle& style, Length width,
                             Length tallest, bool stretch, const TextMeasure& measure,
                             Length foot) {
    if (table.columns.empty())
        return {};
    const TableSetter setter(table, style, column_widths(table, style, width, stretch, measure),
                             measure);
    return setter.pieces(tallest, foot);
}

} // namespace ohmfolio
